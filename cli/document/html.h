// A document as one HTML file that needs no other: no script, no address, drawings within. It reads at any
// width, and prints on paper. Same document, same bytes.
#pragma once

#include "cli/document/document.h"
#include "cli/document/page.h"

#include <string>

namespace endband::cli {

std::string to_html(Document const& document, Page const& page);

}  // namespace endband::cli
