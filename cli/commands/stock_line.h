// The lines of a parcel as a binder says them.
#pragma once

#include "engine/fault/fault.h"
#include "engine/stock/quantity_said.h"

#include <string>
#include <string_view>

namespace endband::cli {

// "goat-moss-08 0.61 m2 66.00": the code, the quantity, the price, which may name its currency.
struct LineParts {
  std::string code, quantity, price;
};
enum class Priced : std::uint8_t { yes, no };  // a customer's own goods have no price
Read<LineParts> split_line(std::string_view line, Priced priced);

}  // namespace endband::cli
