// Labels for what lies on the shelf, drawn at true size on sheets to cut apart.
#pragma once

#include "cli/document/drawing.h"

#include <string>
#include <vector>

namespace endband::cli {

struct Label {
  std::string mark;                // "L12": large, for it is what one looks for
  std::string name, size;          // "goat, moss, 0.8 mm"; "300 x 200 mm"
  std::vector<std::string> small;  // lines below
};

inline constexpr std::size_t labels_a_sheet = 8;  // two beside each other, four below

// Each sheet is a drawing of 176 x 232 mm, which A4 and US Letter hold within their margins.
std::vector<Drawing> label_sheets(std::vector<Label> const& labels);

}  // namespace endband::cli
