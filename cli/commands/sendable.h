// What must stand on a quote before a customer is given it.
#pragma once

#include "cli/command/args.h"
#include "db/quotes.h"

#include <vector>

namespace endband::cli {

// All that is missing, each with what mends it: how it is delivered, the maker's name and address, why the
// book is or is not made to order with the owner's text for that, papers of restricted materials that go
// abroad. Quotes of earlier rules, which kept none of it, lack nothing.
std::vector<Fault> not_sendable(db::Workshop& workshop, db::QuoteHeader const& header, Args const& args);

}  // namespace endband::cli
