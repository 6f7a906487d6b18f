#include "cli/words/order_words.h"

#include "cli/words/values.h"
#include "engine/book/style.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

std::string quantity_words(Outside const& outside) {
  switch (outside.by) {
    case OutsideBy::whole: break;
    case OutsideBy::piece: return sold_words(outside.quantity, SoldBy::piece) + " x ";
    case OutsideBy::dm2: return number(Ratio(outside.quantity.n, 10'000'000'000)) + " dm2 x ";
    case OutsideBy::skin:
      return fmt::format("{} skin{} x ", number(Ratio(outside.quantity.n, 1000)),
                         outside.quantity.n == 1000 ? "" : "s");
  }
  return outside.quantity.n == 1000 ? "" : number(Ratio(outside.quantity.n, 1000)) + " x ";
}

std::string days_words(Duration lead) {
  constexpr std::int64_t day = 24 * 3600;
  if (lead.n < day) return hours_words(Ratio(lead.n));
  std::int64_t const days = (lead.n + day - 1) / day;
  return fmt::format("{} day{}", days, days == 1 ? "" : "s");
}

}  // namespace

std::vector<BuyerCopies> copies_of(FrozenQuote const& quote) {
  std::vector<BuyerCopies> prices;
  for (CopyPrice const& price : quote.copy_prices) prices.push_back({price.copies, price.shown});
  return prices;
}

std::optional<Money> next_copy(std::vector<BuyerCopies> const& prices) {
  if (prices.size() < 2) return std::nullopt;
  return prices.back().shown - prices[prices.size() - 2].shown;
}

Ordered ordered(std::string_view binding, bool set) {
  Style const* const style = style_named(binding);
  if (style != nullptr && style->body == Body::box_alone) return {"box", "boxes"};
  return set ? Ordered{"set", "sets"} : Ordered{"book", "books"};
}

std::string copies_words(std::vector<BuyerCopies> const& prices, Ordered what, NumberStyle const& numbers) {
  std::optional<Money> const next = next_copy(prices);
  if (!next) return "";
  std::string text;
  for (std::size_t i = 0; i + 1 < prices.size(); ++i)
    text += fmt::format("{} {} {}; ", prices[i].copies, prices[i].copies == 1 ? what.one : what.more,
                        numbers.money(prices[i].shown));
  return text + fmt::format("the next one {}.", numbers.money_words(*next));
}

std::string repairs_words(BuyerRepairs const& repairs, NumberStyle const& numbers) {
  return fmt::format(
      "Repairs are an estimate, between {} and {}: what is wrong is seen when the work is open. We stop and "
      "ask before they pass {}.",
      numbers.money(repairs.low), numbers.money_words(repairs.high), numbers.money_words(repairs.ceiling));
}

std::string custody_words(InCustody const& left, NumberStyle const& numbers) {
  std::string text = left.what;
  if (!left.condition.empty()) text += ", " + left.condition;
  if (left.declared) text += "; declared to be worth " + numbers.money_words(*left.declared);
  return text;
}

std::string shares_words(SetShares shares) {
  switch (shares) {
    case SetShares::nothing: return "";
    case SetShares::batch: return "All volumes are covered from one batch.";
    case SetShares::skin: return "All volumes are covered from one skin.";
  }
  return "";
}

std::string outside_rule(Outside const& outside) {
  std::string rule = quantity_words(outside) + money_text(outside.each);
  if (outside.least_charge.minor > 0) rule += ", at least " + money_text(outside.least_charge);
  if (outside.carriage.minor > 0) rule += ", carriage " + money_text(outside.carriage);
  if (!outside.supplier.empty()) rule += "; by " + outside.supplier;
  if (outside.lead.n > 0) rule += "; back after " + days_words(outside.lead);
  return rule + (outside.at_cost ? "; stands at cost" : "; earns");
}

std::string ready_words(BuyerQuote const& quote) {
  if (!quote.ready_by || !quote.starts) return "";
  std::vector<std::string> needed{"your order"};
  if (quote.deposit.minor > 0) needed.emplace_back("the deposit");
  if (quote.proof) needed.emplace_back("your approval of the proof");
  bool const one = needed.size() == 1;
  return fmt::format("Ready to send by {}, if {} {} here on {}. If {} later, we name the day anew.",
                     date_text(*quote.ready_by), listed(needed), one ? "is" : "are", date_text(*quote.starts),
                     one ? "it comes" : "they come");
}

}  // namespace endband::cli
