#include "cli/commands/promised.h"

#include "cli/commands/job_seen.h"
#include "cli/commands/shop_parts.h"
#include "db/jobs.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

constexpr std::string_view nobody_works = "bench set CODE --hours \"Mon-Fri 09:00-12:30 13:30-17:00\"";

// What was displaced, with what it earns: from the quote it was agreed by.
Read<std::vector<GivesWay>> who_gives_way(db::Workshop& workshop, Promised const& promised) {
  std::vector<GivesWay> all;
  for (Displaced const& displaced : promised.rush->displaced) {
    auto const index = static_cast<std::size_t>(displaced.order);
    std::string const& number = promised.planned.seen.orders[index].name;
    auto const job = db::find_job(workshop, number);
    if (!job) return tl::unexpected(job.error());
    FrozenQuote const agreed = db::load_quote(workshop, job->quote.id);
    Money const left = job->price - agreed.sheet.total;
    all.push_back({number, promised.planned.seen.titles[index], displaced.was, displaced.becomes,
                   displaced.due, left, hourly(left, agreed.sheet.labour, agreed.sheet.seconds)});
  }
  std::ranges::stable_sort(all,
                           [](GivesWay const& a, GivesWay const& b) { return a.left.minor > b.left.minor; });
  return all;
}

// What the overtime is paid over plain hours.
Money overtime_cost(ShopRules const& shop, Ratio share, Duration overtime) {
  return {round_product(rates_of(shop.basis).labour * share, Ratio(overtime.n), Rounding::half_away),
          shop.currency};
}

Read<Date> earliest_of(BenchPlanned const& planned, int order, Date half) {
  auto const low = plan_bench(planned.on(), {.low_times = true});
  if (!low) return tl::unexpected(low.error());
  auto const ready = ready_at(*low, planned.seen.orders, order);
  return ready ? std::min(day_of(low->now, *ready), half) : half;
}

}  // namespace

Read<DayAsked> day_asked(Args const& args, Date on) {
  DayAsked asked{args.get<Date>("--by"), args.has("--rush"), args.where("--by")};
  if (asked.by && *asked.by < on)
    return refuse(
        {FaultCode::out_of_range, asked.where, date_text(*asked.by), date_text(on) + " or later", {}});
  if (asked.rush && !asked.by)
    return refuse(
        {FaultCode::contradiction, args.where("--rush"), "a rush by no day", "--by DATE beside it", {}});
  return asked;
}

Read<std::optional<Promised>> promise_of(db::Workshop& workshop, FrozenQuote const& quote,
                                         DayAsked const& asked, Date on) {
  db::Reading const reading(workshop);
  BenchSeen seen = see_bench(workshop, BookAsked{quote, "this book", asked.by}, on);
  if (!seen.anybody()) {
    if (!asked.by) return std::nullopt;
    return refuse({FaultCode::missing_setting, {"bench", 0, 0, "people"}, "", std::string(nobody_works), {}});
  }
  auto planned = plan_seen(std::move(seen), on);
  if (!planned) return tl::unexpected(std::move(planned.error()));
  Promised promised;
  promised.planned = std::move(*planned);
  promised.needs_proof = std::ranges::any_of(
      quote.work.lines, [](WorkLine const& line) { return line.kind == OperationKind::draw_proof; });
  auto const& ready = promised.planned.ready.back();
  if (!ready) return std::nullopt;
  auto const earliest = earliest_of(promised.planned, promised.order(), ready->half);
  if (!earliest) return tl::unexpected(earliest.error());
  promised.dates = {on, asked.by, *earliest, ready->half, ready->four_fifths, ready->sure};
  if (!asked.by) return promised;
  auto way = rush(promised.planned.on(), promised.planned.plan, promised.order(), *asked.by);
  if (!way) return tl::unexpected(std::move(way.error()));
  promised.rush = std::move(*way);
  auto gives_way = who_gives_way(workshop, promised);
  if (!gives_way) return tl::unexpected(std::move(gives_way.error()));
  promised.gives_way = std::move(*gives_way);
  auto const& overtime = promised.rush->overtime;
  promised.overtime_share = share_setting(workshop, "overtime.share", on);
  if (overtime)
    promised.overtime_costs = overtime_cost(quote.shop, promised.overtime_share, overtime->in_all);
  if (!asked.rush || promised.rush->stands) return promised;
  if (!overtime)
    return refuse({FaultCode::rule_refused,
                   asked.where,
                   date_text(*asked.by),
                   "a day by which overtime makes it ready; no overtime that the bench allows does",
                   {}});
  promised.overtime_charged = true;
  promised.dates.half = overtime->half;
  promised.dates.four_fifths = overtime->four_fifths;
  promised.dates.sure = overtime->sure;
  promised.dates.earliest = std::min(promised.dates.earliest, overtime->half);
  return promised;
}

}  // namespace endband::cli
