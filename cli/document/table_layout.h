// A table as lines of text: columns as wide as their widest cell, decimals under decimals, and, where a width
// is given, the least important columns dropped and then the longest words wrapped. Money is never dropped or
// wrapped.
#pragma once

#include "cli/document/document.h"

#include <cstddef>
#include <string>
#include <vector>

namespace endband::cli {

// width 0: as wide as it takes. The first line is the header.
std::vector<std::string> lay_out(Table const& table, std::size_t width);

}  // namespace endband::cli
