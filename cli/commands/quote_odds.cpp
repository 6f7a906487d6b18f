// How sure a quote is: many runs of the job, each with other hours, spoiled pieces and mishaps.
#include "cli/commands/quote_odds.h"

#include "cli/commands/commands.h"
#include "cli/commands/shop_parts.h"
#include "cli/document/document.h"
#include "cli/document/json.h"
#include "cli/process/together.h"
#include "cli/words/values.h"
#include "db/quotes.h"
#include "engine/labour/hours.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace endband::cli {
namespace {

struct Odds {
  db::QuoteHeader header;
  FrozenQuote quote;
  RiskRules rules;
  Risk risk;
};

// "in 3 of 100", to a tenth below ten.
std::string of_a_hundred(Ratio share) {
  double const percent = 100.0 * static_cast<double>(share.num()) / static_cast<double>(share.den());
  bool const whole = percent == std::floor(percent);
  return percent < 10 && !whole ? fmt::format("{:.1f} of 100", percent)
                                : fmt::format("{:.0f} of 100", percent);
}

std::string driver_words(FrozenQuote const& quote, RiskDriver const& driver) {
  auto const index = static_cast<std::size_t>(driver.index);
  auto const material = [&] {
    MaterialId const id = quote.bill.lines.at(index).material;
    auto const found = std::ranges::find(quote.materials, id, &Material::id);
    return found == quote.materials.end() ? std::string("a material") : found->code;
  };
  switch (driver.source) {
    case RiskSource::step: {
      WorkLine const& line = quote.work.lines.at(index);
      return line.words.empty() ? std::string(operation_row(line.kind).what) : line.words;
    }
    case RiskSource::spoil: return material() + ", spoiled";
    case RiskSource::ruin: return material() + ", ruined and cut again";
    case RiskSource::redo: return quote.outside.at(index).words + ", done again";
  }
  return {};
}

// Hands by part of the work, the longest first: beta-PERT lines summed, their quantiles by the normal
// distribution.
struct PartHours {
  Part part;
  Hours hours;
};
std::vector<PartHours> hours_by_part(Work const& work) {
  std::vector<PartHours> parts;
  for (WorkLine const& line : work.lines)
    if (std::ranges::find(parts, line.part, &PartHours::part) == parts.end())
      parts.push_back({line.part, hours_of(work, line.part)});
  std::ranges::stable_sort(
      parts, [](PartHours const& a, PartHours const& b) { return b.hours.mean < a.hours.mean; });
  return parts;
}

std::int64_t whole_s(double seconds) { return std::llround(seconds); }

Json to_json(Odds const& view) {
  auto const quantile = [](RiskQuantile const& at) {
    return Json(Json::Object{{"at", ratio_json(at.at)},
                             {"work_s", at.work.n},
                             {"wait_s", at.wait.n},
                             {"cost", money_json(at.cost)}});
  };
  auto const driver = [&](RiskDriver const& each) {
    return Json(Json::Object{{"kind", risk_source_name(each.source)},
                             {"words", driver_words(view.quote, each)},
                             {"share_permille", static_cast<std::int64_t>(std::lround(each.share * 1000))}});
  };
  auto const part = [](PartHours const& row) {
    return Json(Json::Object{{"part", part_name(row.part)},
                             {"mean_s", round(row.hours.mean, Rounding::half_away)},
                             {"deviation_s", whole_s(row.hours.deviation())},
                             {"at_5_percent_s", whole_s(row.hours.quantile(0.05))},
                             {"at_95_percent_s", whole_s(row.hours.quantile(0.95))}});
  };
  Risk const& risk = view.risk;
  return Json::Object{{"number", db::number_text(view.header.number)},
                      {"runs", view.rules.runs},
                      {"seed", static_cast<std::int64_t>(view.rules.seed)},
                      {"confidence", ratio_json(view.rules.confidence)},
                      {"mean_work_s", risk.mean_work.n},
                      {"mean_wait_s", risk.mean_wait.n},
                      {"mean_cost", money_json(risk.mean_cost)},
                      {"quantiles", json_array(risk.quantiles, quantile)},
                      {"quoted", money_json(view.quote.offer.goods)},
                      {"losing", ratio_json(risk.losing)},
                      {"contingency", money_json(risk.contingency)},
                      {"price_that_keeps_the_margin", money_json(risk.sure.goods)},
                      {"drivers", json_array(risk.drivers, driver)},
                      {"parts", json_array(hours_by_part(view.quote.work), part)}};
}

Table quantile_table(Odds const& view) {
  Table table{{{"In"},
               {"Hands, no more than", Align::right},
               {"Waits", Align::right, 1},
               {fmt::format("Cost {}", view.quote.shop.currency.code()), Align::decimal}},
              {}};
  for (RiskQuantile const& at : view.risk.quantiles)
    table.add({of_a_hundred(at.at), hours_words(Ratio(at.work.n)), hours_words(Ratio(at.wait.n)),
               money_text(at.cost)});
  table.add_total({"On the mean", hours_words(Ratio(view.risk.mean_work.n)),
                   hours_words(Ratio(view.risk.mean_wait.n)), money_text(view.risk.mean_cost)});
  return table;
}

Table driver_table(Odds const& view) {
  constexpr std::size_t shown = 8;
  Table table{{{"What the spread of the cost comes from"}, {"Share", Align::decimal}}, {}};
  double rest = 0;
  for (std::size_t i = 0; i < view.risk.drivers.size(); ++i) {
    RiskDriver const& driver = view.risk.drivers[i];
    if (i < shown)
      table.add({driver_words(view.quote, driver), fmt::format("{:.1f} %", 100 * driver.share)});
    else
      rest += driver.share;
  }
  if (view.risk.drivers.size() > shown) table.add({"all else", fmt::format("{:.1f} %", 100 * rest)});
  return table;
}

Table part_table(Odds const& view) {
  Table table{
      {{"Hands, by part"}, {"Mean", Align::right}, {"5 of 100", Align::right}, {"95 of 100", Align::right}},
      {}};
  for (PartHours const& row : hours_by_part(view.quote.work))
    table.add({std::string(part_name(row.part)), hours_words(row.hours.mean),
               hours_words(Ratio(whole_s(row.hours.quantile(0.05)))),
               hours_words(Ratio(whole_s(row.hours.quantile(0.95))))});
  return table;
}

Document to_document(Odds const& view) {
  Risk const& risk = view.risk;
  Document document;
  document.heading(fmt::format("Quote {}: {} runs of {}", db::number_text(view.header.number),
                               view.rules.runs, view.quote.title.empty() ? "a book" : view.quote.title));
  document.add(quantile_table(view));
  document.paragraph(fmt::format("Quoted at {} without tax, it costs more than that in {} runs.",
                                 money_words(view.quote.offer.goods), of_a_hundred(risk.losing)));
  document.paragraph(fmt::format(
      "Its margin is kept in {} by {} without tax, with {} for contingency{}.",
      of_a_hundred(view.rules.confidence), money_words(risk.sure.goods), money_words(risk.contingency),
      view.quote.simulated ? "; the quote has such a one already" : "; quote make --odds prices so"));
  if (!risk.drivers.empty()) document.add(driver_table(view));
  document.add(part_table(view));
  document.notice(NoticeKind::note,
                  fmt::format("Seed {}: the same seed gives the same runs.", view.rules.seed));
  return document;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  Odds view;
  {
    db::Reading const reading(**workshop);
    auto header = located(db::find_quote(**workshop, args.word(0)), args.where("NUMBER"));
    if (!header) return tl::unexpected(header.error());
    view.header = std::move(*header);
    view.quote = db::load_quote(**workshop, view.header.id);
    view.rules = risk_rules(args, **workshop, context.on);
  }
  auto risk = odds_of(view.quote, view.rules);
  if (!risk) return tl::unexpected(std::move(risk.error()));
  view.risk = std::move(*risk);
  return Answer(std::move(view));
}

}  // namespace

RiskRules risk_rules(Args const& args, db::Workshop& workshop, Date on) {
  RiskRules rules;
  rules.confidence = share_setting(workshop, "promise.confidence", on);
  if (auto const confidence = args.get<Ratio>("--confidence")) rules.confidence = *confidence;
  if (auto const runs = args.get<std::int64_t>("--runs")) rules.runs = *runs;
  if (auto const seed = args.get<std::int64_t>("--seed")) rules.seed = static_cast<std::uint64_t>(*seed);
  return rules;
}

std::vector<Flag> risk_flags() {
  return {{"--runs", FlagType::work, "how many runs; else 10000"},
          {"--seed", FlagType::work, "another number, other runs; else 1"},
          {"--confidence", FlagType::share, "how sure the margin shall be; else promise.confidence"}};
}

Read<Risk> odds_of(FrozenQuote const& quote, RiskRules const& rules) {
  RiskInput const input{quote.bill,     quote.work,    quote.outside, quote.pieces,     quote.shop,
                        quote.delivery, quote.selling, quote.goal,    quote.offer.goods};
  return simulate(input, rules, run_together);
}

Command quote_odds() {
  return {
      .noun = "quote",
      .verb = "odds",
      .summary = "Make the book of a quote many times over: how sure are its hours and its price",
      .about =
          "Each run draws the time of every step between its low and its high, what is spoiled, ruined or "
          "has to be done "
          "again; nothing is counted twice. It says how many hours and what cost to expect, how often the "
          "price would not "
          "cover it, and which price keeps the margin. Nothing is saved.",
      .words = {{"NUMBER", FlagType::quote, "the quote's number: 26-001a, or 26-001 for its latest issue"}},
      .flags = risk_flags(),
      .examples = {"quote odds 26-001", "quote odds 26-001 --runs 50000 --confidence \"90 %\" --json"},
      .refused_when = "",
      .writes = false,
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
