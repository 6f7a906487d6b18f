// The first field in which two frozen quotes differ, or nothing. Written out field by field, apart from the
// lists of columns that the store itself walks.
#pragma once

#include "engine/commission/commission.h"

#include <string>

namespace endband::db::test {

std::string first_difference(FrozenQuote const& a, FrozenQuote const& b);

}  // namespace endband::db::test
