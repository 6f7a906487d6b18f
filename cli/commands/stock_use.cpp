#include "cli/commands/stock_use.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <set>

namespace endband::cli {
namespace {

constexpr double days_a_year = 365;

bool is_use(MovementKind kind) {
  return kind == MovementKind::used || kind == MovementKind::cut_away || kind == MovementKind::spoiled ||
         kind == MovementKind::kept;
}

Date months_before(Date on, int months) {
  std::chrono::year_month_day const day(on);
  auto earlier = day - std::chrono::months(months);
  if (!earlier.ok()) earlier = earlier.year() / earlier.month() / std::chrono::last;
  return Date(earlier);
}

// The step in which people count goods sold so, in base units.
std::int64_t step_of(SoldBy sold_by) {
  switch (sold_by) {
    case SoldBy::sheet:
    case SoldBy::pad:
    case SoldBy::piece:
    case SoldBy::leaf_book: return 1'000;      // one
    case SoldBy::skin: return 10'000'000'000;  // a square decimetre
    case SoldBy::length: return 100'000;       // ten centimetres
    case SoldBy::weight:
    case SoldBy::volume: return 1'000;  // a gram, a millilitre
  }
  return 1;
}

std::optional<std::int64_t> rounded_up(double quantity, std::int64_t step) {
  double const steps = std::ceil(quantity / static_cast<double>(step));
  constexpr double most = 1e15;
  if (!(steps >= 0) || steps * static_cast<double>(step) > most * 1000) return std::nullopt;
  return checked_mul(static_cast<std::int64_t>(steps), step);
}

}  // namespace

double PastUse::a_day() const {
  return days == 0 ? 0 : std::max(static_cast<double>(used), 0.0) / static_cast<double>(days);
}

std::int64_t PastUse::deviation() const {
  if (days < 2) return 0;
  auto const n = static_cast<double>(days);
  double const mean = static_cast<double>(used) / n;
  double const variance = std::max(sum_of_squares - n * mean * mean, 0.0) / (n - 1);
  return static_cast<std::int64_t>(std::ceil(std::sqrt(variance)));
}

std::map<std::string, PastUse> uses_of(std::span<db::MovementRow const> movements, Date on, int months) {
  struct Days {
    std::optional<Date> first;  // on which it moved at all
    std::map<Date, std::int64_t> used;
  };
  std::map<std::string, Days> found;
  Date const begin = months_before(on, months);
  // What was taken back was never used, on whatever day it was taken back.
  std::set<std::int64_t> undone;
  for (db::MovementRow const& row : movements)
    if (row.undoes != 0) undone.insert({row.id, row.undoes});
  for (db::MovementRow const& row : movements) {
    if (row.on > on || row.kind == MovementKind::custody || row.kind == MovementKind::given_back) continue;
    if (undone.contains(row.id)) continue;
    Days& days = found[row.code];
    days.first = std::min(days.first.value_or(row.on), row.on);
    if (is_use(row.kind) && row.on > begin) days.used[row.on] = checked_sub(days.used[row.on], row.quantity);
  }
  std::map<std::string, PastUse> uses;
  for (auto const& [code, days] : found) {
    PastUse use;
    use.days = (on - std::max(*days.first - std::chrono::days(1), begin)).count();
    for (auto const& [day, used] : days.used) {
      use.used = checked_add(use.used, used);
      use.days_used += used > 0 ? 1 : 0;
      use.sum_of_squares += static_cast<double>(used) * static_cast<double>(used);
    }
    if (use.days_used > 0) uses.emplace(code, use);
  }
  return uses;
}

Suggestion suggestion(Material const& material, Supply const& supply, PastUse const& use,
                      SuggestRules const& rules) {
  Suggestion result{material, supply, use, {}, {}};
  if (use.days_used < least_days_used) return result;
  double const sure = static_cast<double>(rules.sure.num()) / static_cast<double>(rules.sure.den());
  if (supply.lead_days) {
    UseStatistics const statistics{.a_day = use.a_day(),
                                   .deviation = static_cast<double>(use.deviation()),
                                   .lead_days = static_cast<double>(*supply.lead_days),
                                   .lead_deviation = 0};
    result.reorder_at = rounded_up(reorder_point(statistics, sure), step_of(material.sold_by));
  }
  if (!material.price || !rules.order_cost || !rules.holding_share) return result;
  UnitCost const unit = unit_cost(material, rules.buying);
  double const keeping = static_cast<double>(rules.holding_share->num()) /
                         static_cast<double>(rules.holding_share->den()) * static_cast<double>(unit.minor) /
                         static_cast<double>(unit.pack.n);
  if (keeping > 0)
    result.order_size = rounded_up(
        order_size(use.a_day() * days_a_year, static_cast<double>(rules.order_cost->minor), keeping),
        unit.pack.n);
  return result;
}

}  // namespace endband::cli
