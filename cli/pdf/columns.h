// How a table's columns share the width of a page.
#pragma once

#include "cli/document/document.h"
#include "cli/pdf/type.h"

#include <vector>

namespace endband::cli::pdf {

struct Columns {
  double size = 11;            // of the letters: smaller where the table would not fit otherwise
  std::vector<double> left;    // of each column
  std::vector<double> width;   // without the gap behind it
  std::vector<double> behind;  // of a decimal column: room behind the point's left side
};

// Numbers are never broken: columns of words give way, then the letters do.
Columns columns_of(Type& type, Table const& table, double width, double size);

// "12" and ".50"; what has no point is all before it.
std::pair<std::string_view, std::string_view> at_the_point(std::string_view cell);

}  // namespace endband::cli::pdf
