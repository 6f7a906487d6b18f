// The flags that say a skin's outline, read: see shape_flags. Apart from the command line, so that a test can
// say them.
#pragma once

#include "engine/cutting/request.h"
#include "engine/fault/fault.h"

#include <optional>
#include <string>
#include <string_view>

namespace endband::cli {

struct ShapeTexts {
  std::optional<std::string> stations, corners, drawing, svg_unit, flaw;
  std::string drawing_name;  // of the file whose text `drawing` is
  std::optional<std::string> flank{}, belly{};
};

// Every fault at once, its field the flag; of a place in the drawing, its source and line too. One of
// stations, corners and drawing is said.
Read<endband::Shape> read_shape(ShapeTexts const& said);

}  // namespace endband::cli
