// Text within SVG, HTML and XML.
#pragma once

#include <string>
#include <string_view>

namespace endband::cli {

// What is no character of XML 1.0 replaced: control characters by their pictures. Nothing is escaped.
std::string xml_characters(std::string_view text, bool lines = false);

// For the text of an element and for an attribute alike; what is no character of XML is the replacement
// character. `lines`: line feeds stay.
std::string escaped(std::string_view text, bool lines = false);

// As RFC 4648, section 4.
std::string base64(std::string_view bytes);

}  // namespace endband::cli
