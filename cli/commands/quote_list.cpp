// Lists the quotes that are kept.
#include "cli/commands/commands.h"
#include "cli/commands/quote_json.h"
#include "cli/words/values.h"
#include "db/customers.h"
#include "db/quotes.h"

namespace endband::cli {
namespace {

struct QuoteList {
  std::vector<db::QuoteHeader> quotes;
  Currency currency;
  Date on;
};

Json to_json(QuoteList const& view) { return Json::Object{{"quotes", json_array(view.quotes, header_json)}}; }

Document to_document(QuoteList const& view) {
  Document document;
  if (view.quotes.empty()) {
    document.paragraph("No quotes yet.").next("endband quote make book.toml");
    return document;
  }
  std::string const currency(view.currency.code());
  Table table{{{"Quote"},
               {"Day", Align::left, 2},
               {"Customer", Align::left, 1},
               {"Title"},
               {"To pay " + currency, Align::decimal},
               {"Left", Align::decimal, 4},
               {"Valid until", Align::left, 3}},
              {}};
  for (db::QuoteHeader const& quote : view.quotes)
    table.add({db::number_text(quote.number), date_text(quote.on), quote.customer, quote.title,
               money_text(quote.total), money_text(quote.left),
               date_text(quote.valid_until) + (quote.valid_until < view.on ? " (over)" : "")});
  document.add(std::move(table));
  document.next("endband quote show " + db::number_text(view.quotes.front().number));
  return document;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  db::Reading const reading(**workshop);
  auto const customer = args.text("--customer");
  if (customer)
    if (auto const known = located(db::find_customer(**workshop, *customer), args.where("--customer"));
        !known)
      return tl::unexpected(known.error());
  int const last = static_cast<int>(args.get<std::int64_t>("--last").value_or(50));
  return Answer(QuoteList{db::list_quotes(**workshop, customer, last), (*workshop)->currency(), context.on});
}

}  // namespace

Command quote_list() {
  return {.noun = "quote",
          .verb = "list",
          .summary = "List the quotes, newest first",
          .about = "",
          .words = {},
          .flags = {{"--customer", FlagType::code, "only of this customer"},
                    {"--last", FlagType::whole, "so many; else 50"}},
          .examples = {"quote list", "quote list --customer ida-quill --last 10"},
          .refused_when = "",
          .writes = false,
          .lists = true,
          .run = run};
}

}  // namespace endband::cli
