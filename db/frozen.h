// A frozen quote to its rows and back, field for field.
#pragma once

#include "db/connection.h"
#include "engine/commission/commission.h"

#include <cstdint>

namespace endband::db {

// All rows of a quote but its own in `quote`, which has the number.
void save_parts(Connection& connection, std::int64_t quote, FrozenQuote const& frozen);
// Throws std::out_of_range when there is no such quote.
FrozenQuote load_frozen(Connection& connection, std::int64_t quote);

}  // namespace endband::db
