#include "cli/commands/quote_parts.h"

#include "cli/commands/quote_json.h"
#include "cli/words/book_words.h"
#include "cli/words/order_words.h"
#include "cli/words/values.h"

#include <fmt/format.h>

#include <array>

namespace endband::cli {

Table volumes_table(std::vector<VolumeMade> const& volumes) {
  Table table{{{"Volume"}, {"Pages", Align::right}, {"Closed, mm", Align::right}, {"g", Align::right, 1}},
              {}};
  auto const whole = [](std::int64_t thousandths) {
    return std::to_string(mul_div(thousandths, 1, 1000, Rounding::half_away));
  };
  for (std::size_t i = 0; i < volumes.size(); ++i) {
    VolumeMade const& volume = volumes[i];
    table.add({volume.title.empty() ? fmt::format("Volume {}", i + 1) : volume.title,
               std::to_string(volume.pages),
               fmt::format("{} x {} x {}", whole(volume.height.n), whole(volume.width.n),
                           whole(volume.thickness.n)),
               whole(volume.mass.n)});
  }
  return table;
}

void add_order(Document& document, FrozenQuote const& quote) {
  bool const set = !quote.volumes.empty();
  if (std::string const copies = copies_words(copies_of(quote), ordered(quote.binding, set)); !copies.empty())
    document.paragraph(quote.offer.carriage.minor == 0 ? copies : copies + " Carriage is apart.");
  if (set) document.add(volumes_table(quote.volumes));
  if (std::string const shares = shares_words(quote.set_shares); !shares.empty()) document.paragraph(shares);
  if (quote.repairs)
    document.paragraph(repairs_words({quote.repairs->low, quote.repairs->high, quote.repairs->ceiling}));
  for (InCustody const& left : quote.custody)
    document.paragraph("In your care: " + custody_words(left) + ".");
}

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
