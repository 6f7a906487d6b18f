// A document as one HTML file that needs no other: no script, no address, drawings within. It reads at any
// width, and prints on paper. Same document, same bytes.
#pragma once

#include "cli/document/document.h"

#include <string>

namespace endband::cli {

struct HtmlPage {
  std::string title;    // of the window
  std::string foot;     // at the foot of each printed page, before its number
  std::string mark;     // across the top of a page that is not for everybody; empty: none
  bool letter = false;  // US Letter; else A4
};

std::string to_html(Document const& document, HtmlPage const& page);

}  // namespace endband::cli
