// From the buyer's price to the maker's, for the binder.
#pragma once

#include "cli/document/document.h"
#include "cli/document/json.h"
#include "engine/commission/commission.h"

#include <optional>

namespace endband::cli {

// Line by line, in the outlet's currency and, where that is another, then in the workshop's.
void add_walk(Document& document, Walk const& walk, SellingRules const& selling, Currency shop);
void add_walk(Document& document, FrozenQuote const& quote);  // nothing without outlet and discount
void add_sending(Document& document, std::optional<SentBy> const& by);

Json sent_by_json(std::optional<SentBy> const& sent);
Json walk_json(Walk const& walk, SellingRules const& selling);
// What a quote keeps of its sale: outlet, walk, discount, made to order, parcel.
Json selling_json(FrozenQuote const& quote);

}  // namespace endband::cli
