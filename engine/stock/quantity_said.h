// How much of a material, as a binder says it.
#pragma once

#include "engine/catalogue/catalogue.h"
#include "engine/fault/fault.h"
#include "engine/measure/measure.h"

#include <optional>
#include <string>
#include <string_view>

namespace endband {

struct SaidQuantity {
  Amount amount;                        // in the material's dimension
  std::optional<Length> height, width;  // where a size was said: "300 x 200 mm"
};

enum class Least : std::uint8_t { nothing, something };  // whether a quantity of 0 is one

// A quantity of this material in its own units ("12 sheets", "0.61 m2"), in packs as it is sold ("2 packs",
// "2 pads", "3 books" of leaf, "1 roll": the pack of the price in force), or as one piece of a size ("300 x
// 200 mm"). Faults, with an empty `where`: missing_unit, wrong_unit (with what would be right), no_price,
// out_of_range, and those of offcut_amount.
Read<SaidQuantity> read_quantity_of(Material const& material, std::string_view text, Least least);

// "sheets, such as 12 sheets"
std::string quantity_example(Material const& material);

}  // namespace endband
