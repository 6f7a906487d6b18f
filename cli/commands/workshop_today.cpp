// One screen of what wants looking at today: quotes that lapse, jobs and what is still to pay, what is short,
// what goes bad.
#include "cli/commands/commands.h"
#include "cli/commands/job_seen.h"
#include "cli/commands/quote_json.h"
#include "cli/commands/shop_parts.h"
#include "cli/commands/stock_parts.h"
#include "cli/commands/stock_wanted.h"
#include "cli/words/values.h"
#include "db/standing.h"
#include "db/stock.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

constexpr std::size_t most_shown = 3;  // of each kind: all of it fits a terminal of 24 lines
constexpr std::chrono::days soon{14};

struct Short {
  std::string code, name;
  std::optional<Date> order_by;  // nobody said how long an order takes
  bool too_late = false;
  Date needed_on;
};

struct Today {
  Date on;
  Currency currency;
  std::vector<db::QuoteHeader> quotes;  // that stand, the first to lapse first
  std::vector<db::JobHeader> jobs;      // under way, the first that is needed first
  std::vector<Short> lacking;           // the first to order first
  std::vector<db::LotRow> lots;         // that may soon not be used any more, the first first

  bool nothing() const { return quotes.empty() && jobs.empty() && lacking.empty() && lots.empty(); }
};

Json to_json(Today const& view) {
  auto const short_json = [](Short const& row) {
    return Json(Json::Object{{"code", row.code},
                             {"name", row.name},
                             {"order_by", row.order_by ? Json(date_text(*row.order_by)) : Json()},
                             {"too_late", row.too_late},
                             {"needed_on", date_text(row.needed_on)}});
  };
  auto const lot_json = [](db::LotRow const& lot) {
    return Json(Json::Object{
        {"lot", lot_text(lot)}, {"code", lot.code}, {"keeps_until", date_text(*lot.keeps_until)}});
  };
  return Json::Object{{"on", date_text(view.on)},
                      {"quotes", json_array(view.quotes, header_json)},
                      {"jobs", json_array(view.jobs, job_json)},
                      {"short", json_array(view.lacking, short_json)},
                      {"soon_past_their_day", json_array(view.lots, lot_json)}};
}

std::string whose(db::QuoteHeader const& quote) {
  std::string const title = quote.title.empty() ? "a book" : quote.title;
  return quote.customer_name.empty() ? title : title + ", for " + quote.customer_name;
}

std::string money_due(db::JobHeader const& job) {
  if (job.paid < job.deposit) return money_text(job.deposit - job.paid) + " of the deposit to come";
  return job.paid < job.to_pay ? money_text(job.to_pay - job.paid) + " to pay" : "paid";
}

// The head of a list, and where all of it is.
template <class Rows, class Row>
void add_part(Document& document, std::string_view what, Rows const& rows, std::string_view all,
              Row const& row) {
  if (rows.empty()) return;
  document.heading(fmt::format("{}: {} (endband {})", what, rows.size(), all), 2);
  KeyValues shown;
  for (std::size_t i = 0; i < std::min(rows.size(), most_shown); ++i) shown.rows.push_back(row(rows[i]));
  document.add(std::move(shown));
}

Document to_document(Today const& view) {
  using Pair = std::pair<std::string, std::string>;
  Document document;
  document.heading("On " + date_text(view.on) + ", in " + std::string(view.currency.code()));
  if (view.nothing())
    document.paragraph("Nothing waits: no quote stands, no job is under way, and nothing is short.");
  add_part(document, "Quotes that stand", view.quotes, "quote list", [](db::QuoteHeader const& quote) {
    return Pair{
        "  " + db::number_text(quote.number),
        fmt::format("until {}: {}, {}", date_text(quote.valid_until), money_text(quote.total), whose(quote))};
  });
  add_part(document, "Jobs under way", view.jobs, "bench week", [](db::JobHeader const& job) {
    std::string const held = job.state == db::JobState::held ? "held, " : "";
    std::string const needed = job.needed_on ? "needed on " + date_text(*job.needed_on) + ", " : "";
    return Pair{"  " + job.number, held + needed + money_due(job) + ": " + whose(job.quote)};
  });
  add_part(document, "Materials that are short", view.lacking, "stock to-buy", [](Short const& row) {
    std::string const by = !row.order_by  ? "needed on " + date_text(row.needed_on)
                           : row.too_late ? "too late to order for " + date_text(row.needed_on)
                                          : "to order by " + date_text(*row.order_by);
    return Pair{"  " + row.code, by};
  });
  add_part(document, "Lots that soon may not be used", view.lots, "stock list --lots",
           [](db::LotRow const& lot) {
             return Pair{"  " + lot_text(lot), lot.code + ", until " + date_text(*lot.keeps_until)};
           });
  return document;
}

std::vector<db::QuoteHeader> standing_quotes(db::Workshop& workshop, Date on) {
  std::vector<db::QuoteHeader> quotes;
  for (db::QuoteHeader& quote : db::quotes_valid_on(workshop, on)) {
    if (quote.on > on) continue;
    auto const state = db::quote_state(workshop, quote.id, quote.valid_until, on);
    if (state == db::QuoteState::open || state == db::QuoteState::sent) quotes.push_back(std::move(quote));
  }
  std::ranges::stable_sort(quotes, {}, &db::QuoteHeader::valid_until);
  return quotes;
}

std::vector<Short> lacking(db::Workshop& workshop, Date on) {
  Wants const wants = gather_wants(workshop, {}, on, on);
  std::vector<Short> rows;
  for (Buy const& buy : to_buy(wants.materials, wants.shelf, wants.wanted, buying_rules(workshop, on), on)) {
    auto const of = [](MaterialSupply const& row) { return row.material.id; };
    Material const& material = std::ranges::find(wants.materials, buy.material, of)->material;
    rows.push_back({material.code, material.name, buy.order_by, buy.too_late, buy.needed_on});
  }
  auto const when = [](Short const& row) { return row.order_by.value_or(row.needed_on); };
  std::ranges::stable_sort(rows, {}, when);
  return rows;
}

Read<Answer> run(Context& context, Args const&) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  db::Reading const reading(**workshop);
  Today view{context.on,
             (*workshop)->currency(),
             standing_quotes(**workshop, context.on),
             db::list_jobs(**workshop, false),
             lacking(**workshop, context.on),
             {}};
  auto const needed = [](db::JobHeader const& job) {
    return std::pair(!job.needed_on, job.needed_on.value_or(job.since));
  };
  std::ranges::stable_sort(view.jobs, {}, needed);
  for (db::LotRow& lot : db::lots(**workshop, std::nullopt, false))
    if (lot.quantity.n > 0 && lot.keeps_until && *lot.keeps_until <= context.on + soon)
      view.lots.push_back(std::move(lot));
  std::ranges::stable_sort(view.lots, {}, [](db::LotRow const& lot) { return *lot.keeps_until; });
  return Answer(std::move(view));
}

}  // namespace

Command workshop_today() {
  return {.noun = "workshop",
          .verb = "today",
          .summary = "Show on one screen what waits: quotes, jobs, what is short",
          .about =
              "The three of each kind that are due first; each list is named with the command that shows all "
              "of it.",
          .words = {},
          .flags = {},
          .examples = {"workshop today", "workshop today --on 2026-06-01"},
          .refused_when = "",
          .writes = false,
          .lists = false,
          .run = run};
}

}  // namespace endband::cli
