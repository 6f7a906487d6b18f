// What work by another's hands comes to: a price for the whole, a piece, a dm2 or a skin, and how many of
// them the order has.
#pragma once

#include "engine/book/structure.h"
#include "engine/costing/costing.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace endband {

// BookSpec::outside with its prices read in the workshop's currency. Money of no currency is nothing.
struct OutsideTerms {
  std::string words;
  Money price;  // of the whole, a piece, a dm2 or a skin
  bool at_cost = true;
  OutsideKind kind = OutsideKind::other;
  OutsideBy by = OutsideBy::whole;
  std::string supplier = {};
  std::int64_t count = 1;         // by piece
  std::optional<Area> area = {};  // by dm2; none: of the edges, or of the leather
  Money least_charge = {}, carriage = {};
  Ratio redo = {};
  bool each_copy = true;
  Duration lead = {};
};

// What there is to work on: of one copy, but the skins of the whole order.
struct OutsideMeasures {
  Area edges;    // of the volumes' edges
  Area leather;  // of the pieces of the cover
  std::int64_t skins = 0;
  int copies = 1;
};
OutsideMeasures measures_of(std::span<Structure const> volumes, BookSpec const& book, Bill const& bill,
                            int copies);

// each x quantity rounded once, half away; no less than the least charge, which is for all that goes out
// together; and carriage once. What is not done for each copy (a die) is paid once. Throws Overflow, and
// std::logic_error for an area that nobody said of work that has none.
Outside outside_of(OutsideTerms const& terms, OutsideMeasures const& measures, Currency currency);

// What `each`, `quantity`, `least_charge` and `carriage` come to: Outside::price.
Money price_of(Outside const& outside);

}  // namespace endband
