#include "cli/commands/bench_seen.h"

#include "cli/commands/shop_parts.h"
#include "cli/commands/stock_wanted.h"
#include "cli/words/values.h"
#include "db/bench.h"
#include "db/jobs.h"
#include "db/steps.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

// Work by others whose bill has come is done.
std::vector<AwaitedWork> awaited_work(FrozenQuote const& quote, std::vector<Billed> const& billed) {
  std::vector<AwaitedWork> awaited;
  for (Outside const& outside : quote.outside) {
    bool const done = std::ranges::any_of(
        billed, [&](Billed const& bill) { return same_words(bill.words, outside.words); });
    if (!done) awaited.push_back({outside.words, outside.kind, outside.lead});
  }
  return awaited;
}

std::vector<Part> parts_made_of(FrozenQuote const& quote, MaterialId material) {
  std::vector<Part> parts;
  for (BillLine const& line : quote.bill.lines)
    if (line.material == material)
      for (Use const& use : line.uses) parts.push_back(use.part);
  return parts;
}

struct Gathered {
  BenchSeen& seen;
  std::vector<FrozenQuote> quotes;  // of the orders
};

void add_job(Gathered& to, db::Workshop& workshop, db::JobHeader const& job, Date on) {
  FrozenQuote quote = db::load_quote(workshop, job.quote.id);
  JobRecord const record = db::load_record(workshop, job);
  BenchOrder order{.name = job.number,
                   .work = quote.work,
                   .outside = awaited_work(quote, record.billed),
                   .goods = {},
                   .worked = record.worked,
                   .due = due_of(workshop, job, quote, on),
                   .asked = false,
                   .waits_for_customer = job.state == db::JobState::held};
  to.seen.orders.push_back(std::move(order));
  to.seen.titles.push_back(job.quote.title);
  to.quotes.push_back(std::move(quote));
}

void add_goods(Gathered& to, Wants const& wants, BuyingRules const& buying, Date on) {
  for (Buy const& buy : to_buy(wants.materials, wants.shelf, wants.wanted, buying, on)) {
    if (buy.short_of == 0) continue;
    MaterialSupply const& supply = *std::ranges::find(
        wants.materials, buy.material, [](MaterialSupply const& row) { return row.material.id; });
    bool needed = false;
    for (std::size_t i = 0; i < to.seen.orders.size(); ++i) {
      BenchOrder& order = to.seen.orders[i];
      if (std::ranges::find(buy.jobs, order.name) == buy.jobs.end()) continue;
      needed = true;
      if (!supply.supply.lead_days) continue;
      constexpr std::int64_t day = 86'400;
      order.goods.push_back({supply.material.code, Duration{*supply.supply.lead_days * day},
                             parts_made_of(to.quotes[i], buy.material)});
    }
    if (needed && !supply.supply.lead_days) to.seen.unknown_leads.push_back(supply.material.code);
  }
}

}  // namespace

std::optional<Date> due_of(db::Workshop& workshop, db::JobHeader const& job, FrozenQuote const& agreed,
                           Date on) {
  if (!agreed.promise) return std::nullopt;
  if (agreed.promise->asked_by) return agreed.promise->asked_by;
  std::chrono::days const later = std::max(job.since - agreed.promise->starts, std::chrono::days{0});
  return agreed.promise->sure + later + std::chrono::days(db::days_held(workshop, job, on));
}

BenchSeen see_bench(db::Workshop& workshop, std::optional<BookAsked> const& asked, Date on) {
  BenchSeen seen;
  seen.bench = db::load_bench(workshop, on);
  if (!seen.anybody()) return seen;
  seen.steps = db::load_steps(workshop, on);
  Gathered gathered{seen, {}};
  auto jobs = db::list_jobs(workshop, false);
  std::ranges::reverse(jobs);
  for (db::JobHeader const& job : jobs) add_job(gathered, workshop, job, on);
  std::vector<Wanted> also;
  if (asked) {
    seen.orders.push_back({.name = asked->name,
                           .work = asked->quote.work,
                           .outside = awaited_work(asked->quote, {}),
                           .goods = {},
                           .worked = {},
                           .due = asked->due,
                           .asked = true,
                           .waits_for_customer = false});
    seen.titles.push_back(asked->quote.title);
    gathered.quotes.push_back(asked->quote);
    also = wanted_of(asked->quote, {}, asked->name, on);
  }
  add_goods(gathered, gather_wants(workshop, std::move(also), on, on), buying_rules(workshop, on), on);
  return seen;
}

void add_unknown_leads(Document& document, BenchSeen const& seen) {
  if (seen.unknown_leads.empty()) return;
  document.notice(
      NoticeKind::note,
      fmt::format("Short, and counted as if they were here once ordered, for nobody said how long they take "
                  "to come: {}. "
                  "endband stock supply {} --lead-days N says it; endband stock to-buy lists them.",
                  listed_few(seen.unknown_leads), seen.unknown_leads.front()));
}

}  // namespace endband::cli
