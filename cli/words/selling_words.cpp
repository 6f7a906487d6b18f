#include "cli/words/selling_words.h"

#include "cli/words/values.h"

#include <fmt/format.h>

#include <span>
#include <utility>
#include <variant>

namespace endband::cli {

std::string_view outlet_kind_words(OutletKind kind) {
  switch (kind) {
    case OutletKind::own: return "the workshop's own";
    case OutletKind::marketplace: return "a marketplace";
    case OutletKind::sale_or_return: return "sale or return";
    case OutletKind::trade: return "trade, bought outright";
  }
  return "";
}

std::string_view fee_base_words(FeeBase base) {
  switch (base) {
    case FeeBase::goods: return "goods";
    case FeeBase::goods_with_tax: return "goods with tax";
    case FeeBase::goods_and_carriage: return "goods and carriage";
    case FeeBase::paid: return "what is paid";
  }
  return "";
}

std::string share_words(Fee const& fee) {
  std::string const base(fee_base_words(fee.base));
  if (fee.steps.empty()) return "";
  if (fee.steps.size() == 1) return fmt::format("{} of {}", percent(fee.steps.front().share), base);
  std::string words = fmt::format("of {}: {}", base, percent(fee.steps.front().share));
  for (FeeStep const& step : std::span(fee.steps).subspan(1))
    words += fee.on_whole
                 ? fmt::format(", from {} on {} of all of it", money_text(step.from), percent(step.share))
                 : fmt::format(", of what is above {} {}", money_text(step.from), percent(step.share));
  return words;
}

std::string fixed_words(Fee const& fee) {
  if (fee.fixed.minor == 0) return "";
  std::string words = money_text(fee.fixed);
  if (fee.per == FeePer::piece) words += " a piece";
  if (fee.every_days > 0) words += fmt::format(" every {} days", fee.every_days);
  return words;
}

std::string fee_words(Fee const& fee) {
  std::string words = share_words(fee);
  if (fee.least) words += ", at least " + money_text(*fee.least);
  if (fee.most) words += ", at most " + money_text(*fee.most);
  if (std::string const fixed = fixed_words(fee); !fixed.empty())
    words += (words.empty() ? "" : ", and ") + fixed;
  if (fee.per == FeePer::listing) words += ", for the listing";
  if (fee.kept) words += "; kept on a return";
  return words;
}

std::string exchange_words(Outlet const& outlet, Currency shop) {
  std::string words =
      fmt::format("1 {} is {} {}", outlet.currency.code(), number(outlet.exchange.rate), shop.code());
  if (outlet.exchange.spread > Ratio(0)) words += ", less " + percent(outlet.exchange.spread);
  return words;
}

std::vector<std::string> return_words(ReturnTerms const& returns) {
  std::vector<std::string> words;
  auto const chance = [&](Ratio share, std::string text) {
    if (share > Ratio(0)) words.push_back(fmt::format("{}: {}", percent(share), std::move(text)));
  };
  std::string mind = "change of mind";
  if (returns.carriage_back.minor > 0) mind += fmt::format(", {} back", money_text(returns.carriage_back));
  if (returns.handling.n > 0) mind += fmt::format(", {} of handling", duration_text(returns.handling));
  if (returns.loss_of_value > Ratio(0))
    mind += fmt::format(", {} of its value lost", percent(returns.loss_of_value));
  chance(returns.change_of_mind, std::move(mind));
  chance(returns.fault, fmt::format("a fault, {} of mending", duration_text(returns.mending)));
  chance(returns.lost, fmt::format("lost on its way, insured for {} less {}", money_text(returns.insured),
                                   money_text(returns.excess)));
  chance(returns.unsold, fmt::format("comes back unsold, carriage {}", money_text(returns.return_carriage)));
  return words;
}

std::string zone_words(CarriageZone const& zone) {
  std::vector<std::string> countries;
  for (std::string const& country : zone.countries)
    countries.push_back(country == "*" ? "everywhere else" : country);
  return listed(countries);
}

std::string mass_words(Mass mass) {
  if (mass.n < 1'000'000) return fmt::format("{} g", mul_div(mass.n, 1, 1000, Rounding::half_away));
  return fmt::format("{} kg", number(Ratio(mul_div(mass.n, 1, 1000, Rounding::half_away), 1000)));
}

std::string goal_words(Goal const& goal) {
  struct Words {
    std::string operator()(MarginGoal const& of) const {
      return "a margin of " + percent(of.margin) + " of the price without tax";
    }
    std::string operator()(MarkupGoal const& of) const {
      return "a markup of " + percent(of.markup) + " on the cost";
    }
    std::string operator()(ProfitGoal const& of) const { return money_words(of.left) + " left"; }
    std::string operator()(HourlyGoal const& of) const { return money_words(of.an_hour) + " an hour"; }
    std::string operator()(LeaveGoal const& of) const {
      return money_words(of.yours) + " that are yours after fees, tax and carriage";
    }
  };
  return std::visit(Words{}, goal);
}

std::string_view made_to_words(MadeTo made_to) {
  switch (made_to) {
    case MadeTo::spec: return "made to the customer's specification";
    case MadeTo::personal: return "made personal for the customer";
    case MadeTo::options: return "picked from what the workshop offers";
    case MadeTo::stock: return "finished already";
    case MadeTo::business: return "for a business";
  }
  return "";
}

}  // namespace endband::cli
