// A quote as a Quotation of the OASIS Universal Business Language 2.1.
#pragma once

#include "cli/commands/quote_paper.h"

#include <string>

namespace endband::cli {

// The whole document, in UTF-8. Nothing reaches it but what the buyer's paper says.
std::string to_ubl(QuotePaper const& paper, PaperLevel level);

}  // namespace endband::cli
