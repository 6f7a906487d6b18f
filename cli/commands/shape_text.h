// Sizes as they are read off a rule laid on a skin: groups of numbers parted by commas, with one unit at the
// end: "0 0, 640 0, 600 480, 20 500 mm". A point parts the decimals; the process locale never matters.
#pragma once

#include "engine/fault/fault.h"
#include "engine/money/money.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace endband::cli {

struct SaidGroup {
  std::string text;              // "640 0", as it was said
  std::vector<std::int64_t> um;  // rounded half away
};

// One unit for all: mm, cm, m or in. Every fault of the text at once, with an empty `where`: missing_unit,
// wrong_unit, bad_syntax, out_of_range (more than 10 m either way). `example` is what would be right, with
// its unit.
Read<std::vector<SaidGroup>> read_groups(std::string_view text, std::string_view example);

// Such texts parted by semicolons. One without a unit has that of the last.
using SaidGroups = std::vector<SaidGroup>;
Read<std::vector<SaidGroups>> read_lists(std::string_view text, std::string_view example);

// "1 mm", "0.2646 mm", "1/96 in": exactly, in micrometres; from a micrometre to a metre.
Read<Ratio> read_svg_unit(std::string_view text);

}  // namespace endband::cli
