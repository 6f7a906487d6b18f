// What a quote says beside its price, in words: copies, the volumes of a set, repairs, what is in custody,
// and work by other hands.
#pragma once

#include "cli/words/paper_style.h"
#include "engine/commission/commission.h"

#include <string>
#include <string_view>
#include <vector>

namespace endband::cli {

// What one is called of what is ordered: "book", "set" or "box", with what follows a count of them.
struct Ordered {
  std::string_view one, more;
};
Ordered ordered(std::string_view binding, bool set);

// "1 book 300.00; 5 books 1300.00; the next one 250.00 EUR." Empty where no other count was priced.
std::string copies_words(std::vector<BuyerCopies> const& prices, Ordered what,
                         NumberStyle const& numbers = {});
// What one more copy adds to the price of those asked for; none where it was not priced.
std::optional<Money> next_copy(std::vector<BuyerCopies> const& prices);
std::vector<BuyerCopies> copies_of(FrozenQuote const& quote);

// "Repairs are an estimate, between 80.00 and 240.00 EUR; we stop and ask before they pass 150.00."
std::string repairs_words(BuyerRepairs const& repairs, NumberStyle const& numbers = {});
std::string ready_words(
    BuyerQuote const& quote);  // the day, and what starts the clock; empty where none is named
// "A psalter of 1790, boards loose; declared to be worth 400.00 EUR"
std::string custody_words(InCustody const& left, NumberStyle const& numbers = {});
std::string shares_words(SetShares shares);  // a sentence, or empty

// "12.5 dm2 x 3.20, at least 25.00, carriage 9.00; from Gilt Edge Works; back after 14 days": for the binder.
std::string outside_rule(Outside const& outside);

}  // namespace endband::cli
