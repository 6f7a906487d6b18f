// A quote in the words a buyer reads. It takes a BuyerQuote, which has no place for a cost, an hour or a
// supplier.
#pragma once

#include "engine/commission/commission.h"

#include <string>
#include <vector>

namespace endband::cli {

std::string binding_words(BuyerQuote const& quote);                         // the book in a sentence or two
std::string component_words(BuyerQuote const& quote, Component component);  // one line of the paper
std::vector<std::string> notice_words(BuyerQuote const& quote);

}  // namespace endband::cli
