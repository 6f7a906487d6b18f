#include "cli/commands/quote_paper.h"

#include "cli/commands/quote_parts.h"
#include "cli/commands/shop_parts.h"
#include "cli/words/buyer_words.h"
#include "cli/words/order_words.h"
#include "cli/words/values.h"
#include "db/customers.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace endband::cli {
namespace {

Ordered ordered_of(BuyerQuote const& quote) { return ordered(quote.binding, !quote.volumes.empty()); }

// "text block", "endbands and registers"
std::string component_short(Component component) {
  std::string name(component_name(component));
  std::replace(name.begin(), name.end(), '-', ' ');
  return name;
}

std::string discount_line(BuyerQuote const& quote, PaperStyle const& style) {
  std::string const less = style.word("discount");
  return quote.discount_reason.empty() ? less + " trade discount" : less + ": " + quote.discount_reason;
}

bool on_the_page(BuyerQuote const& quote, std::optional<Component> component) {
  if (!component) return quote.carriage_shown.minor != 0;
  return std::ranges::find(quote.lines, *component, &BuyerLine::component) != quote.lines.end();
}

// "VAT 19 %"; where lines bear others, "VAT (19 %; 7 % on the text block and delivery)".
std::string tax_line(BuyerQuote const& quote, NumberStyle const& numbers) {
  std::map<Ratio, std::vector<std::string>> own;
  for (TaxOfLine const& line : quote.tax_of_lines)
    if (line.rate != quote.tax_rate && on_the_page(quote, line.component))
      own[line.rate].push_back(line.component ? component_short(*line.component) : "delivery");
  if (own.empty()) return fmt::format("{} {}", quote.tax_name, numbers.percent(quote.tax_rate));
  std::string rates = numbers.percent(quote.tax_rate);
  for (auto const& [rate, names] : own)
    rates += fmt::format("; {} on {}", numbers.percent(rate), listed(names));
  return fmt::format("{} ({})", quote.tax_name, rates);
}

// Beside the total, with a box to tick: nothing of it is ordered unless it is ticked.
void add_options(Document& document, BuyerQuote const& quote, PaperStyle const& style) {
  if (quote.options.empty()) return;
  auto const one_of_several = [&](BuyerOption const& option) {
    return !option.either.empty() &&
           std::ranges::count(quote.options, option.either, &BuyerOption::either) > 1;
  };
  Table table{{{style.word("options")}, {style.word("changes-by"), Align::decimal}}, {}};
  for (BuyerOption const& option : quote.options)
    table.add({(one_of_several(option) ? "( )  " : "[ ]  ") + option.words,
               style.numbers.number(signed_text(option.shown))});
  document.add(std::move(table));
  std::string words = "Each is priced by itself; several together we price anew.";
  if (std::ranges::any_of(quote.options, one_of_several)) words += " Of those with ( ) only one can be.";
  document.paragraph(std::move(words));
}

Table lines_of(BuyerQuote const& quote, PaperLevel level, PaperStyle const& style) {
  auto const money = [&](Money amount) { return style.numbers.money(amount); };
  Table table{{{style.word("ordered")}, {std::string(quote.total.currency.code()), Align::decimal}}, {}};
  if (level == PaperLevel::one_price)
    table.add({whole_words(quote), money(quote.goods_shown + quote.discount_shown)});
  else
    for (BuyerLine const& line : quote.lines)
      table.add({component_words(quote, line.component), money(line.shown)});
  if (quote.discount_shown.minor != 0) table.add({discount_line(quote, style), money(-quote.discount_shown)});
  table.add({delivery_line(quote, style), money(quote.carriage_shown)});
  std::string const tax = tax_line(quote, style.numbers);
  if (quote.tax_mode == TaxMode::added) table.add({tax, money(quote.tax)});
  table.add_total({style.word("total"), money(quote.total)});
  if (quote.tax_mode == TaxMode::included)
    table.add({fmt::format("  {} {}", style.word("of-which"), tax), money(quote.tax)});
  if (quote.deposit.minor > 0) {
    table.add({style.word("deposit"), money(quote.deposit)});
    table.add({fmt::format("{}, {}", style.word("balance"), when_ready(quote)), money(quote.balance)});
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
void add_order(Document& document, BuyerQuote const& quote, NumberStyle const& numbers) {
  if (quote.copies > 1) {
    std::string const copies = copies_words(quote.copy_prices, ordered_of(quote), numbers);
    document.paragraph(quote.carriage_shown.minor == 0 ? copies : copies + " Carriage is apart.");
  }
  if (std::string const shares = shares_words(quote.set_shares); !shares.empty()) document.paragraph(shares);
  if (quote.repairs) document.paragraph(repairs_words(*quote.repairs, numbers));
  for (InCustody const& left : quote.custody)
    document.paragraph("In our care: " + custody_words(left, numbers) + ". It stays yours.");
}

}  // namespace

std::string when_ready(BuyerQuote const& quote) {
  Ordered const what = ordered_of(quote);
  return fmt::format("when the {} {} ready", quote.copies > 1 ? what.more : what.one,
                     quote.copies > 1 ? "are" : "is");
}

std::string delivery_line(BuyerQuote const& quote, PaperStyle const& style) {
  std::string const how =
      quote.delivery_words.empty()
          ? (quote.carriage_shown.minor == 0 ? "collected at the workshop" : "carriage and packing")
          : quote.delivery_words;
  return style.word("delivery") + ": " + how;
}

std::string whole_words(BuyerQuote const& quote) {
  Ordered const what = ordered_of(quote);
  return quote.copies > 1 ? fmt::format("{} {}", quote.copies, what.more) : fmt::format("The {}", what.one);
}

std::string state_words(QuotePaper const& view) {
  if (view.state == db::QuoteState::open || view.state == db::QuoteState::sent) return "";
  std::string const name(db::quote_state_name(view.state));
  return view.state == db::QuoteState::lapsed || view.events.empty()
             ? name
             : name + " on " + date_text(view.events.back().on);
}

void add_letterhead(Document& document, QuotePaper const& view) {
  document.heading(view.maker.name, 2);
  document.add(Verbatim{joined_lines({view.maker.address, view.maker.email})});
}

void add_customer(KeyValues& about, QuotePaper const& view) {
  if (!view.customer.empty()) about.rows.emplace_back(view.style.word("for"), view.customer);
  if (!view.customer_address.empty()) about.rows.emplace_back("", view.customer_address);
}

void add_what_is_ordered(Document& document, QuotePaper const& view, PaperLevel level, PaperOptions options) {
  document.heading(view.quote.title.empty() ? view.style.word("your-book") : view.quote.title, 2);
  document.paragraph(binding_words(view.quote));
  if (!view.quote.volumes.empty()) document.add(volumes_table(view.quote.volumes));
  document.add(lines_of(view.quote, level, view.style));
  if (options == PaperOptions::listed) add_options(document, view.quote, view.style);
  add_order(document, view.quote, view.style.numbers);
  if (std::string ready = ready_words(view.quote); !ready.empty()) document.paragraph(std::move(ready));
  for (std::string const& notice : notice_words(view.quote)) document.paragraph(notice);
  for (std::string const& owners : {view.owner_text, view.exempt_words, view.terms})
    if (!owners.empty()) document.paragraph(owners);
}

Document paper_document(QuotePaper const& view, PaperLevel level) {
  Document document;
  document.paper = true;
  add_letterhead(document, view);
  document.heading(fmt::format("{} {}", view.style.word("quotation"), view.number), 1);
  KeyValues about;
  add_customer(about, view);
  about.rows.emplace_back(view.style.word("date"), date_text(view.quote.on));
  about.rows.emplace_back(view.style.word("valid-until"), date_text(view.valid_until));
  if (std::string state = state_words(view); !state.empty())
    about.rows.emplace_back(view.style.word("state"), std::move(state));
  document.add(std::move(about));
  add_what_is_ordered(document, view, level, PaperOptions::listed);
  return document;
}

Read<QuotePaper> quote_paper(db::Workshop& workshop, std::string_view number, Date on) {
  auto const header = db::find_quote(workshop, number);
  if (!header) return tl::unexpected(header.error());
  QuotePaper view;
  view.number = db::number_text(header->number);
  view.customer = header->customer_name;
  if (!header->customer.empty())
    if (auto const customer = db::find_customer(workshop, header->customer)) {
      view.customer_address = customer->address;
      view.customer_country = customer->country;
    }
  view.valid_until = header->valid_until;
  view.state = db::quote_state(workshop, header->id, header->valid_until, on);
  view.events = db::quote_events(workshop, header->id);
  view.quote = for_buyer(db::load_quote(workshop, header->id));
  view.maker = {setting_in_force(workshop, "maker.name", header->on),
                setting_in_force(workshop, "maker.address", header->on),
                setting_in_force(workshop, "maker.email", header->on),
                setting_in_force(workshop, "maker.country", header->on)};
  if (view.quote.made_to) view.owner_text = owner_text(workshop, view.quote.made_to->what, header->on);
  if (view.quote.tax_mode == TaxMode::none)
    view.exempt_words = setting_in_force(workshop, "tax.exempt-words", header->on);
  view.terms = setting_in_force(workshop, "text.terms", header->on);
  view.style = paper_style(workshop, header->on);
  return view;
}

}  // namespace endband::cli
