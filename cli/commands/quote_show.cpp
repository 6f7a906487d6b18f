// A quote as the customer reads it. Made from a BuyerQuote and the workshop's letterhead; nothing else
// reaches it.
#include "cli/commands/commands.h"
#include "cli/commands/quote_json.h"
#include "cli/commands/quote_parts.h"
#include "cli/commands/shop_parts.h"
#include "cli/words/buyer_words.h"
#include "cli/words/order_words.h"
#include "cli/words/values.h"
#include "db/customers.h"
#include "db/jobs.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace endband::cli {
namespace {

struct Letterhead {
  std::string name, address, email;
};

struct QuotePaper {
  std::string number, customer, customer_address;
  Date valid_until;
  db::QuoteState state = db::QuoteState::open;
  std::vector<db::QuoteEvent> events;
  Letterhead maker;
  std::string owner_text;  // of the case the book is made to, and where no tax is charged
  std::string exempt_words;
  BuyerQuote quote;
};

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

Json to_json(QuotePaper const& view) {
  BuyerQuote const& quote = view.quote;
  auto const line_json = [&](BuyerLine const& line) {
    return Json(Json::Object{{"component", component_name(line.component)},
                             {"words", component_words(quote, line.component)},
                             {"shown", money_json(line.shown)}});
  };
  auto const tax_line_json = [](TaxOfLine const& line) {
    return Json(Json::Object{{"component", line.component ? component_name(*line.component) : "carriage"},
                             {"name", line.name},
                             {"rate", ratio_json(line.rate)}});
  };
  auto const option_json = [](BuyerOption const& option) {
    return Json(Json::Object{
        {"words", option.words}, {"either", option.either}, {"shown", money_json(option.shown)}});
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

Ordered ordered_of(BuyerQuote const& quote) { return ordered(quote.binding, !quote.volumes.empty()); }

// "when the book is ready"
std::string when_ready(BuyerQuote const& quote) {
  Ordered const what = ordered_of(quote);
  return fmt::format("when the {} {} ready", quote.copies > 1 ? what.more : what.one,
                     quote.copies > 1 ? "are" : "is");
}

std::string delivery_line(BuyerQuote const& quote) {
  std::string const how =
      quote.delivery_words.empty()
          ? (quote.carriage_shown.minor == 0 ? "collected at the workshop" : "carriage and packing")
          : quote.delivery_words;
  return "Delivery: " + how;
}

// "text block", "endbands and registers"
std::string component_short(Component component) {
  std::string name(component_name(component));
  std::replace(name.begin(), name.end(), '-', ' ');
  return name;
}

std::string discount_line(BuyerQuote const& quote) {
  return quote.discount_reason.empty() ? "Less trade discount" : "Less: " + quote.discount_reason;
}

bool on_the_page(BuyerQuote const& quote, std::optional<Component> component) {
  if (!component) return quote.carriage_shown.minor != 0;
  return std::ranges::find(quote.lines, *component, &BuyerLine::component) != quote.lines.end();
}

// "VAT 19 %"; where lines bear others, "VAT (19 %; 7 % on the text block and delivery)".
std::string tax_line(BuyerQuote const& quote) {
  std::map<Ratio, std::vector<std::string>> own;
  for (TaxOfLine const& line : quote.tax_of_lines)
    if (line.rate != quote.tax_rate && on_the_page(quote, line.component))
      own[line.rate].push_back(line.component ? component_short(*line.component) : "delivery");
  if (own.empty()) return fmt::format("{} {}", quote.tax_name, percent(quote.tax_rate));
  std::string rates = percent(quote.tax_rate);
  for (auto const& [rate, names] : own) rates += fmt::format("; {} on {}", percent(rate), listed(names));
  return fmt::format("{} ({})", quote.tax_name, rates);
}

// Beside the total, with a box to tick: nothing of it is ordered unless it is ticked.
void add_options(Document& document, BuyerQuote const& quote) {
  if (quote.options.empty()) return;
  auto const one_of_several = [&](BuyerOption const& option) {
    return !option.either.empty() &&
           std::ranges::count(quote.options, option.either, &BuyerOption::either) > 1;
  };
  Table table{{{"If you wish, not in the total"}, {"Changes it by", Align::decimal}}, {}};
  for (BuyerOption const& option : quote.options)
    table.add({(one_of_several(option) ? "( )  " : "[ ]  ") + option.words, signed_text(option.shown)});
  document.add(std::move(table));
  std::string words = "Each is priced by itself; several together we price anew.";
  if (std::ranges::any_of(quote.options, one_of_several)) words += " Of those with ( ) only one can be.";
  document.paragraph(std::move(words));
}

Table lines_of(BuyerQuote const& quote) {
  Table table{{{"What you order"}, {std::string(quote.total.currency.code()), Align::decimal}}, {}};
  for (BuyerLine const& line : quote.lines)
    table.add({component_words(quote, line.component), money_text(line.shown)});
  if (quote.discount_shown.minor != 0) table.add({discount_line(quote), money_text(-quote.discount_shown)});
  table.add({delivery_line(quote), money_text(quote.carriage_shown)});
  std::string const tax = tax_line(quote);
  if (quote.tax_mode == TaxMode::added) table.add({tax, money_text(quote.tax)});
  table.add_total({"Total to pay", money_text(quote.total)});
  if (quote.tax_mode == TaxMode::included) table.add({"  of which " + tax, money_text(quote.tax)});
  if (quote.deposit.minor > 0) {
    table.add({"Deposit, to begin", money_text(quote.deposit)});
    table.add({"Balance, " + when_ready(quote), money_text(quote.balance)});
  }
  return table;
}

std::string joined_lines(std::vector<std::string> const& lines) {
  std::string text;
  for (std::string const& line : lines)
    if (!line.empty()) text += line + "\n";
  return text;
}

// Who orders one book is not told what a second would cost.
void add_order(Document& document, BuyerQuote const& quote) {
  if (quote.copies > 1) {
    std::string const copies = copies_words(quote.copy_prices, ordered_of(quote));
    document.paragraph(quote.carriage_shown.minor == 0 ? copies : copies + " Carriage is apart.");
  }
  if (std::string const shares = shares_words(quote.set_shares); !shares.empty()) document.paragraph(shares);
  if (quote.repairs) document.paragraph(repairs_words(*quote.repairs));
  for (InCustody const& left : quote.custody)
    document.paragraph("In our care: " + custody_words(left) + ". It stays yours.");
}

// A paper that still holds says nothing of it; one that was decided on, or no longer holds, says so.
std::string state_words(QuotePaper const& view) {
  if (view.state == db::QuoteState::open || view.state == db::QuoteState::sent) return "";
  std::string const name(db::quote_state_name(view.state));
  return view.state == db::QuoteState::lapsed || view.events.empty()
             ? name
             : name + " on " + date_text(view.events.back().on);
}

Document to_document(QuotePaper const& view) {
  Document document;
  document.paper = true;
  document.heading(view.maker.name, 2);
  document.add(Verbatim{joined_lines({view.maker.address, view.maker.email})});
  document.heading(fmt::format("Quotation {}", view.number), 1);
  KeyValues about;
  if (!view.customer.empty()) about.rows.emplace_back("For", view.customer);
  if (!view.customer_address.empty()) about.rows.emplace_back("", view.customer_address);
  about.rows.emplace_back("Date", date_text(view.quote.on));
  about.rows.emplace_back("Valid until", date_text(view.valid_until));
  if (std::string state = state_words(view); !state.empty())
    about.rows.emplace_back("State", std::move(state));
  document.add(std::move(about));
  document.heading(view.quote.title.empty() ? std::string("Your book") : view.quote.title, 2);
  document.paragraph(binding_words(view.quote));
  if (!view.quote.volumes.empty()) document.add(volumes_table(view.quote.volumes));
  document.add(lines_of(view.quote));
  add_options(document, view.quote);
  add_order(document, view.quote);
  if (std::string ready = ready_words(view.quote); !ready.empty()) document.paragraph(std::move(ready));
  for (std::string const& notice : notice_words(view.quote)) document.paragraph(notice);
  if (!view.owner_text.empty()) document.paragraph(view.owner_text);
  if (!view.exempt_words.empty()) document.paragraph(view.exempt_words);
  return document;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  db::Reading const reading(**workshop);
  auto const header = db::find_quote(**workshop, args.word(0));
  if (!header) return tl::unexpected(header.error());
  QuotePaper view;
  view.number = db::number_text(header->number);
  view.customer = header->customer_name;
  if (!header->customer.empty())
    if (auto const customer = db::find_customer(**workshop, header->customer))
      view.customer_address = customer->address;
  view.valid_until = header->valid_until;
  view.state = db::quote_state(**workshop, header->id, header->valid_until, context.on);
  view.events = db::quote_events(**workshop, header->id);
  view.quote = for_buyer(db::load_quote(**workshop, header->id));
  view.maker = {setting_in_force(**workshop, "maker.name", header->on),
                setting_in_force(**workshop, "maker.address", header->on),
                setting_in_force(**workshop, "maker.email", header->on)};
  if (view.quote.made_to) view.owner_text = owner_text(**workshop, view.quote.made_to->what, header->on);
  if (view.quote.tax_mode == TaxMode::none)
    view.exempt_words = setting_in_force(**workshop, "tax.exempt-words", header->on);
  return Answer(std::move(view));
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
      .words = {{"NUMBER", FlagType::code, "the quote's number: 26-001a, or 26-001 for its latest issue"}},
      .flags = {},
      .examples = {"quote show 26-001a", "quote show 1 --json"},
      .refused_when = "",
      .writes = false,
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
