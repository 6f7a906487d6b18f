// A job at a glance: the page to work by.
#include "cli/commands/bench_planned.h"
#include "cli/commands/commands.h"
#include "cli/commands/job_seen.h"
#include "cli/words/values.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

// Where the job stands on the bench today.
struct OnTheBench {
  BenchPlanned planned;
  int order = 0;
  std::optional<ReadyBy> const& ready() const { return planned.ready[static_cast<std::size_t>(order)]; }
};

struct JobPage {
  JobSeen seen;
  std::optional<Date> due;
  std::optional<OnTheBench> bench;  // none: the job has ended, or nobody's hours are known
  bool no_plan = false;             // the bench cannot be planned; `bench week` says why
};

Json promised_json(JobPage const& view) {
  auto const& promise = view.seen.agreed.promise;
  if (!promise) return {};
  return Json::Object{{"asked_by", promise->asked_by ? Json(date_text(*promise->asked_by)) : Json()},
                      {"ready_95", date_text(promise->sure)},
                      {"due", date_text(*view.due)}};
}

Json to_json(JobPage const& view) {
  Json page = seen_json(view.seen);
  auto members = std::get<Json::Object>(page.value());
  members.emplace_back("promised", promised_json(view));
  members.emplace_back("ready", view.bench ? ready_json(view.bench->planned, view.bench->order) : Json());
  return members;
}

std::string state_words(JobSeen const& seen) {
  db::JobHeader const& job = seen.job;
  std::string text = fmt::format("{}, since {}", db::job_state_name(job.state), date_text(job.since));
  if (job.ended) return text + ", ended on " + date_text(*job.ended);
  if (job.needed_on) text += ", needed on " + date_text(*job.needed_on);
  return text;
}

// One part of what is to pay: "420.00 EUR, paid", "420.00 EUR, 20.00 of it due".
std::string part_words(Money part, Money paid, std::string_view unpaid) {
  if (paid >= part) return money_words(part) + ", paid";
  if (paid.minor <= 0) return fmt::format("{}, {}", money_words(part), unpaid);
  return fmt::format("{}, {} of it {}", money_words(part), money_text(part - paid), unpaid);
}

KeyValues head_of(JobSeen const& seen) {
  db::JobHeader const& job = seen.job;
  KeyValues head;
  head.rows.emplace_back("State", state_words(seen));
  for (Gate const& gate : seen.record.gates)
    head.rows.emplace_back("Waits for", gate.name + ", since " + date_text(gate.since));
  bool const called_off = job.state == db::JobState::cancelled;
  head.rows.emplace_back(called_off ? "Settled" : "Agreed",
                         fmt::format("{} without tax, {} to pay; quote {}", money_words(job.kept),
                                     money_text(job.to_pay), db::number_text(job.quote.number)));
  if (job.deposit.minor > 0 && !job.ended) {
    head.rows.emplace_back("To begin", part_words(job.deposit, job.paid, "due"));
    head.rows.emplace_back("When it is ready",
                           part_words(job.to_pay - job.deposit, job.paid - job.deposit, "then due"));
  }
  head.rows.emplace_back("Paid", fmt::format("{}, {}", money_words(job.paid), due_words(seen.due())));
  return head;
}

std::string due_reason(Promise const& promise, Date due) {
  if (promise.asked_by) return ", as it was asked for";
  auto const later = (due - promise.sure).count();
  if (later == 0) return "";
  return fmt::format("; {} named, and {} day{} later for the order or the customer's word",
                     date_text(promise.sure), later, later == 1 ? "" : "s");
}

// The day that was named, and the day that it would be now.
void add_days(Document& document, JobPage const& view) {
  auto const& promise = view.seen.agreed.promise;
  std::optional<Date> const& due = view.due;
  KeyValues days;
  if (promise)
    days.rows.emplace_back("Promised",
                           fmt::format("to send by {}{}", date_text(*due), due_reason(*promise, *due)));
  std::optional<ReadyBy> const ready = view.bench ? view.bench->ready() : std::nullopt;
  if (view.seen.job.state == db::JobState::held)
    days.rows.emplace_back("Ready", "no day: it waits for the customer");
  else if (ready)
    days.rows.emplace_back(
        "Ready",
        fmt::format("by {} in 95 of 100 cases, as likely as not by {}; {} of hands left",
                    date_text(ready->sure), date_text(ready->half), hours_words(Ratio(ready->hands.n))));
  if (!days.rows.empty()) document.add(std::move(days));
  if (view.no_plan)
    document.notice(NoticeKind::note, "The bench cannot be planned: endband bench week says why.");
  if (ready && due && ready->sure > *due)
    document.notice(NoticeKind::warning, fmt::format("It may miss its day. {}",
                                                     chain_words(view.bench->planned, view.bench->order)));
}

// Counted goods as they are counted, measured ones to three figures.
std::string short_words(Amount amount, SoldBy sold_by) {
  if (amount.n == 0) return "";
  return amount.dimension == Dimension::count ? sold_words(amount, sold_by) : amount_text(amount);
}

std::string to_take_words(MaterialSeen const& row) {
  if (row.customers) return "customer's";
  if (row.without) return "without";
  return short_words(row.to_take, row.material.sold_by);
}

void add_materials(Document& document, JobSeen const& seen) {
  bool const lacks = std::ranges::any_of(seen.materials, [](auto const& row) { return row.short_of.n > 0; });
  Table table{{{"Material"},
               {"Quoted", Align::right},
               {"Taken", Align::right},
               {fmt::format("Worth {}", seen.job.price.currency.code()), Align::decimal}},
              {}};
  if (!seen.ended()) table.columns.push_back({"To take", Align::right});
  if (lacks) table.columns.push_back({"Short of", Align::right});
  for (MaterialSeen const& row : seen.materials) {
    SoldBy const how = row.material.sold_by;
    bool const taken = row.beside.taken.n != 0 || row.beside.taken_value.minor != 0;
    std::vector<std::string> cells{row.material.code, short_words(row.beside.quoted, how),
                                   short_words(row.beside.taken, how),
                                   taken ? money_text(row.beside.taken_value) : ""};
    if (!seen.ended()) cells.push_back(to_take_words(row));
    if (lacks) cells.push_back(short_words(row.short_of, how));
    table.add(std::move(cells));
  }
  document.add(std::move(table));
}

void add_outside(Document& document, JobSeen const& seen) {
  std::string const currency(seen.job.price.currency.code());
  Table table{
      {{"Work by others"}, {"Quoted " + currency, Align::decimal}, {"Billed " + currency, Align::decimal}},
      {}};
  std::vector<Billed> unquoted = seen.record.billed;
  for (Outside const& outside : seen.agreed.outside) {
    Money billed{0, outside.price.currency};
    std::erase_if(unquoted, [&](Billed const& bill) {
      bool const of_it = same_words(bill.words, outside.words);
      if (of_it) billed += bill.price;
      return of_it;
    });
    table.add({outside.words, money_text(outside.price), billed.minor == 0 ? "" : money_text(billed)});
  }
  for (Billed const& bill : unquoted) table.add({bill.words, "", money_text(bill.price)});
  if (!table.rows.empty()) document.add(std::move(table));
}

std::string next_of(JobSeen const& seen) {
  std::string const job = seen.job.number;
  if (seen.job.state == db::JobState::held)
    return fmt::format("endband job approve {} \"{}\"", job, seen.record.gates.front().name);
  if (std::ranges::any_of(seen.materials, [](auto const& row) { return row.short_of.n > 0; }))
    return "endband stock to-buy";
  if (std::ranges::any_of(seen.materials, [](auto const& row) { return row.to_take.n > 0; }))
    return fmt::format("endband job use {} --as-quoted", job);
  return seen.open.empty() ? "endband job finish " + job
                           : fmt::format("endband job time {} STEP 09:10-11:40", job);
}

Document to_document(JobPage const& view) {
  JobSeen const& seen = view.seen;
  Document document;
  document.heading(job_title(seen.job));
  document.add(head_of(seen));
  if (!seen.ended()) add_days(document, view);
  add_materials(document, seen);
  add_work(document, seen);
  add_outside(document, seen);
  document.add(cost_table(seen, seen.ended() ? "Really" : "So far"));
  add_open(document, seen);
  if (!seen.ended()) document.next(next_of(seen));
  return document;
}

void look_at_bench(db::Workshop& workshop, JobPage& view, Date on) {
  BenchSeen bench = see_bench(workshop, std::nullopt, on);
  if (!bench.anybody()) return;
  auto const found = std::ranges::find(bench.orders, view.seen.job.number, &BenchOrder::name);
  auto const order = static_cast<int>(found - bench.orders.begin());
  auto planned = plan_seen(std::move(bench), on);
  view.no_plan = !planned;
  if (planned) view.bench = OnTheBench{std::move(*planned), order};
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  db::Reading const reading(**workshop);
  auto seen = see_job(**workshop, args, context.on);
  if (!seen) return tl::unexpected(std::move(seen.error()));
  JobPage view{std::move(*seen), std::nullopt, std::nullopt, false};
  view.due = due_of(**workshop, view.seen.job, view.seen.agreed, context.on);
  if (!view.seen.ended()) look_at_bench(**workshop, view, context.on);
  return Answer(std::move(view));
}

}  // namespace

Command job_show() {
  return {.noun = "job",
          .verb = "show",
          .summary = "Show a job: agreed, taken, worked and cost so far, beside what was quoted",
          .about =
              "What is to take is what the quote needs and was not taken yet. Left now is what would be left "
              "if it "
              "were finished as it stands.",
          .words = {job_word},
          .flags = {},
          .examples = {"job show 26-001", "job show 1 --json"},
          .refused_when = "",
          .writes = false,
          .lists = false,
          .run = run};
}

}  // namespace endband::cli
