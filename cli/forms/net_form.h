// The figures of a quote as an open form states them: all without tax, tax by rate on the sum of its nets,
// and what is then still between that and the price to pay (EN 16931-1, rules BR-CO-10 to BR-CO-17).
#pragma once

#include "cli/commands/quote_paper.h"

#include <optional>
#include <vector>

namespace endband::cli {

struct NetLine {
  std::optional<Component> component;  // none: all of it in one line
  Money net;
  Ratio rate;
};
struct NetChange {
  bool charge = false;  // else an allowance
  Money net;            // 0 or more
  Ratio rate;
};
struct NetRate {
  Ratio rate;
  Money net, tax;
};

// Where tax is included, what is shown rules: the net of a rate is its gross less the tax within it, shared
// over lines by what they show. Tax on that net may be a minor unit more or less than the tax within: that,
// and rounding for cash, is `rounding`.
struct NetForm {
  std::vector<NetLine> lines;
  std::vector<NetChange> discounts, carriage;
  std::vector<NetRate> rates;  // one of 0 where no tax is charged
  Money of_lines, of_allowances, of_charges, without_tax, tax, with_tax, rounding, to_pay;
};
NetForm net_form(BuyerQuote const& quote, PaperLevel level);

}  // namespace endband::cli
