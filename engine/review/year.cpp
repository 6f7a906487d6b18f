#include "engine/review/year.h"

#include <algorithm>
#include <stdexcept>

namespace endband {
namespace {

constexpr std::int64_t days_a_year = 365;

RateBasis next_year(YearFigures const& figures) {
  Ratio const to_a_year(days_a_year, figures.days);
  RateBasis next = figures.planned;
  next.overhead = scale(figures.overhead_spent, to_a_year, Rounding::half_away);
  next.hours_charged = scale(figures.hours_charged, to_a_year, Rounding::half_away);
  return next;
}

}  // namespace

YearSeen look_back(YearFigures const& figures) {
  if (figures.days < 1) throw std::logic_error("a stretch of no days");
  Ratio const of_a_year(figures.days, days_a_year);
  YearSeen seen;
  seen.overhead_planned = scale(figures.planned.overhead, of_a_year, Rounding::half_away);
  seen.hours_planned = scale(figures.planned.hours_charged, of_a_year, Rounding::half_away);
  seen.overhead_not_covered = figures.overhead_spent - figures.overhead_absorbed;
  seen.next = next_year(figures);
  seen.enough = seen.next.hours_charged.n > 0;
  if (!seen.enough) seen.next = figures.planned;
  return seen;
}

Money spent_by_the_day(std::vector<InForceFrom> const& sums, Date from, Date to, Currency currency) {
  std::vector<InForceFrom> in_order = sums;
  std::ranges::stable_sort(in_order, {}, &InForceFrom::from);
  Date const after = to + std::chrono::days(1);
  Money for_days{0, currency};  // sum of a year's x days
  for (std::size_t i = 0; i < in_order.size(); ++i) {
    Date const begins = std::max(from, in_order[i].from);
    Date const ends = i + 1 < in_order.size() ? std::min(after, in_order[i + 1].from) : after;
    if (begins < ends)
      for_days +=
          Money{checked_mul(in_order[i].a_year.minor, (ends - begins).count()), in_order[i].a_year.currency};
  }
  return scale(for_days, Ratio(1, days_a_year), Rounding::half_away);
}

}  // namespace endband
