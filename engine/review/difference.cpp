#include "engine/review/difference.h"

#include "engine/job/heads.h"
#include "engine/pricing/walk.h"
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

// What the sale was quoted to take of the price without tax. What is left of the whole beside these is quoted
// roundings, of cash and of tax, which stay as they were.
struct SaleQuoted {
  Money whole, fees, exchange, returns, tax;
};

// Of the offer; of what was agreed or kept beside it, by its mean rate.
Money tax_charged(JobToReview const& job) {
  FrozenQuote const& agreed = job.agreed;
  Money const none{0, agreed.shop.currency};
  TaxRules const tax = tax_of(agreed.selling);
  if (tax.mode == TaxMode::none) return none;
  std::optional<Outlet> const& outlet = agreed.selling.outlet;
  if (outlet && outlet->collects_tax) return none;
  Money const quoted = outlet ? agreed.offer.walk.tax_due : agreed.offer.tax;
  Money const more = job.kept - (outlet ? agreed.offer.walk.price : agreed.offer.goods);
  return quoted + tax_added(more, mean_tax_rate(agreed));
}

SaleQuoted sale_quoted(JobToReview const& job) {
  FrozenQuote const& agreed = job.agreed;
  Money const none{0, agreed.shop.currency};
  SaleQuoted quoted{sale_costs(agreed), none, none, none, tax_charged(job)};
  if (!agreed.selling.outlet) return quoted;
  Walk const& walk = agreed.offer.walk;
  Ratio const factor = exchange_factor(agreed.selling, agreed.shop.currency);
  quoted.fees.minor = round_product(walk.all_fees.minor, factor, Rounding::half_away);
  quoted.exchange = walk.exchange_cost;
  quoted.returns = walk.returns;
  return quoted;
}

class Parts {
 public:
  explicit Parts(JobToReview const& job) : job_(job), none_{0, job.agreed.shop.currency} {}

  Difference sum_up() && {
    SaleQuoted const quoted = sale_quoted(job_);
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

  // What was told more than was quoted; nothing where nothing was told.
  Money more(std::optional<Money> const& told, Money quoted) const { return told ? *told - quoted : none_; }

  void add_sale(SaleQuoted const& quoted) {
    SaleTaken const& told = job_.sale;
    add(Because::fees, -more(told.fees, quoted.fees));
    add(Because::carriage, -more(told.carriage, job_.agreed.delivery.carriage));
    add(Because::exchange, -more(told.exchange, quoted.exchange));
    add(Because::tax, -more(told.tax, quoted.tax));
    // What was allowed for is free; what came back stands against it.
    add(Because::allowances, job_.agreed.sheet.allowances + quoted.returns - told.returned.value_or(none_));
  }

  Money left(SaleQuoted const& quoted) const {
    SaleTaken const& told = job_.sale;
    Money const sale =
        quoted.whole + more(told.fees, quoted.fees) + more(told.carriage, job_.agreed.delivery.carriage) +
        more(told.exchange, quoted.exchange) + more(told.tax, quoted.tax) + told.returned.value_or(none_);
    return job_.kept - sale - actual_cost(job_.agreed, job_.record).total;
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

 public:
  Money left_alone() const { return left(sale_quoted(job_)); }
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

Money left_of(JobToReview const& job) { return Parts(job).left_alone(); }

Difference difference_of(JobToReview const& job) { return Parts(job).sum_up(); }

}  // namespace endband
