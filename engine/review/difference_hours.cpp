#include "engine/job/heads.h"
#include "engine/review/difference_parts.h"

#include <span>

namespace endband {
namespace {

Ratio rate_of(WorkLine const& line, Rates const& rates) {
  return line.rate ? Ratio(line.rate->minor, 3600) : rates.labour;
}

// One head: its hours, and its quoted lines, whose mean rate is what was quoted for an hour under it.
class HeadVariances {
 public:
  HeadVariances(HeadTimes const& times, Heads const& heads, JobToReview const& job)
      : rates_(rates_of(job.agreed.shop.basis)), worked_(times.worked), quoted_(times.quoted.total()) {
    for (WorkLine const& line : job.agreed.work.lines)
      if (heads.of(line) == times.head) pay_quoted_.push_back({line.mean_seconds, rate_of(line, rates_)});
  }

  // As costs. Worked x (rate agreed - mean rate quoted); hours of which none were quoted are at the rate
  // agreed.
  std::int64_t by_rate() const {
    if (quoted_ == Ratio(0)) return 0;
    std::vector<Product> terms{{worked_, rates_.labour}};
    add_worked_at_quoted_rate(terms, -worked_);
    return round_sum(terms, Rounding::half_away);
  }
  // (Worked - quoted) x mean rate quoted.
  std::int64_t by_time() const {
    if (quoted_ == Ratio(0)) return round_product(worked_, rates_.labour, Rounding::half_away);
    std::vector<Product> terms;
    add_worked_at_quoted_rate(terms, worked_);
    for (Product const& line : pay_quoted_) terms.push_back({Ratio(0) - line.a, line.b});
    return round_sum(terms, Rounding::half_away);
  }
  std::int64_t by_overhead() const {
    return round_product(Ratio(worked_) - quoted_, rates_.overhead, Rounding::half_away);
  }

 private:
  void add_worked_at_quoted_rate(std::vector<Product>& terms, std::int64_t worked) const {
    for (Product const& line : pay_quoted_) terms.push_back({worked, Ratio(1) / quoted_, line.a, line.b});
  }

  Rates rates_;
  std::int64_t worked_;
  Ratio quoted_;
  std::vector<Product> pay_quoted_;  // mean seconds x rate
};

DifferenceDetail detail_of(Head const& head, Duration quoted, Duration worked) {
  DifferenceDetail detail;
  detail.operation = head.operation;
  detail.part = head.part;
  detail.quoted_time = quoted;
  detail.worked_time = worked;
  return detail;
}

// Paid for hours beyond the week's as it was quoted: hours as worked are all paid alike.
Money overtime_quoted(FrozenQuote const& agreed) {
  Money overtime{0, agreed.shop.currency};
  for (CostLine const& line : agreed.sheet.lines)
    if (line.kind == CostKind::overtime) overtime += line.amount;
  return overtime;
}

}  // namespace

void add_hours(JobToReview const& job, std::vector<DifferenceDetail>& details) {
  Currency const currency = job.agreed.shop.currency;
  Heads const heads(job.record.worked);
  SecondsSum sum;
  std::int64_t shown = 0;  // differences of the rounded sums, as in work_beside
  for (HeadTimes const& times : times_by_head(heads, job.agreed.work, job.record.worked)) {
    HeadVariances const variances(times, heads, job);
    sum.add(times.quoted.total());
    std::int64_t const upto = round(sum.total(), Rounding::half_away);
    DifferenceDetail detail = detail_of(times.head, {upto - shown}, {times.worked});
    shown = upto;
    auto const add = [&](Because because, std::int64_t cost) {
      detail.because = because;
      detail.amount = {checked_sub(0, cost), currency};
      details.push_back(detail);
    };
    add(Because::rate, variances.by_rate());
    add(Because::time, variances.by_time());
    add(Because::time_overhead, variances.by_overhead());
  }
  DifferenceDetail overtime;
  overtime.because = Because::rate;
  overtime.amount = overtime_quoted(job.agreed);
  details.push_back(overtime);
}

}  // namespace endband
