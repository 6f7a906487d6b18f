// The two ends of a job: finished, or called off.
#include "cli/commands/commands.h"
#include "cli/commands/job_seen.h"
#include "cli/commands/quote_json.h"
#include "cli/commands/stock_parts.h"
#include "cli/words/values.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

struct Finished {
  JobSeen seen;  // after it
  bool dry_run = false;
};

Json to_json(Finished const& view) {
  JobSeen const& seen = view.seen;
  Money const earned = hourly(seen.left_now(), seen.cost.labour, Ratio(seen.cost.time.n));
  return Json::Object{{"dry_run", view.dry_run},
                      {"job", job_json(seen.job)},
                      {"quoted_cost", quoted_cost_json(seen.agreed.sheet)},
                      {"cost", cost_now_json(seen.cost)},
                      {"left_quoted", money_json(seen.left_quoted())},
                      {"left_now", money_json(seen.left_now())},
                      {"hourly", seen.cost.time.n > 0 ? money_json(earned) : Json()}};
}

Document to_document(Finished const& view) {
  JobSeen const& seen = view.seen;
  Document document;
  document.heading(
      fmt::format("{}: {}", job_title(seen.job), view.dry_run ? "would be finished" : "finished"));
  document.add(cost_table(seen, "Really"));
  add_work(document, seen);
  std::string const text = fmt::format("Of {} to pay {} is paid: {}.", money_words(seen.job.to_pay),
                                       money_text(seen.job.paid), due_words(seen.due()));
  document.paragraph(text + (view.dry_run ? " Nothing is saved." : ""));
  if (!view.dry_run)
    document.next(seen.due().minor > 0
                      ? fmt::format("endband job paid {} {}", seen.job.number, money_text(seen.due()))
                      : "endband stock list");
  return document;
}

Read<Answer> run_finish(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto view = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<Finished> {
    auto const job = job_meant(writing.workshop(), args);
    if (!job) return tl::unexpected(job.error());
    auto const cost =
        db::finish(writing, *job, db::load_quote(writing.workshop(), job->quote.id), context.on);
    if (!cost) return tl::unexpected(cost.error());
    auto after = see_job(writing.workshop(), args, context.on);
    if (!after) return tl::unexpected(std::move(after.error()));
    return Finished{std::move(*after), context.dry_run};
  });
  if (!view) return tl::unexpected(std::move(view.error()));
  return Answer(std::move(*view));
}

struct Cancelled {
  db::JobHeader job;  // after it
  Settlement settlement;
  std::string reason, tax_name;
  bool kept_said = false, custody_here = false, dry_run = false;
};

Json to_json(Cancelled const& view) {
  Settlement const& settled = view.settlement;
  return Json::Object{{"dry_run", view.dry_run},
                      {"job", job_json(view.job)},
                      {"reason", view.reason},
                      {"cost", cost_now_json(settled.cost)},
                      {"keeps", money_json(settled.keeps)},
                      {"tax", money_json(settled.tax)},
                      {"paid", money_json(settled.paid)},
                      {"to_give_back", money_json(settled.to_give_back)},
                      {"still_due", money_json(settled.still_due)},
                      {"custody_here", view.custody_here}};
}

Document to_document(Cancelled const& view) {
  Settlement const& settled = view.settlement;
  std::string const currency(settled.keeps.currency.code());
  Document document;
  document.heading(fmt::format("{}: {}, {}", job_title(view.job),
                               view.dry_run ? "would be cancelled" : "cancelled", view.reason));
  Table table{{{"Settlement"}, {currency, Align::decimal}}, {}};
  table.add({"Paid so far", money_text(settled.paid)});
  table.add({view.kept_said ? "The workshop keeps, as said" : "The workshop keeps, what it cost so far",
             money_text(-settled.keeps)});
  if (settled.tax.minor != 0)
    table.add({view.tax_name.empty() ? "Tax on it" : view.tax_name + " on it", money_text(-settled.tax)});
  bool const back = settled.still_due.minor == 0;
  table.add_total({back ? "To give back" : "Still due from the customer",
                   money_text(back ? settled.to_give_back : settled.still_due)});
  document.add(std::move(table));
  ActualCost const& cost = settled.cost;
  document.paragraph(
      fmt::format("It cost {} so far: materials {}, {} of work {}, overhead {}, work by others {}.{}",
                  money_words(cost.total), money_text(cost.materials), hours_words(Ratio(cost.time.n)),
                  money_text(cost.labour), money_text(cost.overhead), money_text(cost.outside),
                  view.dry_run ? " Nothing is saved." : " What was set aside for it is free again."));
  if (view.custody_here)
    document.notice(
        NoticeKind::note,
        fmt::format("The customer's own goods are still here: endband job return {} --to-customer",
                    view.job.number));
  if (!view.dry_run && settled.to_give_back.minor > 0)
    document.next(fmt::format("endband job paid {} {} --given-back", view.job.number,
                              money_text(settled.to_give_back)));
  return document;
}

Read<Cancelled> cancelled(db::Writing& writing, Context const& context, Args const& args,
                          std::string reason) {
  auto const job = job_meant(writing.workshop(), args);
  if (!job) return tl::unexpected(job.error());
  std::optional<Money> keeps;
  if (auto const said = args.text("--keep")) {
    auto const money = read_workshop_money(*said, writing.workshop().currency(), args.where("--keep"));
    if (!money) return tl::unexpected(money.error());
    keeps = *money;
  }
  FrozenQuote const agreed = db::load_quote(writing.workshop(), job->quote.id);
  auto const settled = db::cancel(writing, *job, agreed, keeps, context.on, reason);
  if (!settled) return tl::unexpected(settled.error());
  auto after = job_meant(writing.workshop(), args);
  if (!after) return tl::unexpected(after.error());
  bool const custody = db::load_record(writing.workshop(), *after).custody_here;
  return Cancelled{std::move(*after), *settled, std::move(reason), agreed.selling.tax.name,
                   keeps.has_value(), custody,  context.dry_run};
}

Read<Answer> run_cancel(Context& context, Args const& args) {
  auto const reason = args.text("--reason");
  if (!reason || reason->empty())
    return refuse({FaultCode::bad_command, args.where("--reason"), "", "why it is called off", {}});
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto view = in_one_writing(
      context, **workshop, [&](db::Writing& writing) { return cancelled(writing, context, args, *reason); });
  if (!view) return tl::unexpected(std::move(view.error()));
  return Answer(std::move(*view));
}

}  // namespace

Command job_finish() {
  return {
      .noun = "job",
      .verb = "finish",
      .summary = "Close a job with what it really cost",
      .about = "What is still set aside for it is free again. The balance may be paid later.",
      .words = {job_word},
      .flags = {},
      .examples = {"job finish 26-001 --dry-run", "job finish 26-001"},
      .refused_when =
          "anything is open: a gate, a quoted material neither taken nor said to be without, hours, a bill, "
          "goods of the customer's",
      .writes = true,
      .lists = false,
      .run = run_finish};
}

Command job_cancel() {
  return {
      .noun = "job",
      .verb = "cancel",
      .summary = "Call a job off, and settle it",
      .about =
          "The workshop keeps what the job cost so far, or what --keep says, and tax on it; what was paid "
          "beyond "
          "that is to be given back.",
      .words = {job_word},
      .flags = {{"--keep", FlagType::money, "what the workshop keeps, without tax; else what it cost so far"},
                {"--reason", FlagType::words, "why it is called off"}},
      .examples = {"job cancel 26-002 --reason \"moved away\" --dry-run",
                   "job cancel 26-002 --keep 80.00 --reason \"found another binder\""},
      .refused_when = "the job has ended",
      .writes = true,
      .lists = false,
      .run = run_cancel};
}

}  // namespace endband::cli
