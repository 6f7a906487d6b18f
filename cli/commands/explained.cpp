#include "cli/commands/explained.h"

#include "cli/commands/quote_json.h"
#include "cli/commands/quote_options.h"
#include "cli/commands/quote_parts.h"
#include "cli/commands/walk_shown.h"
#include "cli/words/book_words.h"
#include "cli/words/order_words.h"
#include "cli/words/selling_words.h"
#include "cli/words/values.h"
#include "engine/pricing/walk.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

Json rates_json(FrozenQuote const& quote) {
  RateBasis const& basis = quote.shop.basis;
  Rates const rates = rates_of(basis);
  auto const hourly = [&](Ratio a_second) {
    return money_json({round_product(a_second, Ratio(3600), Rounding::half_away), quote.shop.currency});
  };
  return Json::Object{
      {"pay_wanted", money_json(basis.pay_wanted)}, {"charges_on_pay", money_json(basis.charges_on_pay)},
      {"overhead", money_json(basis.overhead)},     {"hours_charged_s", basis.hours_charged.n},
      {"labour_an_hour", hourly(rates.labour)},     {"overhead_an_hour", hourly(rates.overhead)}};
}

std::string uses_words(BillLine const& line) {
  std::vector<std::string> words;
  for (Use const& use : line.uses) {
    std::string const text(item_words(use.item));
    if (std::find(words.begin(), words.end(), text) == words.end()) words.push_back(text);
  }
  return listed(words);
}

// "by plan, proven least", "by plan, within 2 %": of the cost of what is cut.
std::string plan_words(BillLine const& line) {
  std::string words = line.plan_guess ? "by plan on a skin nobody has measured, " : "by plan, ";
  if (line.plan_cost <= line.plan_bound) return words + "proven least";
  if (line.plan_bound <= 0) return words + "how near the least is not known";
  Ratio const over(line.plan_cost - line.plan_bound, line.plan_bound);
  std::int64_t const tenths = mul_div(over.num(), 1000, over.den(), Rounding::up);
  return words + "within " + percent(Ratio(tenths, 1000));
}

std::string how_words(BillLine const& line) {
  switch (line.how) {
    case HowFound::counted: return "counted";
    case HowFound::by_length: return "by length, needlefuls and frame in it";
    case HowFound::by_spread: return "area x coats x faces x spread";
    case HowFound::by_yield: return "by yield of whole sheets, grain respected";
    case HowFound::by_usable_rectangle: return "by the usable rectangle of a skin";
    case HowFound::as_said: return "as said";
    case HowFound::by_plan: return plan_words(line);
  }
  return "";
}

// "paper of the text block: net 19.925 sheets + spoil 2 sheets + cut away 4.075 sheets; charged 26 sheets
// x 62.50 / 100 sheets; by yield of whole sheets, grain respected"
std::string bill_rule(FrozenQuote const& quote, BillLine const& line, SoldBy sold_by) {
  auto const words = [&](Amount amount) { return sold_words(amount, sold_by); };
  std::string rule = fmt::format("{}: net {}", uses_words(line), words(line.net));
  if (line.spoil.n != 0) rule += " + spoil " + words(line.spoil);
  if (line.cutting_loss.n != 0) rule += " + cut away " + words(line.cutting_loss);
  if (line.charging != Charging::as_used)
    rule += fmt::format("; opened {}, kept {}", words(line.opened), words(line.kept + line.pack_remainder));
  if (line.customer_supplied)
    rule += "; the customer's own";
  else
    rule += fmt::format("; charged {} x {} / {}", words(line.charged),
                        money_text({line.unit.minor, quote.shop.currency}), words(line.unit.pack));
  return rule + "; " + how_words(line);
}

Table bill_table(FrozenQuote const& quote) {
  Table table{{{"Material, and how it is found"}, {std::string(quote.shop.currency.code()), Align::decimal}},
              {}};
  for (BillLine const& line : quote.bill.lines) {
    Material const* const material = material_of(quote.materials, line.material);
    Money const cost = line.customer_supplied ? Money{0, quote.shop.currency} : material_cost(line);
    table.add({material_name(quote.materials, line.material), money_text(cost)});
    table.add({"  " + bill_rule(quote, line, material == nullptr ? SoldBy::piece : material->sold_by), ""});
  }
  table.add_total({"Materials", money_text(quote.sheet.materials)});
  return table;
}

Table work_table(FrozenQuote const& quote) {
  std::string const currency(quote.shop.currency.code());
  Table table{{{"Work"}, {"Count x each"}, {"Mean", Align::right}, {currency, Align::decimal}}, {}};
  for (CostLine const& line : quote.sheet.lines) {
    if (line.kind != CostKind::labour) continue;
    WorkLine const& work = quote.work.lines.at(static_cast<std::size_t>(line.source));
    std::string const count = fmt::format("{} x {}", number(Ratio(work.count.n, 1000)),
                                          driver_name(operation_row(work.kind).driver));
    std::string const rate = work.rate ? fmt::format(", at {} an hour", money_text(*work.rate)) : "";
    table.add({work_line_words(work) + rate, count, hours_words(work.mean_seconds), money_text(line.amount)});
  }
  for (CostLine const& line : quote.sheet.lines)
    if (line.kind == CostKind::overtime)
      table.add({"overtime, paid over the rate", "", "", money_text(line.amount)});
  table.add_total({"All hours", "", hours_words(quote.sheet.seconds), money_text(quote.sheet.labour)});
  return table;
}

std::string rate_words(FrozenQuote const& quote) {
  RateBasis const& basis = quote.shop.basis;
  Rates const rates = rates_of(basis);
  auto const hourly = [&](Ratio a_second) {
    return money_text({round_product(a_second, Ratio(3600), Rounding::half_away), quote.shop.currency});
  };
  return fmt::format(
      "A time is its mean, (low + 4 x likely + high) / 6. An hour costs ({} + {}) / {} = {}; overhead an "
      "hour is "
      "{} / {} = {}.",
      money_text(basis.pay_wanted), money_text(basis.charges_on_pay),
      hours_words(Ratio(basis.hours_charged.n)), hourly(rates.labour), money_text(basis.overhead),
      hours_words(Ratio(basis.hours_charged.n)), hourly(rates.overhead));
}

std::string contingency_rule(FrozenQuote const& quote) {
  if (!quote.simulated) return percent(quote.shop.contingency) + " of what earns";
  return fmt::format("{} of {} runs cost no more than this over their mean",
                     percent(quote.simulated->confidence), quote.simulated->runs);
}

std::string overtime_rule(FrozenQuote const& quote) {
  return fmt::format("{} x {} of the rate", hours_words(quote.shop.overtime_seconds),
                     percent(quote.shop.overtime_share));
}

Table sheet_table(FrozenQuote const& quote) {
  CostSheet const& sheet = quote.sheet;
  Table table{{{"Cost sheet"}, {std::string(quote.shop.currency.code()), Align::decimal}, {"Rule"}}, {}};
  table.add({"Materials", money_text(sheet.materials), "charged x what a pack lands at / pack"});
  table.add({"Work", money_text(sheet.labour), "mean time x rate"});
  table.add({"Overhead", money_text(sheet.overhead), "all hours x overhead an hour"});
  for (CostLine const& line : sheet.lines) {
    if (line.kind == CostKind::outside)
      table.add({"  " + cost_line_words(quote, line), money_text(line.amount),
                 outside_rule(quote.outside.at(static_cast<std::size_t>(line.source)))});
    if (line.kind == CostKind::redo)
      table.add({"  " + cost_line_words(quote, line), money_text(line.amount), "p / (1 - p) x its price"});
    if (line.kind == CostKind::ruin)
      table.add({"  " + cost_line_words(quote, line), money_text(line.amount),
                 "p / (1 - p) x (piece + work done again)"});
    if (line.kind == CostKind::contingency)
      table.add({"  " + cost_line_words(quote, line), money_text(line.amount), contingency_rule(quote)});
    if (line.kind == CostKind::overtime)
      table.add(
          {"  in the work, " + cost_line_words(quote, line), money_text(line.amount), overtime_rule(quote)});
  }
  table.add_total({"Full cost", money_text(sheet.total), ""});
  return table;
}

std::string price_words(FrozenQuote const& quote) {
  Offer const& offer = quote.offer;
  std::string text = fmt::format(
      "The goal is {}. Asked are {} without tax; {} of it are left, {} of what earns.",
      goal_words(quote.goal), money_words(offer.goods), money_text(offer.left), percent(offer.margin));
  if (PricePoints const points = points_of(quote.selling, quote.shop.currency); points.step > 1)
    text +=
        fmt::format(" Prices are the next multiple of {}{}.", money_text({points.step, quote.shop.currency}),
                    points.below > 0 ? " less " + money_text({points.below, quote.shop.currency}) : "");
  if (offer.goods == quote.shop.least_charge) text += " It is the workshop's least charge.";
  return text;
}

std::string tax_words(FrozenQuote const& quote) {
  TaxRules const tax = tax_of(quote.selling);
  if (tax.mode == TaxMode::none) return "No tax is added, as the settings say; this is no tax advice.";
  std::string rates = percent(tax.rate);
  for (TaxOfLine const& own : tax.own)
    rates += fmt::format(", {} on {}", percent(own.rate),
                         own.component ? component_name(*own.component) : "carriage");
  return fmt::format("{} {} {}: {}. Computed with the rates you gave; no tax advice.", tax.name, rates,
                     tax.mode == TaxMode::added ? "added" : "within the price", money_text(quote.offer.tax));
}

std::string payment_words(FrozenQuote const& quote) {
  Offer const& offer = quote.offer;
  return fmt::format(
      "To pay {}: {} to begin, {} when it is ready. The deposit is {} of the total, and never less than the "
      "{} this "
      "order makes you pay out{}.",
      money_words(offer.total), money_text(offer.deposit), money_text(offer.balance),
      percent(quote.selling.deposit.share), money_text(quote.sheet.outlay),
      quote.selling.deposit.first_hours.minor > 0
          ? fmt::format(" and the {} of the hours before its first approval",
                        money_text(quote.selling.deposit.first_hours))
          : "");
}

}  // namespace

Json to_json(Explained const& view) {
  FrozenQuote const& quote = view.quote;
  auto const warning = [&](Warning const& each) { return warning_json(each, quote.materials); };
  auto const piece = [&](Piece const& each) { return piece_json(each, quote.materials); };
  auto const caution = [](StepCaution const& each) {
    return Json(Json::Object{{"step", each.step}, {"caution", each.caution}});
  };
  return Json::Object{{"quote", header_json(view.header)},
                      {"goal", goal_json(quote.goal)},
                      {"bill", bill_json(quote)},
                      {"work", work_json(quote)},
                      {"rates", rates_json(quote)},
                      {"cost", cost_json(quote)},
                      {"ladder", ladder_json(quote.offer.ladder)},
                      {"offer", offer_json(quote)},
                      {"ways", ways_json(quote.ways)},
                      {"pieces", json_array(quote.pieces, piece)},
                      {"order", order_json(quote)},
                      {"outside", outside_json(quote)},
                      {"selling", selling_json(quote)},
                      {"options", options_json(quote.options)},
                      {"largest_costs", largest_json(quote)},
                      {"warnings", json_array(quote.warnings, warning)},
                      {"cautions", json_array(view.cautions, caution)},
                      {"figure", Json()},
                      {"reasons", Json::Array{}}};
}

Document to_document(Explained const& view) {
  // Read as a page, at a terminal or from a file; --json is for programs.
  FrozenQuote const& quote = view.quote;
  Document document;
  document.paper = true;
  std::string const number = db::number_text(view.header.number);
  document.heading(fmt::format("Quote {} explained: {}, {} (for the workshop only)", number,
                               quote.title.empty() ? "a book" : quote.title, date_text(quote.on)));
  for (Warning const& warning : quote.warnings)
    document.notice(NoticeKind::warning, warning_words(warning, quote.materials));
  document.heading("Materials", 2);
  document.paragraph(
      "Charged is what the book consumes (net + spoil + cut away), or what is opened, as the material's "
      "charging says; the cost is charged / pack x what a pack lands at.");
  document.add(bill_table(quote));
  document.heading("Work", 2).paragraph(rate_words(quote)).add(work_table(quote));
  document.heading("Cost", 2).add(sheet_table(quote));
  document.heading("Three largest costs", 2).add(largest_table(quote));
  document.heading("Price", 2).paragraph(price_words(quote)).add(ladder_table(quote));
  add_sending(document, quote.sent_by);
  add_walk(document, quote);
  document.paragraph(tax_words(quote)).paragraph(payment_words(quote));
  add_options(document, quote.options);
  if (quote.made_to)
    document.paragraph(fmt::format("It is {}{}.", made_to_words(quote.made_to->what),
                                   quote.made_to->because.empty() ? "" : ": " + quote.made_to->because));
  add_order(document, quote);
  if (!view.cautions.empty()) {
    document.heading("Care at the bench", 2);
    document.paragraph(
        "The usual cautions; the product's label, local rules and licensed practice come first.");
    for (StepCaution const& each : view.cautions)
      document.notice(NoticeKind::caution, each.step + ": " + each.caution);
  }
  document.next(fmt::format("endband quote explain {} arc", number));
  return document;
}

}  // namespace endband::cli
