// Text within SVG and HTML.
#pragma once

#include <string>
#include <string_view>

namespace endband::cli {

// For the text of an element and for an attribute alike; what is no character of XML is the replacement
// character. `lines`: line feeds stay.
std::string escaped(std::string_view text, bool lines = false);

}  // namespace endband::cli
