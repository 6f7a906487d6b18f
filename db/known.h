// What a workshop knows by name: for completing a command line while it is typed. Nothing here writes.
#pragma once

#include "db/workshop.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace endband::db {

enum class Known : std::uint8_t {
  material,
  customer,
  service,
  tax_class,
  quote,
  job,
  listing,
  lot,
  outlet,
  person,
  place,
  gate,
  outside,
  lot_place,
  supplier,
  setting,  // names that were ever set
  entry,
};
inline constexpr std::size_t known_count = 17;

struct KnownName {
  std::string word;   // "26-014b"
  std::string about;  // "Tides for a Small Boat"; may be empty
};

// Those that begin with `begins`, the newest or the first of the alphabet first, at most four hundred.
std::vector<KnownName> known_names(Workshop& workshop, Known what, std::string_view begins);

}  // namespace endband::db
