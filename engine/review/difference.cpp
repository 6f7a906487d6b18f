#include "engine/review/difference.h"

#include "engine/job/heads.h"
#include "engine/review/difference_parts.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <utility>

namespace endband {
namespace {

constexpr std::array<std::string_view, 16> names{"material-price", "holding",  "quantity",      "spoil",
                                                 "rate",           "time",     "time-overhead", "outside",
                                                 "fees",           "carriage", "allowances",    "variations",
                                                 "exchange",       "tax",      "given-away",    "rounding"};

class Parts {
 public:
  explicit Parts(JobToReview const& job) : job_(job), none_{0, job.agreed.shop.currency} {}

  Difference sum_up() && {
    SaleQuoted const quoted = sale_quoted(job_.agreed, job_.kept);
    add_materials(job_, details_);
    add_hours(job_, details_);
    add_outside(job_, details_);
    add_sale(quoted);
    add(Because::variations,
        job_.price - job_.agreed.sheet.total - quoted.whole - quoted.returns - job_.first.left);
    add(Because::given_away, job_.kept - job_.price);
    Difference difference;
    difference.left_quoted = job_.first.left;
    difference.left = left(quoted);
    add(Because::rounding, difference.left - difference.left_quoted - sum_of_details());
    difference.lines = lines();
    difference.details = sorted_details();
    return difference;
  }

 private:
  void add(Because because, Money amount) {
    DifferenceDetail detail;
    detail.because = because;
    detail.amount = amount;
    details_.push_back(std::move(detail));
  }

  void add_sale(SaleQuoted const& quoted) {
    SaleTaken const& told = job_.sale;
    add(Because::fees, -told_more(told.fees, quoted.fees));
    add(Because::carriage, -told_more(told.carriage, quoted.carriage));
    add(Because::exchange, -told_more(told.exchange, quoted.exchange));
    add(Because::tax, -told_more(told.tax, quoted.tax));
    // What was allowed for is free; what came back stands against it.
    add(Because::allowances, job_.agreed.sheet.allowances + quoted.returns - told.returned.value_or(none_));
  }

  Money left(SaleQuoted const& quoted) const {
    return job_.kept - sale_cost(quoted, job_.sale) - actual_cost(job_.agreed, job_.record).total;
  }

  Money sum_of_details() const {
    Money sum = none_;
    for (DifferenceDetail const& detail : details_) sum += detail.amount;
    return sum;
  }

  std::vector<DifferenceLine> lines() const {
    std::vector<DifferenceLine> lines;
    for (std::size_t i = 0; i < names.size(); ++i) lines.push_back({static_cast<Because>(i), none_});
    for (DifferenceDetail const& detail : details_)
      lines[static_cast<std::size_t>(detail.because)].amount += detail.amount;
    return lines;
  }

  std::vector<DifferenceDetail> sorted_details() {
    std::erase_if(details_, [](DifferenceDetail const& detail) { return detail.amount.minor == 0; });
    auto const size = [](DifferenceDetail const& detail) {
      return std::max(detail.amount.minor, -detail.amount.minor);
    };
    std::ranges::stable_sort(details_, std::ranges::greater{}, size);
    return std::move(details_);
  }

  JobToReview const& job_;
  Money none_;
  std::vector<DifferenceDetail> details_;
};

}  // namespace

Ratio price_variance(Ratio actual_quantity, Ratio actual_price, Ratio standard_price) {
  return (actual_price - standard_price) * actual_quantity;
}

Ratio quantity_variance(Ratio actual_quantity, Ratio standard_quantity, Ratio standard_price) {
  return (actual_quantity - standard_quantity) * standard_price;
}

std::string_view because_name(Because because) { return names.at(static_cast<std::size_t>(because)); }

void add_outside(JobToReview const& job, std::vector<DifferenceDetail>& details) {
  std::vector<DifferenceDetail> found;
  auto const of = [&](std::string const& words) -> DifferenceDetail& {
    auto const same = std::ranges::find_if(
        found, [&](DifferenceDetail const& each) { return same_words(each.words, words); });
    if (same != found.end()) return *same;
    DifferenceDetail& detail = found.emplace_back();
    detail.because = Because::outside;
    detail.words = words;
    detail.amount = {0, job.agreed.shop.currency};
    return detail;
  };
  for (Outside const& outside : job.agreed.outside) of(outside.words).amount += outside.price;
  for (Billed const& bill : job.record.billed) {
    DifferenceDetail& detail = of(bill.words);
    detail.amount = detail.amount - bill.price;
  }
  std::ranges::move(found, std::back_inserter(details));
}

Difference difference_of(JobToReview const& job) { return Parts(job).sum_up(); }

}  // namespace endband
