// What weighs in a quote: what a change of each input does to its price and to what is left of it.
#include "cli/commands/commands.h"
#include "cli/commands/quote_json.h"
#include "cli/document/document.h"
#include "cli/words/values.h"
#include "db/quotes.h"
#include "engine/commission/sway.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

struct Weighed {
  db::QuoteHeader header;
  FrozenQuote quote;
  Ratio change;
  std::vector<Sway> sways;
};

std::string code_of(FrozenQuote const& quote, Sway const& sway) {
  auto const found = std::ranges::find(quote.materials, sway.material, &Material::id);
  return found == quote.materials.end() ? std::string() : found->code;
}

std::string input_words(FrozenQuote const& quote, Sway const& sway) {
  switch (sway.of) {
    case SwayOf::material: return "price of " + code_of(quote, sway);
    case SwayOf::hours: return "hours, all of them";
    case SwayOf::rate: return "pay of an hour";
    case SwayOf::overhead: return "overhead";
    case SwayOf::outside: return "work by others";
    case SwayOf::fee: return "fee: " + sway.name;
    case SwayOf::exchange: return "exchange rate";
    case SwayOf::carriage: return "carriage";
  }
  return "";
}

Json to_json(Weighed const& view) {
  auto const sway_json = [&](Sway const& sway) {
    return Json(
        Json::Object{{"input", sway_name(sway.of)},
                     {"material", sway.of == SwayOf::material ? Json(code_of(view.quote, sway)) : Json()},
                     {"fee", sway.of == SwayOf::fee ? Json(sway.name) : Json()},
                     {"price", money_json(sway.price)},
                     {"left", money_json(sway.left)},
                     {"margin", ratio_json(sway.margin)}});
  };
  return Json::Object{{"quote", header_json(view.header)},
                      {"change", ratio_json(view.change)},
                      {"margin", ratio_json(view.quote.offer.margin)},
                      {"inputs", json_array(view.sways, sway_json)}};
}

Document to_document(Weighed const& view) {
  constexpr std::size_t most_rows = 15;
  std::string const currency(view.quote.shop.currency.code());
  Document document;
  document.heading(fmt::format("Quote {}, {}: if one thing were {} more", db::number_text(view.header.number),
                               view.quote.title.empty() ? "a book" : view.quote.title, percent(view.change)));
  document.paragraph(fmt::format("Now {} are left, a margin of {}.", money_words(view.quote.offer.left),
                                 percent(view.quote.offer.margin)));
  Table table{{{"If more"},
               {"Left changes by " + currency, Align::decimal},
               {"Margin then", Align::right},
               {"Or the price by", Align::decimal}},
              {}};
  for (std::size_t i = 0; i < std::min(most_rows, view.sways.size()); ++i) {
    Sway const& sway = view.sways[i];
    table.add({input_words(view.quote, sway), signed_text(sway.left), percent_text(sway.margin, 1) + " %",
               signed_text(sway.price)});
  }
  document.add(std::move(table));
  if (view.sways.size() > most_rows)
    document.paragraph(fmt::format("{} more change less.", view.sways.size() - most_rows));
  return document;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  db::Reading const reading(**workshop);
  auto header = located(db::find_quote(**workshop, args.word(0)), args.where("NUMBER"));
  if (!header) return tl::unexpected(std::move(header.error()));
  Weighed view{std::move(*header), {}, args.get<Ratio>("--change").value_or(Ratio(1, 10)), {}};
  if (view.change <= Ratio(0))
    return refuse(
        {FaultCode::out_of_range, args.where("--change"), percent(view.change), "more than 0 %", {}});
  view.quote = db::load_quote(**workshop, view.header.id);
  auto sways = endband::sways(view.quote, view.change);
  if (!sways) return tl::unexpected(std::move(sways.error()));
  view.sways = std::move(*sways);
  return Answer(std::move(view));
}

}  // namespace

Command quote_weigh() {
  return {.noun = "quote",
          .verb = "weigh",
          .summary = "Show what weighs most: what a change of each input does",
          .about = "One input at a time is raised, the others as the quote has them; largest first.",
          .words = {{"NUMBER", FlagType::quote, "the quote's number"}},
          .flags = {{"--change", FlagType::share, "by how much; else 10 %"}},
          .examples = {"quote weigh 26-001a", "quote weigh 1 --change \"25 %\" --json"},
          .refused_when = "",
          .writes = false,
          .lists = false,
          .run = run};
}

}  // namespace endband::cli
