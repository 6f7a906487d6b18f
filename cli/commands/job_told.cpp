// What a job is told as it goes: money of the customer's, gates that wait for the customer's word.
#include "cli/commands/commands.h"
#include "cli/commands/job_seen.h"
#include "cli/commands/stock_parts.h"
#include "cli/words/values.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

struct Paid {
  db::JobHeader job;  // after it
  Money amount;       // negative: given back
  bool dry_run = false;
};

Json to_json(Paid const& view) {
  return Json::Object{
      {"dry_run", view.dry_run}, {"job", job_json(view.job)}, {"amount", money_json(view.amount)}};
}

Document to_document(Paid const& view) {
  Document document;
  document.heading(job_title(view.job));
  bool const back = view.amount.minor < 0;
  std::string text = fmt::format("{} {}: {} of {}, {}.", back ? "Given back" : "Paid",
                                 money_words(back ? -view.amount : view.amount), money_text(view.job.paid),
                                 money_text(view.job.to_pay), due_words(view.job.to_pay - view.job.paid));
  if (view.job.paid < view.job.deposit)
    text +=
        fmt::format(" Of the deposit asked, {} is missing.", money_words(view.job.deposit - view.job.paid));
  document.paragraph(text + (view.dry_run ? " Nothing is saved." : ""));
  if (!view.dry_run) document.next("endband job show " + view.job.number);
  return document;
}

template <class View, class Write>
Read<Answer> told(Context& context, Args const& args, Write&& write) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto view = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<View> {
    auto const job = job_meant(writing.workshop(), args);
    if (!job) return tl::unexpected(job.error());
    return write(writing, *job);
  });
  if (!view) return tl::unexpected(view.error());
  return Answer(std::move(*view));
}

Read<Answer> run_paid(Context& context, Args const& args) {
  return told<Paid>(context, args, [&](db::Writing& writing, db::JobHeader const& job) -> Read<Paid> {
    auto amount = read_workshop_money(args.word(1), writing.workshop().currency(), args.where("AMOUNT"));
    if (!amount) return tl::unexpected(amount.error());
    if (amount->minor == 0)
      return refuse({FaultCode::out_of_range, args.where("AMOUNT"), args.word(1), "more than nothing", {}});
    if (args.has("--given-back")) *amount = -*amount;
    auto const done = db::add_payment(writing, job, *amount, context.on, args.text("--words").value_or(""));
    if (!done) return tl::unexpected(done.error());
    auto after = job_meant(writing.workshop(), args);
    if (!after) return tl::unexpected(after.error());
    return Paid{std::move(*after), *amount, context.dry_run};
  });
}

struct Gated {
  db::JobHeader job;  // after it
  std::string gate;
  bool approved = false;
  std::vector<Gate> waiting;
  bool dry_run = false;
};

Json to_json(Gated const& view) {
  auto const gate_json = [](Gate const& gate) {
    return Json(Json::Object{{"name", gate.name}, {"since", date_text(gate.since)}});
  };
  return Json::Object{{"dry_run", view.dry_run},
                      {"job", job_json(view.job)},
                      {"gate", view.gate},
                      {"approved", view.approved},
                      {"waiting", json_array(view.waiting, gate_json)}};
}

Document to_document(Gated const& view) {
  Document document;
  document.heading(job_title(view.job));
  std::string text = view.approved ? fmt::format("Approved: {}.", view.gate)
                                   : fmt::format("Held until the customer approves: {}.", view.gate);
  std::vector<std::string> others;
  for (Gate const& gate : view.waiting)
    if (view.approved || gate.name != view.gate) others.push_back(gate.name);
  if (!others.empty()) text += " Still waits for " + listed(others) + ".";
  if (view.approved && view.waiting.empty()) text += " Nothing waits: the work goes on.";
  document.paragraph(text + (view.dry_run ? " Nothing is saved." : ""));
  if (!view.dry_run)
    document.next(view.approved ? "endband job show " + view.job.number
                                : fmt::format("endband job approve {} \"{}\"", view.job.number, view.gate));
  return document;
}

Read<Answer> run_gate(Context& context, Args const& args, bool approved) {
  return told<Gated>(context, args, [&](db::Writing& writing, db::JobHeader const& job) -> Read<Gated> {
    std::string const words = args.text("--words").value_or("");
    auto const done = approved ? db::approve(writing, job, args.word(1), context.on, words)
                               : db::hold(writing, job, args.word(1), context.on, words);
    if (!done) return tl::unexpected(done.error());
    auto after = job_meant(writing.workshop(), args);
    if (!after) return tl::unexpected(after.error());
    auto waiting = db::load_record(writing.workshop(), *after).gates;
    return Gated{std::move(*after), args.word(1), approved, std::move(waiting), context.dry_run};
  });
}

Read<Answer> run_hold(Context& context, Args const& args) { return run_gate(context, args, false); }
Read<Answer> run_approve(Context& context, Args const& args) { return run_gate(context, args, true); }

constexpr Word gate_word{"GATE", FlagType::gate, "what waits: the leather, a sample, the proof of the title"};
constexpr Flag words_flag{"--words", FlagType::words, "what else is to be kept of it"};

}  // namespace

Command job_paid() {
  return {.noun = "job",
          .verb = "paid",
          .summary = "Record what the customer paid",
          .about = "",
          .words = {job_word, {"AMOUNT", FlagType::money, "how much"}},
          .flags = {{"--given-back", FlagType::on, "it went back to the customer"}, words_flag},
          .examples = {"job paid 26-001 120.00 --words \"the deposit, by transfer\"",
                       "job paid 26-001 20.00 --given-back --dry-run"},
          .refused_when = "more is given back than was paid",
          .writes = true,
          .lists = false,
          .run = run_paid};
}

Command job_hold() {
  return {.noun = "job",
          .verb = "hold",
          .summary = "Hold a job at a gate until the customer approves",
          .about = "",
          .words = {job_word, gate_word},
          .flags = {words_flag},
          .examples = {"job hold 26-001 \"the leather\" --words \"two samples sent\"",
                       "job hold 1 \"proof of the title\""},
          .refused_when = "the job has ended, or is held there already",
          .writes = true,
          .lists = false,
          .run = run_hold};
}

Command job_approve() {
  return {.noun = "job",
          .verb = "approve",
          .summary = "Record that the customer approved what a job was held for",
          .about = "",
          .words = {job_word, gate_word},
          .flags = {words_flag},
          .examples = {"job approve 26-001 \"the leather\" --words \"by letter\"",
                       "job approve 1 \"proof of the title\""},
          .refused_when = "the job has ended, or is not held there",
          .writes = true,
          .lists = false,
          .run = run_approve};
}

}  // namespace endband::cli
