// A quote as the customer reads it, on the screen.
#include "cli/commands/commands.h"
#include "cli/commands/quote_json.h"
#include "cli/commands/quote_paper.h"
#include "cli/words/buyer_words.h"

namespace endband::cli {
namespace {

Json material_words_json(BuyerMaterial const& material) {
  return Json::Object{{"for", role_row(material.role).key}, {"words", material.words}};
}

Json repairs_json(std::optional<BuyerRepairs> const& repairs) {
  if (!repairs) return {};
  return Json::Object{{"low", money_json(repairs->low)},
                      {"high", money_json(repairs->high)},
                      {"ceiling", money_json(repairs->ceiling)}};
}

Json event_json(db::QuoteEvent const& event) {
  return Json::Object{{"event", event.event}, {"on", date_text(event.on)}};
}

struct QuoteShown {
  QuotePaper paper;
};

Json tax_line_json(TaxOfLine const& line) {
  return Json::Object{{"component", line.component ? component_name(*line.component) : "carriage"},
                      {"name", line.name},
                      {"rate", ratio_json(line.rate)}};
}

Json option_json(BuyerOption const& option) {
  return Json::Object{
      {"words", option.words}, {"either", option.either}, {"shown", money_json(option.shown)}};
}

Json to_json(QuoteShown const& shown) {
  QuotePaper const& view = shown.paper;
  BuyerQuote const& quote = view.quote;
  auto const line_json = [&](BuyerLine const& line) {
    return Json(Json::Object{{"component", component_name(line.component)},
                             {"words", component_words(quote, line.component)},
                             {"shown", money_json(line.shown)}});
  };
  return Json::Object{
      {"number", view.number},
      {"maker",
       Json::Object{{"name", view.maker.name}, {"address", view.maker.address}, {"email", view.maker.email}}},
      {"customer", Json::Object{{"name", view.customer}, {"address", view.customer_address}}},
      {"on", date_text(quote.on)},
      {"valid_until", date_text(view.valid_until)},
      {"state", db::quote_state_name(view.state)},
      {"events", json_array(view.events, event_json)},
      {"title", quote.title},
      {"binding", quote.binding},
      {"words", binding_words(quote)},
      {"closed_height_um", quote.height.n},
      {"closed_width_um", quote.width.n},
      {"closed_thickness_um", quote.thickness.n},
      {"pages", quote.pages},
      {"materials", json_array(quote.materials, material_words_json)},
      {"lines", json_array(quote.lines, line_json)},
      {"goods", money_json(quote.goods_shown)},
      {"carriage", money_json(quote.carriage_shown)},
      {"delivery", quote.delivery_words},
      {"tax_mode", tax_mode_name(quote.tax_mode)},
      {"tax_name", quote.tax_name},
      {"tax_rate", ratio_json(quote.tax_rate)},
      {"tax", money_json(quote.tax)},
      {"total", money_json(quote.total)},
      {"deposit", money_json(quote.deposit)},
      {"balance", money_json(quote.balance)},
      {"copies", quote.copies},
      {"copy_prices", copies_json(quote.copy_prices)},
      {"next_copy", next_copy_json(quote.copy_prices)},
      {"set_shares", set_shares_name(quote.set_shares)},
      {"volumes", volumes_json(quote.volumes)},
      {"repairs", repairs_json(quote.repairs)},
      {"custody", custody_json(quote.custody)},
      {"ready_by", quote.ready_by ? Json(date_text(*quote.ready_by)) : Json()},
      {"ready_if_ordered_on", quote.starts ? Json(date_text(*quote.starts)) : Json()},
      {"needs_approval", quote.proof},
      {"discount", money_json(quote.discount_shown)},
      {"discount_reason", quote.discount_reason},
      {"tax_of_lines", json_array(quote.tax_of_lines, tax_line_json)},
      {"options", json_array(quote.options, option_json)},
      {"made_to", quote.made_to ? Json(made_to_name(quote.made_to->what)) : Json()},
      {"owner_text", view.owner_text},
      {"exempt_words", view.exempt_words},
      {"notices", json_words(notice_words(quote))}};
}

Document to_document(QuoteShown const& shown) { return paper_document(shown.paper, PaperLevel::components); }

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  db::Reading const reading(**workshop);
  auto view = quote_paper(**workshop, args.word(0), context.on);
  if (!view) return tl::unexpected(std::move(view.error()));
  return Answer(QuoteShown{std::move(*view)});
}

}  // namespace

Command quote_show() {
  return {
      .noun = "quote",
      .verb = "show",
      .summary = "Show a quote as the customer reads it",
      .about =
          "No cost, hour, rate or supplier can be on it. A bare count (14) will do while one year only has "
          "it.",
      .words = {{"NUMBER", FlagType::quote, "the quote's number: 26-001a, or 26-001 for its latest issue"}},
      .flags = {},
      .examples = {"quote show 26-001a", "quote show 1 --json"},
      .refused_when = "",
      .writes = false,
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
