// What a frozen quote keeps of its sale: the outlet it goes through and what that leaves, discounts, options.
#pragma once

#include "db/quote_visitors.h"

namespace endband::db {

void save_selling(Saver& saver, FrozenQuote const& quote);
void load_selling(Loader& loader, FrozenQuote& quote);
void seal_selling(Sealer& sealer, FrozenQuote const& quote);

}  // namespace endband::db
