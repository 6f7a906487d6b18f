// What the tests of taking back share.
#pragma once

#include "db/jobs.h"
#include "db/undo.h"
#include "tests/db/shelf.h"
#include "tests/db/standing.h"

#include <sstream>
#include <string>
#include <string_view>

namespace endband::db::test {

// A quote of any materials asks the price of each.
struct PricedShelf : Shelf {
  explicit PricedShelf(std::string_view formula = "first-in-first-out") : Shelf(formula) {
    write(workshop, [](Writing& writing) {
      add_price(writing, "board", pack_of_sheets(50, 4000, "2026-01-01")).value();
      PackPrice skin = pack_of_sheets(1, 6600, "2026-01-01");
      skin.pack = cm2(6000);
      return add_price(writing, "goat", skin).value();
    });
  }
};

inline std::int64_t newest(Workshop& workshop) { return log_entries(workshop, 1).front().seq; }

inline Read<std::vector<Undone>> take_back(Workshop& workshop, std::int64_t entry,
                                           std::string_view on = "2026-11-25") {
  if (auto stands = standing_entry(workshop, entry); !stands) return tl::unexpected(stands.error());
  EntryInfo own = info("workshop undo " + std::to_string(entry), on);
  own.undoes = entry;
  Writing writing(workshop, own);
  auto undone = undo(writing, entry);
  if (undone) writing.commit();
  return undone;
}

// The reasons of a refusal, a line each.
inline std::string reasons(Read<std::vector<Undone>> const& undone) {
  std::string text;
  if (!undone)
    for (Fault const& fault : undone.error()) text += fault.found + ": " + fault.expected + "\n";
  return text;
}

// The first line in which two texts differ, of both.
inline std::string difference(std::string const& a, std::string const& b) {
  std::istringstream left(a), right(b);
  std::string one, other;
  do {
    one.clear(), other.clear();
    std::getline(left, one), std::getline(right, other);
  } while (one == other && (left || right));
  return one == other ? "" : one + " <> " + other;
}

inline FrozenQuote quote_of_today(Workshop& workshop, std::uint64_t seed) {
  FrozenQuote quote = any_quote(workshop, seed);
  quote.on = day("2026-11-25");
  return quote;
}

}  // namespace endband::db::test
