// The units people write, for the .cpp files of this module.
#pragma once

#include "engine/measure/measure.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace endband {

// One of it is num / den of the whole unit that the quantity counts in.
struct SpelledUnit {
  std::string_view name;  // as unit_name gives it
  std::int64_t num;
  std::int64_t den = 1;
};

std::span<SpelledUnit const> length_units();     // of 1 um
std::span<SpelledUnit const> area_units();       // of 1 um2
std::span<SpelledUnit const> mass_units();       // of 1 mg
std::span<SpelledUnit const> volume_units();     // of 1 ul
std::span<SpelledUnit const> count_units();      // of 1/1000 of a piece
std::span<SpelledUnit const> duration_units();   // of 1 s
std::span<SpelledUnit const> thickness_units();  // of 1 nm

// What was written, brought to one spelling: "Sq. Ft" is "sq ft", a superscript two "2", a Greek mu "u".
std::string unit_name(std::string_view said);

std::optional<SpelledUnit> find_unit(std::span<SpelledUnit const> units, std::string_view said);

// Those units that may have been meant.
std::vector<std::string> near_units(std::span<SpelledUnit const> units, std::string_view said);

}  // namespace endband
