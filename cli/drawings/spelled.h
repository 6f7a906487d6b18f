// A title letter by letter, large, each in a box of its own: a slip of the pen is seen before it is tooled.
#pragma once

#include "cli/drawings/sketch.h"

#include <string>
#include <string_view>
#include <vector>

namespace endband::cli {

// What stands in one box: a letter with the accents that are put on it. A blank is one too.
std::vector<std::string> letters_apart(std::string_view line);

// Lines part at " / ", and again where they are wider than the paper.
Drawing draw_spelled(std::string_view title, Paper room);

}  // namespace endband::cli
