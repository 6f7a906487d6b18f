// A frozen quote to its rows and back, field for field; how the rows are found. Inside db/ only.
#pragma once

#include "db/connection.h"
#include "engine/commission/commission.h"

#include <cstdint>
#include <string_view>
#include <vector>

namespace endband::db {

// A condition: quote `q` was not taken back.
inline constexpr std::string_view not_withdrawn =
    "NOT EXISTS (SELECT 1 FROM quote_event w WHERE w.quote = q.id AND w.event = 'withdrawn' AND w.undoes IS "
    "NULL)";

// The ids of the commissions that a number may mean, as a subquery: ?1 the count, ?2 the year of the century
// or NULL. Through the few years there are, each found by its index: it takes as long among ten quotes as
// among 100,000.
inline constexpr std::string_view asked_commissions =
    "(WITH RECURSIVE years (year) AS (SELECT min(year) FROM commission UNION ALL "
    "SELECT (SELECT min(year) FROM commission WHERE year > years.year) FROM years "
    "WHERE years.year IS NOT NULL) SELECT n.id FROM years JOIN commission n ON n.year = years.year "
    "WHERE n.count = ?1 AND (?2 IS NULL OR n.year % 100 = ?2))";

// What the row of a quote has beside the frozen quote.
struct QuoteIdentity {
  int year = 0, count = 0;
  std::string issue;
  std::int64_t customer = 0;  // 0: none
  Date valid_until;
  std::int64_t entry = 0;
};
QuoteIdentity load_identity(Connection& connection, std::int64_t quote);

// The row of a quote in its commission and all its parts, sealed. `identity` needs no year and count.
std::int64_t save_frozen(Connection& connection, std::int64_t commission, QuoteIdentity const& identity,
                         FrozenQuote const& frozen);
// All rows of a quote but its own in `quote`, which has the number.
void save_parts(Connection& connection, std::int64_t quote, FrozenQuote const& frozen);
// Throws std::out_of_range when there is no such quote.
FrozenQuote load_frozen(Connection& connection, std::int64_t quote);

struct PartSeal {
  std::string part;  // the table
  std::int64_t seal = 0;
  friend bool operator==(PartSeal const&, PartSeal const&) = default;
};
// One for each table that holds a quote's parts, in the order of their names.
std::vector<PartSeal> seals_of(Currency currency, QuoteIdentity const& identity, FrozenQuote const& frozen);
void save_seals(Connection& connection, std::int64_t quote, std::vector<PartSeal> const& seals);
std::vector<PartSeal> load_seals(Connection& connection, std::int64_t quote);

}  // namespace endband::db
