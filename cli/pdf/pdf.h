// A document as PDF: pages of a fixed size with real letters in them. The writer is a module of its own
// beside the program, loaded when a page is asked for, so that no other command waits for a type-setting
// library. Same document, same bytes, wherever the same typefaces are installed.
#pragma once

#include "cli/document/document.h"
#include "cli/document/page.h"
#include "engine/fault/fault.h"

#include <string>

namespace endband::cli {

struct PdfFile {
  std::string bytes;
  std::string without_letters;  // the characters that no typeface here can show: their place holds a box
  std::string typeface;         // what was set instead of EB Garamond; empty: EB Garamond it is
};

// Faults: file_unusable, when the module or its libraries cannot be loaded or the page cannot be made.
Read<PdfFile> to_pdf(Document const& document, Page const& page);

}  // namespace endband::cli
