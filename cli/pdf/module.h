// What the program and its PDF module know of each other. Both are of one build: a module of another version
// is refused before anything is handed to it.
#pragma once

#include "cli/pdf/pdf.h"

#include <string>

namespace endband::cli {

inline constexpr char pdf_module_file[] = "endband-pdf.so";
inline constexpr char pdf_version_symbol[] = "endband_pdf_version";
inline constexpr char pdf_write_symbol[] = "endband_write_pdf";

// False when it could not be made; `why` says what the libraries said.
using WritePdf = bool (*)(Document const& document, Page const& page, PdfFile& file, std::string& why);

}  // namespace endband::cli
