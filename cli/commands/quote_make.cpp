// Prices the book of a description and keeps the quote.
#include "cli/commands/commands.h"
#include "cli/commands/described.h"
#include "cli/commands/quote_json.h"
#include "cli/commands/quote_parts.h"
#include "cli/commands/relied_on.h"
#include "cli/words/book_words.h"
#include "cli/words/values.h"
#include "db/quotes.h"
#include "db/steps.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

struct Made {
  db::QuoteHeader header;
  FrozenQuote quote;
  bool dry_run = false;
};

Json to_json(Made const& view) {
  auto const warning = [&](Warning const& each) { return warning_json(each, view.quote.materials); };
  return Json::Object{{"dry_run", view.dry_run},
                      {"number", db::number_text(view.header.number)},
                      {"quote", header_json(view.header)},
                      {"offer", offer_json(view.quote)},
                      {"ladder", ladder_json(view.quote.offer.ladder)},
                      {"work_s", whole_seconds(view.quote.sheet.seconds)},
                      {"order", order_json(view.quote)},
                      {"largest_costs", largest_json(view.quote)},
                      {"warnings", json_array(view.quote.warnings, warning)}};
}

Document to_document(Made const& view) {
  FrozenQuote const& quote = view.quote;
  std::string const number = db::number_text(view.header.number);
  std::string const customer = view.header.customer_name.empty() ? "nobody yet" : view.header.customer_name;
  Document document;
  document.heading(fmt::format("{} {}: {}, for {}", view.dry_run ? "Would be quote" : "Quote", number,
                               quote.title.empty() ? "a book" : quote.title, customer));
  document.paragraph(fmt::format("{} to pay, valid until {}. {} of work.{}", money_words(quote.offer.total),
                                 date_text(view.header.valid_until), hours_words(quote.sheet.seconds),
                                 view.dry_run ? " Nothing is saved." : ""));
  add_order(document, quote);
  document.add(ladder_table(quote));
  document.heading("Three largest costs", 2).add(largest_table(quote));
  for (Warning const& warning : quote.warnings)
    document.notice(NoticeKind::warning, warning_words(warning, quote.materials));
  if (!view.dry_run)
    document.next(fmt::format("endband quote show {0}    or    endband quote explain {0}", number));
  return document;
}

struct Computed {
  Asked asked;
  FrozenQuote quote;
  std::vector<std::string> codes;
  Versions relied_on;
};

// All that is read is of one state of the file; nothing is locked while the price is computed.
Read<Computed> compute(Context& context, db::Workshop& workshop, Args const& args) {
  Computed computed;
  Commission commission;
  std::string text, model;
  {
    db::Reading const reading(workshop);
    auto described = describe(context, workshop, args.word(0));
    if (!described) return tl::unexpected(std::move(described.error()));
    auto asked = asked_of(context, workshop, args, *described);
    if (!asked) return tl::unexpected(std::move(asked.error()));
    auto made = commission_of(*described, *asked, db::load_steps(workshop, context.on));
    if (!made) return tl::unexpected(std::move(made.error()));
    computed.relied_on = versions_in_force(workshop, described->codes, context.on);
    computed.asked = std::move(*asked);
    computed.codes = std::move(described->codes);
    commission = std::move(*made);
    text = std::move(described->text);
    model = std::move(described->model_name);
  }
  auto priced = price_for_quote(commission);
  if (!priced) return tl::unexpected(std::move(priced.error()));
  computed.quote = freeze(commission, *priced, std::move(text), std::move(model));
  return computed;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto computed = compute(context, **workshop, args);
  if (!computed) return tl::unexpected(std::move(computed.error()));
  auto header = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<db::QuoteHeader> {
    auto changes = changes_since(computed->relied_on,
                                 versions_in_force(writing.workshop(), computed->codes, context.on));
    if (!changes.empty()) return tl::unexpected(std::move(changes));
    return db::save_quote(writing, computed->asked.customer, computed->asked.valid_until, computed->quote);
  });
  if (!header) return tl::unexpected(std::move(header.error()));
  return Answer(Made{std::move(*header), std::move(computed->quote), context.dry_run});
}

}  // namespace

Command quote_make() {
  return {
      .noun = "quote",
      .verb = "make",
      .summary = "Price the book of a description, and keep the quote",
      .about =
          "A quote is frozen: later prices, times and settings never change it. What the description's "
          "[quote] "
          "table says, a flag says more strongly; what neither says is the workshop's.",
      .words = {{"FILE", FlagType::file, "a description, or - for standard input"}},
      .flags = {{"--customer", FlagType::code, "who asks"},
                {"--margin", FlagType::share, "the goal: money left, of the price without tax"},
                {"--markup", FlagType::share, "the goal: money left, of the cost"},
                {"--carriage", FlagType::money, "carriage charged to the customer, without tax; else none"},
                {"--delivery", FlagType::words, "how it is delivered, as the customer reads it"},
                {"--valid-until", FlagType::date, "the last day on which the quote holds"}},
      .examples =
          {"quote make book.toml --customer ida-quill",
           "quote make book.toml --margin \"40 %\" --carriage 12.50 --delivery \"insured post\" --dry-run"},
      .refused_when = "a price, a step or a setting is missing, or another changed what was relied on",
      .writes = true,
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
