#include "cli/forms/net_form.h"

#include <algorithm>
#include <stdexcept>

namespace endband::cli {
namespace {

// What of the quote bears one rate, as the buyer sees it.
struct Shown {
  Ratio rate;
  std::vector<BuyerLine> lines;
  Money goods, carriage;  // goods after the discount
};

std::vector<TaxedAt> taxed(BuyerQuote const& quote) {
  if (quote.tax_mode != TaxMode::none) return quote.taxed;
  return {{Ratio(0), quote.goods_shown, quote.carriage_shown, quote.tax}};
}

std::vector<Shown> by_rate(BuyerQuote const& quote) {
  TaxRules const rules{quote.tax_mode, quote.tax_rate, quote.tax_name, quote.tax_of_lines};
  bool const none = quote.tax_mode == TaxMode::none;
  std::vector<Shown> all;
  for (TaxedAt const& taxed : taxed(quote))
    all.push_back({taxed.rate, {}, taxed.goods_shown, taxed.carriage_shown});
  for (BuyerLine const& line : quote.lines) {
    Ratio const rate = none ? Ratio(0) : rules.rate_of(line.component);
    auto const at = std::find_if(all.begin(), all.end(), [&](Shown const& row) { return row.rate == rate; });
    if (at != all.end())
      at->lines.push_back(line);
    else if (line.shown.minor != 0)
      throw std::logic_error("a line of a rate that taxes nothing");
  }
  return all;
}

class Netting {
 public:
  Netting(BuyerQuote const& quote, PaperLevel level)
      : included_(quote.tax_mode == TaxMode::included), level_(level), zero_{0, quote.total.currency} {
    form_.of_lines = form_.of_allowances = form_.of_charges = form_.tax = zero_;
    for (Shown const& shown : by_rate(quote)) add(shown);
    form_.without_tax = form_.of_lines - form_.of_allowances + form_.of_charges;
    form_.with_tax = form_.without_tax + form_.tax;
    form_.to_pay = quote.total;
    form_.rounding = form_.to_pay - form_.with_tax;
  }
  NetForm take() { return std::move(form_); }

 private:
  Money net_of(Money shown, Ratio rate) const { return included_ ? shown - tax_within(shown, rate) : shown; }

  void add(Shown const& shown) {
    Money gross = zero_;
    for (BuyerLine const& line : shown.lines) gross += line.shown;
    Money const net = net_of(shown.goods + shown.carriage, shown.rate);
    Money const carriage = net_of(shown.carriage, shown.rate);
    Money const discount = net_of(gross - shown.goods, shown.rate);
    add_lines(shown, net - carriage + discount);
    if (discount.minor != 0) change(form_.discounts, discount.minor < 0, discount, shown.rate);
    if (carriage.minor != 0) change(form_.carriage, true, carriage, shown.rate);
    Money const tax = tax_added(net, shown.rate);
    form_.tax += tax;
    form_.rates.push_back({shown.rate, net, tax});
  }

  void add_lines(Shown const& shown, Money net) {
    std::vector<std::int64_t> weights;
    for (BuyerLine const& line : shown.lines) weights.push_back(line.shown.minor);
    bool const nothing = std::all_of(weights.begin(), weights.end(), [](auto weight) { return weight == 0; });
    if (nothing && net.minor != 0) throw std::logic_error("a net that no line shows");
    std::vector<Money> const nets = nothing ? std::vector<Money>(weights.size(), zero_) : share(net, weights);
    form_.of_lines += net;
    if (level_ == PaperLevel::one_price) {
      if (!nets.empty()) form_.lines.push_back({std::nullopt, net, shown.rate});
      return;
    }
    for (std::size_t i = 0; i < nets.size(); ++i)
      form_.lines.push_back({shown.lines[i].component, nets[i], shown.rate});
  }

  void change(std::vector<NetChange>& changes, bool charge, Money net, Ratio rate) {
    Money const size{net.minor < 0 ? -net.minor : net.minor, net.currency};
    (charge ? form_.of_charges : form_.of_allowances) += size;
    changes.push_back({charge, size, rate});
  }

  bool included_;
  PaperLevel level_;
  Money zero_;
  NetForm form_;
};

}  // namespace

NetForm net_form(BuyerQuote const& quote, PaperLevel level) { return Netting(quote, level).take(); }

}  // namespace endband::cli
