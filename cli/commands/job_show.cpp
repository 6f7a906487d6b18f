// A job at a glance: the page to work by.
#include "cli/commands/commands.h"
#include "cli/commands/job_seen.h"
#include "cli/words/values.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

struct JobPage {
  JobSeen seen;
};

Json to_json(JobPage const& view) { return seen_json(view.seen); }

std::string state_words(JobSeen const& seen) {
  db::JobHeader const& job = seen.job;
  std::string text = fmt::format("{}, since {}", db::job_state_name(job.state), date_text(job.since));
  if (job.ended) return text + ", ended on " + date_text(*job.ended);
  if (job.needed_on) text += ", needed on " + date_text(*job.needed_on);
  return text;
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
  if (job.deposit.minor > 0) head.rows.emplace_back("Deposit asked", money_words(job.deposit));
  head.rows.emplace_back("Paid", fmt::format("{}, {}", money_words(job.paid), due_words(seen.due())));
  return head;
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

bool same_words(std::string const& a, std::string const& b) {
  auto const small = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
  return std::ranges::equal(a, b, {}, small, small);
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
  add_materials(document, seen);
  add_work(document, seen);
  add_outside(document, seen);
  document.add(cost_table(seen, seen.ended() ? "Really" : "So far"));
  add_open(document, seen);
  if (!seen.ended()) document.next(next_of(seen));
  return document;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  db::Reading const reading(**workshop);
  auto seen = see_job(**workshop, args, context.on);
  if (!seen) return tl::unexpected(std::move(seen.error()));
  return Answer(JobPage{std::move(*seen)});
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
