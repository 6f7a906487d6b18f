#include "cli/commands/quote_parts.h"

#include "cli/commands/quote_json.h"
#include "cli/words/book_words.h"
#include "cli/words/values.h"

#include <fmt/format.h>

#include <array>

namespace endband::cli {

Table ladder_table(FrozenQuote const& quote) {
  std::string const currency(quote.shop.currency.code());
  Ladder const& ladder = quote.offer.ladder;
  std::array const rungs{ladder.cash_floor, ladder.walk_away, ladder.full_cost, ladder.target, ladder.asked};
  Table table{{{"Without tax"},
               {currency, Align::decimal},
               {"Left", Align::decimal},
               {"An hour earns", Align::decimal}},
              {}};
  for (std::size_t i = 0; i < rungs.size(); ++i)
    table.add({std::string(rung_words(i)), money_text(rungs[i].price), money_text(rungs[i].left),
               money_text(rungs[i].hourly)});
  return table;
}

Table largest_table(FrozenQuote const& quote) {
  Table table{
      {{"Cost"}, {std::string(quote.shop.currency.code()), Align::decimal}, {"Of all cost", Align::right, 1}},
      {}};
  for (CostLine const& line : largest_costs(quote, 3)) {
    std::string const share = quote.sheet.total.minor == 0
                                  ? ""
                                  : percent_text(Ratio(line.amount.minor, quote.sheet.total.minor), 0) + " %";
    table.add({cost_line_words(quote, line), money_text(line.amount), share});
  }
  return table;
}

}  // namespace endband::cli
