// A job in tables for the binder.
#include "cli/commands/job_seen.h"
#include "cli/words/values.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

std::string hours(std::int64_t seconds) { return seconds == 0 ? "" : hours_words(Ratio(seconds)); }

// So many materials are told each by itself.
constexpr std::size_t few = 4;

std::string materials_words(std::vector<std::string> const& codes) {
  return fmt::format("{} materials neither taken nor said to be without: {}", codes.size(),
                     listed_few(codes));
}

}  // namespace

Table cost_table(JobSeen const& seen, std::string now) {
  CostSheet const& quoted = seen.agreed.sheet;
  ActualCost const& cost = seen.cost;
  std::string const currency(seen.job.price.currency.code());
  Table table{
      {{"Cost"}, {"Quoted " + currency, Align::decimal}, {std::move(now) + " " + currency, Align::decimal}},
      {}};
  auto const add = [&](std::string words, Money before, Money is) {
    if (before.minor != 0 || is.minor != 0) table.add({std::move(words), money_text(before), money_text(is)});
  };
  Money const none{0, seen.job.price.currency};
  add("Materials", quoted.materials, cost.materials);
  add("Hours at the rate", quoted.labour, cost.labour);
  add("Overhead", quoted.overhead, cost.overhead);
  add("Work by others", quoted.outside, cost.outside);
  add("Allowances", quoted.allowances, none);
  table.add_total({"All cost", money_text(quoted.total), money_text(cost.total)});
  table.add({"Price without tax", money_text(seen.job.price), money_text(seen.job.kept)});
  Money const sale = sale_costs(seen.agreed);
  add("The sale takes", seen.agreed.selling.outlet ? sale + seen.agreed.offer.walk.returns : sale, seen.sale);
  table.add({"Left of it", money_text(seen.left_quoted()), money_text(seen.left_now())});
  if (cost.time.n > 0)
    table.add({"An hour earns", money_text(hourly(seen.left_quoted(), quoted.labour, quoted.seconds)),
               money_text(hourly(seen.left_now(), cost.labour, Ratio(cost.time.n)))});
  return table;
}

void add_work(Document& document, JobSeen const& seen) {
  Table table{{{"Hours"}, {"Quoted", Align::right}, {"Worked", Align::right}}, {}};
  std::int64_t quoted = 0, worked = 0;
  for (WorkBeside const& work : seen.work) {
    table.add({work_words(work), hours(work.quoted.n), hours(work.worked.n)});
    quoted += work.quoted.n;
    worked += work.worked.n;
  }
  if (table.rows.empty()) return;
  table.add_total({"All hours", hours_words(Ratio(quoted)), hours_words(Ratio(worked))});
  document.add(std::move(table));
}

void add_open(Document& document, JobSeen const& seen) {
  if (seen.open.empty()) return;
  Table table{{{"Before it can be finished"}}, {}};
  std::vector<std::string> codes;
  for (StillOpen const& open : seen.open)
    if (open.what == OpenPoint::material) codes.push_back(open.name);
  if (codes.size() > few) table.add({materials_words(codes)});
  for (StillOpen const& open : seen.open)
    if (open.what != OpenPoint::material || codes.size() <= few) table.add({open_words(open)});
  document.add(std::move(table));
}

}  // namespace endband::cli
