// Finished commissions, each as small as comparing many of them needs.
#pragma once

#include "engine/book/operation.h"
#include "engine/measure/measure.h"
#include "engine/money/money.h"

#include <bitset>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace endband {

// Work that some books have and others do not, by which past books are compared: one row of a table each.
struct FeatureRow {
  std::string_view name;                 // "stone"
  std::string_view words;                // "a stone set into the cover"
  std::span<OperationKind const> kinds;  // any of them makes it
};
std::span<FeatureRow const> feature_table();
inline constexpr std::size_t most_features = 64;
using Features = std::bitset<most_features>;  // by row of the table
// Of the rows that an operation makes.
Features features_made_by(OperationKind kind);

// One finished commission. Money is the workshop's, without tax. `price` is what was agreed, `full_price`
// what it would have been without what was given away (a discount, a gift, a lower price agreed).
struct PastJob {
  std::int64_t job = 0;
  std::string number, title, binding;
  std::string outlet;    // code; empty: sold by the workshop itself
  std::string customer;  // code; empty: for the shelf
  Date quoted_on, ended;
  Money full_price, price;
  Money left_quoted, left;  // after all costs, fees and carriage; of `price`
  Money left_given;         // what would have been left more of the full price, an outlet's share of it off
  Money labour_quoted, labour;  // the binder's own pay, which earnings an hour count in
  std::int64_t seconds_quoted = 0, seconds = 0;
  Features features;

  Money given_away() const { return full_price - price; }
};

// Sums over some of them. Margins are of the full price, what was given away added back: a gift says nothing
// of what a kind of book earns.
struct PastSum {
  std::int64_t count = 0;
  Money full_price, given_away, left_given, left_quoted, left, labour;
  std::int64_t seconds_quoted = 0, seconds = 0;

  explicit PastSum(Currency currency);
  void add(PastJob const& job);
  std::optional<Ratio> margin_quoted() const;  // (left_quoted + left_given) / full_price; none: no price
  std::optional<Ratio> margin() const;
  std::optional<Money> hourly() const;  // (left + left_given + labour) / hours; none: no hours
};

enum class GroupBy : std::uint8_t { binding, feature, outlet, customer, month };
std::string_view group_by_name(GroupBy by);
std::optional<GroupBy> group_by_named(std::string_view name);
inline constexpr std::int64_t few = 5;  // fewer are no ground to build on

struct PastGroup {
  std::string name;  // "raised-cords", "stone", "2026-03"; empty: sold by the workshop itself, for the shelf
  PastSum sum;
};
// Each job once, but by feature once for each that it has, and `without` those it has none of. By name.
std::vector<PastGroup> grouped(std::span<PastJob const> jobs, GroupBy by, Currency currency);

}  // namespace endband
