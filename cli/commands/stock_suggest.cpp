// When to order again, and how much, from what was used.
#include "cli/commands/commands.h"
#include "cli/commands/shop_parts.h"
#include "cli/commands/stock_parts.h"
#include "cli/commands/stock_use.h"
#include "cli/words/values.h"
#include "db/materials.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

namespace endband::cli {
namespace {

struct SuggestList {
  std::vector<Suggestion> rows;
  SuggestRules rules;
  int months = 12;
  Date on;
};

Json optional_amount(Dimension dimension, std::optional<std::int64_t> n) {
  return n ? amount_json({dimension, *n}) : Json();
}

Json row_json(Suggestion const& row) {
  Dimension const dimension = dimension_of(row.material.sold_by);
  auto const amount_of = [&](std::optional<std::int64_t> n) { return optional_amount(dimension, n); };
  return Json::Object{{"code", row.material.code},
                      {"days", row.use.days},
                      {"days_used", row.use.days_used},
                      {"used", amount_of(row.use.used)},
                      {"deviation_a_day", amount_of(row.use.deviation())},
                      {"lead_days", row.supply.lead_days},
                      {"reorder_at_now", amount_of(row.supply.reorder_at)},
                      {"order_size_now", amount_of(row.supply.order_size)},
                      {"reorder_at", amount_of(row.reorder_at)},
                      {"order_size", amount_of(row.order_size)}};
}

Json to_json(SuggestList const& view) {
  return Json::Object{
      {"on", date_text(view.on)},
      {"months", view.months},
      {"sure", ratio_json(view.rules.sure)},
      {"order_cost", money_json(view.rules.order_cost)},
      {"holding_share", view.rules.holding_share ? ratio_json(*view.rules.holding_share) : Json()},
      {"suggestions", json_array(view.rows, row_json)}};
}

std::string quantity(Suggestion const& row, std::optional<std::int64_t> n) {
  return n ? sold_words({dimension_of(row.material.sold_by), *n}, row.material.sold_by) : std::string();
}

std::string now_words(Suggestion const& row) {
  return row.supply.reorder_at ? quantity(row, row.supply.reorder_at) : "none";
}

std::string reorder_words(Suggestion const& row) {
  if (row.reorder_at) return quantity(row, row.reorder_at);
  return row.use.days_used < least_days_used ? "too little use" : "lead unknown";
}

std::string set_words(Suggestion const& row) {
  std::string text = "endband stock supply " + row.material.code;
  if (row.reorder_at) text += fmt::format(" --reorder-at \"{}\"", quantity(row, row.reorder_at));
  if (row.order_size) text += fmt::format(" --order-size \"{}\"", quantity(row, row.order_size));
  return text;
}

void add_how(Document& document, SuggestList const& view) {
  document.paragraph(
      fmt::format("Order again at d x L + z x s x sqrt(L): d what is used in a day, s how far days differ "
                  "from it, L the days an order "
                  "takes, z so large that {} of orders come before the shelf is empty (the textbook formula "
                  "for use that varies and "
                  "a lead time that does not; Taylor, Introduction to Management Science). n is the days "
                  "looked at, and on how many of "
                  "them the material was used.",
                  percent(view.rules.sure)));
  if (view.rules.order_cost && view.rules.holding_share)
    document.paragraph(
        fmt::format("Order size is sqrt(2 x D x S / H): D a year's use, S {} for placing an order, H {} of "
                    "what a unit costs landed for keeping it a year (Harris 1913); in whole packs.",
                    money_words(*view.rules.order_cost), percent(*view.rules.holding_share)));
  else
    document.notice(
        NoticeKind::note,
        "For an order size the workshop must say what placing an order costs and what keeping goods does: "
        "endband workshop set order.cost=6.00 holding.share=\"15 %\"");
}

Document to_document(SuggestList const& view) {
  Document document;
  if (view.rows.empty()) {
    document.paragraph(fmt::format("No job used anything in the last {} months.", view.months));
    return document;
  }
  bool const sizes =
      std::ranges::any_of(view.rows, [](Suggestion const& row) { return row.order_size.has_value(); });
  Table table{{{"Material"},
               {"Used", Align::right},
               {"n", Align::right, 1},
               {"Lead", Align::right, 2},
               {"Order at"},
               {"Now", Align::left, 1}},
              {}};
  if (sizes) table.columns.push_back({"Order size"});
  for (Suggestion const& row : view.rows) {
    std::vector<std::string> cells{
        row.material.code,
        quantity(row, row.use.used),
        fmt::format("{} of {} d", row.use.days_used, row.use.days),
        row.supply.lead_days ? fmt::format("{} d", *row.supply.lead_days) : "unknown",
        reorder_words(row),
        now_words(row)};
    if (sizes) cells.push_back(quantity(row, row.order_size));
    table.add(std::move(cells));
  }
  document.add(std::move(table));
  add_how(document, view);
  auto const found =
      std::ranges::find_if(view.rows, [](Suggestion const& row) { return row.reorder_at.has_value(); });
  auto const no_lead =
      std::ranges::find_if(view.rows, [](Suggestion const& row) { return !row.supply.lead_days; });
  if (found != view.rows.end())
    document.next(set_words(*found));
  else if (no_lead != view.rows.end())
    document.next("endband stock supply " + no_lead->material.code + " --lead-days N");
  return document;
}

SuggestRules rules_of(db::Workshop& workshop, Args const& args, Date on) {
  SuggestRules rules{.sure = args.get<Ratio>("--sure").value_or(Ratio(19, 20)),
                     .order_cost = std::nullopt,
                     .holding_share = std::nullopt,
                     .buying = buying_rules(workshop, on)};
  if (auto const cost = read_money(setting_in_force(workshop, "order.cost", on), workshop.currency()))
    rules.order_cost = *cost;
  if (auto const share = read_ratio(setting_in_force(workshop, "holding.share", on));
      share && *share > Ratio(0))
    rules.holding_share = *share;
  return rules;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto const months = args.get<std::int64_t>("--months").value_or(12);
  if (months > 120)
    return refuse(
        {FaultCode::out_of_range, args.where("--months"), std::to_string(months), "1 to 120 months", {}});
  db::Reading const reading(**workshop);
  SuggestList view{.rows = {},
                   .rules = rules_of(**workshop, args, context.on),
                   .months = static_cast<int>(months),
                   .on = context.on};
  if (view.rules.sure < Ratio(1, 2) || view.rules.sure > Ratio(9999, 10000))
    return refuse(
        {FaultCode::out_of_range, args.where("--sure"), percent(view.rules.sure), "50 % to 99.99 %", {}});
  std::optional<std::string> code;
  if (args.word_count() > 0) {
    auto const known = located(db::find_material(**workshop, args.word(0), context.on), args.where("CODE"));
    if (!known) return tl::unexpected(known.error());
    code = known->code;
  }
  auto const uses =
      uses_of(db::movements(**workshop, code, std::numeric_limits<int>::max()), context.on, view.months);
  for (Material const& material : db::list_materials(**workshop, context.on, std::nullopt))
    if (auto const use = uses.find(material.code); use != uses.end())
      view.rows.push_back(suggestion(material, db::find_supply(**workshop, material.id, context.on),
                                     use->second, view.rules));
  return Answer(std::move(view));
}

}  // namespace

Command stock_suggest() {
  return {.noun = "stock",
          .verb = "suggest",
          .summary = "Suggest when to order a material again, and how much, from what was used",
          .about = "It sets nothing: stock supply does.",
          .words = {{"CODE", FlagType::material, "one material", false}},
          .flags = {{"--months", FlagType::whole, "how far back to look; else 12"},
                    {"--sure", FlagType::share, "of orders that are to come in time; else 95 %"}},
          .examples = {"stock suggest", "stock suggest text-wove-90 --months 6 --sure \"98 %\""},
          .refused_when = "",
          .writes = false,
          .lists = true,
          .run = run};
}

}  // namespace endband::cli
