// A quote as the binder has to defend it: every line's rule with its numbers.
#include "cli/commands/commands.h"
#include "cli/commands/quote_json.h"
#include "cli/commands/quote_parts.h"
#include "cli/words/book_words.h"
#include "cli/words/values.h"
#include "db/quotes.h"
#include "db/steps.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace endband::cli {
namespace {

struct StepCaution {
  std::string step, caution;
};

struct Explained {
  db::QuoteHeader header;
  FrozenQuote quote;
  std::vector<StepCaution> cautions;  // of the steps used, as the library has them on the quote's day
};

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

Json to_json(Explained const& view) {
  FrozenQuote const& quote = view.quote;
  auto const warning = [&](Warning const& each) { return warning_json(each, quote.materials); };
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
                      {"largest_costs", largest_json(quote)},
                      {"warnings", json_array(quote.warnings, warning)},
                      {"cautions", json_array(view.cautions, caution)},
                      {"figure", Json()},
                      {"reasons", Json::Array{}}};
}

std::string uses_words(BillLine const& line) {
  std::vector<std::string> words;
  for (Use const& use : line.uses) {
    std::string const text(item_words(use.item));
    if (std::find(words.begin(), words.end(), text) == words.end()) words.push_back(text);
  }
  return listed(words);
}

std::string how_words(HowFound how) {
  switch (how) {
    case HowFound::counted: return "counted";
    case HowFound::by_length: return "by length, needlefuls and frame in it";
    case HowFound::by_spread: return "area x coats x faces x spread";
    case HowFound::by_yield: return "by yield of whole sheets, grain respected";
    case HowFound::by_usable_rectangle: return "by the usable rectangle of a skin";
    case HowFound::as_said: return "as said";
  }
  return "";
}

Table bill_table(FrozenQuote const& quote) {
  std::string const currency(quote.shop.currency.code());
  Table table{{{"Material"},
               {"For", Align::left, 4},
               {"Net", Align::right, 2},
               {"Spoil", Align::right, 2},
               {"Cut away", Align::right, 2},
               {"Charged", Align::right, 1},
               {"A pack lands at", Align::right, 3},
               {currency, Align::decimal},
               {"How found", Align::left, 5}},
              {}};
  for (BillLine const& line : quote.bill.lines) {
    Material const* const material = material_of(quote.materials, line.material);
    SoldBy const sold_by = material == nullptr ? SoldBy::piece : material->sold_by;
    std::string const pack = line.customer_supplied
                                 ? "the customer's"
                                 : fmt::format("{} / {}", money_text({line.unit.minor, quote.shop.currency}),
                                               sold_words(line.unit.pack, sold_by));
    Money const cost = line.customer_supplied ? Money{0, quote.shop.currency} : material_cost(line);
    table.add({material_name(quote.materials, line.material), uses_words(line), sold_words(line.net, sold_by),
               sold_words(line.spoil, sold_by), sold_words(line.cutting_loss, sold_by),
               sold_words(line.charged, sold_by), pack, money_text(cost), how_words(line.how)});
  }
  table.add_total({"Materials", "", "", "", "", "", "", money_text(quote.sheet.materials), ""});
  return table;
}

Table work_table(FrozenQuote const& quote) {
  std::string const currency(quote.shop.currency.code());
  Table table{{{"Work"},
               {"Count", Align::decimal, 2},
               {"For each", Align::left, 3},
               {"Mean", Align::right},
               {currency, Align::decimal}},
              {}};
  for (CostLine const& line : quote.sheet.lines) {
    if (line.kind != CostKind::labour) continue;
    WorkLine const& work = quote.work.lines.at(static_cast<std::size_t>(line.source));
    table.add({work_line_words(work), number(Ratio(work.count.n, 1000)),
               std::string(driver_name(operation_row(work.kind).driver)), hours_words(work.mean_seconds),
               money_text(line.amount)});
  }
  table.add_total({"All hours", "", "", hours_words(quote.sheet.seconds), money_text(quote.sheet.labour)});
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

Table sheet_table(FrozenQuote const& quote) {
  CostSheet const& sheet = quote.sheet;
  Table table{
      {{"Cost sheet"}, {std::string(quote.shop.currency.code()), Align::decimal}, {"Rule", Align::left, 1}},
      {}};
  table.add({"Materials", money_text(sheet.materials), "charged x what a pack lands at / pack"});
  table.add({"Work", money_text(sheet.labour), "mean time x rate"});
  table.add({"Overhead", money_text(sheet.overhead), "all hours x overhead an hour"});
  for (CostLine const& line : sheet.lines) {
    if (line.kind == CostKind::outside)
      table.add({"  " + cost_line_words(quote, line), money_text(line.amount),
                 line.at_cost ? "stands at cost" : "earns"});
    if (line.kind == CostKind::ruin)
      table.add({"  " + cost_line_words(quote, line), money_text(line.amount),
                 "p / (1 - p) x (piece + work done again)"});
    if (line.kind == CostKind::contingency)
      table.add({"  " + cost_line_words(quote, line), money_text(line.amount),
                 percent(quote.shop.contingency) + " of what earns"});
  }
  table.add_total({"Full cost", money_text(sheet.total), ""});
  return table;
}

std::string goal_words(FrozenQuote const& quote) {
  if (auto const* const margin = std::get_if<MarginGoal>(&quote.goal))
    return "a margin of " + percent(margin->margin) + " of the price without tax";
  return "a markup of " + percent(std::get<MarkupGoal>(quote.goal).markup) + " on the cost";
}

std::string price_words(FrozenQuote const& quote) {
  Offer const& offer = quote.offer;
  std::string text =
      fmt::format("The goal is {}. Asked are {} without tax; {} of it are left, {} of what earns.",
                  goal_words(quote), money_words(offer.goods), money_text(offer.left), percent(offer.margin));
  if (quote.selling.points.step > 1)
    text += fmt::format(" Prices are the next multiple of {}{}.",
                        money_text({quote.selling.points.step, quote.shop.currency}),
                        quote.selling.points.below > 0
                            ? " less " + money_text({quote.selling.points.below, quote.shop.currency})
                            : "");
  if (offer.goods == quote.shop.least_charge) text += " It is the workshop's least charge.";
  return text;
}

std::string tax_words(FrozenQuote const& quote) {
  TaxRules const& tax = quote.selling.tax;
  if (tax.mode == TaxMode::none) return "No tax is added, as the settings say; this is no tax advice.";
  return fmt::format("{} {} {}: {}. Computed with the rate you gave; no tax advice.", tax.name,
                     percent(tax.rate), tax.mode == TaxMode::added ? "added" : "within the price",
                     money_text(quote.offer.tax));
}

std::string payment_words(FrozenQuote const& quote) {
  Offer const& offer = quote.offer;
  return fmt::format(
      "To pay {}: {} to begin, {} when it is ready. The deposit is {} of the total, and never less than the "
      "{} this "
      "order makes you pay out.",
      money_words(offer.total), money_text(offer.deposit), money_text(offer.balance),
      percent(quote.selling.deposit.share), money_text(quote.sheet.outlay));
}

Document to_document(Explained const& view) {
  FrozenQuote const& quote = view.quote;
  Document document;
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
  document.paragraph(tax_words(quote)).paragraph(payment_words(quote));
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

Read<Explained> explained(db::Workshop& workshop, std::string const& number) {
  db::Reading const reading(workshop);
  auto header = db::find_quote(workshop, number);
  if (!header) return tl::unexpected(std::move(header.error()));
  Explained view{std::move(*header), {}, {}};
  view.quote = db::load_quote(workshop, view.header.id);
  auto const library = db::load_steps(workshop, view.quote.on);
  std::set<OperationKind> seen;
  for (WorkLine const& line : view.quote.work.lines) {
    if (!seen.insert(line.kind).second) continue;
    Step const* const step = library.find(line.kind);
    if (step != nullptr && !step->caution.empty())
      view.cautions.push_back({std::string(operation_row(line.kind).name), step->caution});
  }
  return view;
}

// --- one figure

struct Why {
  db::QuoteHeader header;
  FigureId figure;
  std::vector<Reason> reasons;  // the figure, then what it reads, then what that reads
};

Json to_json(Why const& view) {
  auto const name = [](FigureId id) { return Json(figure_row(id).name); };
  auto const reason_json = [&](Reason const& reason) {
    FigureRow const& row = figure_row(reason.figure);
    return Json(Json::Object{{"figure", row.name},
                             {"words", row.words},
                             {"symbol", row.symbol},
                             {"unit", unit_name(row.unit)},
                             {"value_millionths", std::int64_t{std::llround(reason.value * 1e6)}},
                             {"origin", origin_name(reason.origin)},
                             {"formula", reason.formula.empty() ? Json() : Json(reason.formula)},
                             {"source", reason.source.empty() ? Json() : Json(reason.source)},
                             {"inputs", json_array(reason.inputs, name)}});
  };
  Json::Object members;
  members.emplace_back("quote", header_json(view.header));
  for (char const* absent : {"goal", "bill", "work", "rates", "cost", "ladder", "offer"})
    members.emplace_back(absent, Json());
  for (char const* none : {"largest_costs", "warnings", "cautions"})
    members.emplace_back(none, Json::Array{});
  members.emplace_back("figure", figure_row(view.figure).name);
  members.emplace_back("reasons", json_array(view.reasons, reason_json));
  return members;
}

Document to_document(Why const& view) {
  Document document;
  document.heading(
      fmt::format("Why {} in quote {}", figure_row(view.figure).words, db::number_text(view.header.number)));
  Table table{{{"Figure"},
               {"", Align::left, 1},
               {"Value", Align::right},
               {"Rule, or where it is from"},
               {"Source", Align::left, 2}},
              {}};
  for (Reason const& reason : view.reasons) {
    FigureRow const& row = figure_row(reason.figure);
    table.add({std::string(row.words), std::string(row.symbol), figure_words(reason.figure, reason.value),
               reason.formula.empty() ? std::string(origin_name(reason.origin)) : std::string(reason.formula),
               std::string(reason.source)});
  }
  document.add(std::move(table));
  return document;
}

Read<FigureId> figure_named(FrozenQuote const& quote, std::string const& name, Where const& where) {
  std::vector<std::string_view> known;
  for (FrozenFigure const& figure : quote.figures) {
    FigureRow const& row = figure_row(figure.id);
    if (row.name == name || (!name.empty() && row.symbol == name)) return figure.id;
    known.push_back(row.name);
  }
  Fault fault{FaultCode::unknown_code,
              where,
              name,
              "a figure of this book, such as arc; endband book measure lists them",
              {}};
  fault.near = nearest(name, known);
  return refuse(std::move(fault));
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto view = explained(**workshop, args.word(0));
  if (!view) return tl::unexpected(std::move(view.error()));
  if (args.word_count() == 1) return Answer(std::move(*view));
  auto const figure = figure_named(view->quote, args.word(1), args.where("FIGURE"));
  if (!figure) return tl::unexpected(figure.error());
  return Answer(Why{std::move(view->header), *figure, why(view->quote, *figure)});
}

}  // namespace

Command quote_explain() {
  return {.noun = "quote",
          .verb = "explain",
          .summary = "Explain a quote to the workshop, line by line",
          .about =
              "Every material and step with its rule and numbers, the rates, the ladder of prices, what an "
              "hour earns "
              "at each. With a FIGURE of the book: its formula, what it reads, and where that is from.",
          .words = {{"NUMBER", FlagType::code, "the quote's number"},
                    {.name = "FIGURE",
                     .type = FlagType::words,
                     .help = "a figure of the book by its name or symbol, such as arc or A",
                     .needed = false,
                     .many = false}},
          .flags = {},
          .examples = {"quote explain 26-001a", "quote explain 26-001a arc"},
          .refused_when = "",
          .writes = false,
          .lists = false,
          .run = run};
}

}  // namespace endband::cli
