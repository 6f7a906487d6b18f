// Quotes that a buyer may still say yes to.
#pragma once

#include "db/quotes.h"

#include <vector>

namespace endband::db {

// Those whose last day is not before `on`, whatever has happened to them since; the newest first.
std::vector<QuoteHeader> quotes_valid_on(Workshop& workshop, Date on);

}  // namespace endband::db
