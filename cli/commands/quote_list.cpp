// Lists the quotes that are kept.
#include "cli/commands/commands.h"
#include "cli/commands/quote_json.h"
#include "cli/words/values.h"
#include "db/customers.h"
#include "db/jobs.h"

namespace endband::cli {
namespace {

struct ListedQuote {
  db::QuoteHeader header;
  db::QuoteState state = db::QuoteState::open;
};

struct QuoteList {
  std::vector<ListedQuote> quotes;
  Currency currency;
};

Json to_json(QuoteList const& view) {
  auto const quote_json = [](ListedQuote const& quote) {
    Json const header = header_json(quote.header);
    Json::Object row = std::get<Json::Object>(header.value());
    row.emplace_back("state", db::quote_state_name(quote.state));
    return Json(std::move(row));
  };
  return Json::Object{{"quotes", json_array(view.quotes, quote_json)}};
}

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
               {"Valid until", Align::left, 3},
               {"State"}},
              {}};
  for (auto const& [quote, state] : view.quotes)
    table.add({db::number_text(quote.number), date_text(quote.on), quote.customer, quote.title,
               money_text(quote.total), money_text(quote.left), date_text(quote.valid_until),
               std::string(db::quote_state_name(state))});
  document.add(std::move(table));
  document.next("endband quote show " + db::number_text(view.quotes.front().header.number));
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
  QuoteList view{{}, (*workshop)->currency()};
  for (db::QuoteHeader& quote : db::list_quotes(**workshop, customer, last)) {
    auto const state = db::quote_state(**workshop, quote.id, quote.valid_until, context.on);
    view.quotes.push_back({std::move(quote), state});
  }
  return Answer(std::move(view));
}

}  // namespace

Command quote_list() {
  return {.noun = "quote",
          .verb = "list",
          .summary = "List the quotes, newest first",
          .about = "",
          .words = {},
          .flags = {{"--customer", FlagType::customer, "only of this customer"},
                    {"--last", FlagType::whole, "so many; else 50"}},
          .examples = {"quote list", "quote list --customer ida-quill --last 10"},
          .refused_when = "",
          .writes = false,
          .lists = true,
          .run = run};
}

}  // namespace endband::cli
