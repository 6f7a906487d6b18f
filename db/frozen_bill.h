// What a frozen quote's bill has beside its lines: the uses of each, and the materials as they were.
#pragma once

#include "db/quote_visitors.h"

#include <vector>

namespace endband::db {

// A stored line has one dimension. check: std::logic_error where one in memory has two; restore: after
// loading.
void check_dimensions(Bill const& bill);
void restore_dimensions(Bill& bill);

void save_uses(Connection& connection, std::int64_t quote, Bill const& bill);
void load_uses(Connection& connection, std::int64_t quote, Bill& bill);
void seal_uses(Sealer& sealer, Bill const& bill);

// Only the versions are stored: they are immutable, so their ids say all.
void save_materials(Connection& connection, std::int64_t quote, std::vector<Material> const& materials);
std::vector<Material> load_materials(Connection& connection, std::int64_t quote);
void seal_materials(Sealer& sealer, std::vector<Material> const& materials);

}  // namespace endband::db
