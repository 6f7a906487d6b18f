// The first path of an SVG drawing, out of the text of its file.
//
// This is no reader of all XML, and reads no more than it needs: elements with their attributes; comments,
// CDATA, processing instructions and a document type are passed over. The path is the first `path` element
// that has a `d` and is drawn where it stands (not within defs, clipPath, marker, mask, pattern or symbol); a
// prefix such as svg: is left away. Refused, because what is drawn would not be what is read: a transform on
// the path or on what it lies in, as an attribute or in a style; an entity within the path's data; a viewBox
// does not matter, for a unit is one of the path's numbers.
#pragma once

#include "engine/fault/fault.h"

#include <cstddef>
#include <string>
#include <string_view>

namespace endband::cli {

struct DrawnPath {
  std::string data;    // of the attribute `d`
  std::size_t at = 0;  // where it begins, in bytes of the file
};
// Faults, without a source: with line and column bad_syntax and contradiction (a transform); without them
// bad_value, when there is no path.
Read<DrawnPath> first_path(std::string_view file);

// Line and column of a byte of the file.
Where place_in(std::string_view file, std::size_t at);

}  // namespace endband::cli
