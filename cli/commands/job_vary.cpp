// A job goes on by another book: the change is priced against today.
#include "cli/commands/commands.h"
#include "cli/commands/job_seen.h"
#include "cli/commands/planned.h"
#include "cli/commands/quote_json.h"
#include "cli/commands/quote_made.h"
#include "cli/words/book_words.h"
#include "cli/words/values.h"
#include "db/bench.h"
#include "db/steps.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace endband::cli {
namespace {

// A material that the new book needs more or less of than the one before.
struct NeedChanged {
  std::string code;
  SoldBy sold_by = SoldBy::piece;
  Amount before, after;
};

struct Varied {
  db::JobHeader before;
  JobSeen seen;  // after it
  Change change;
  std::vector<NeedChanged> needs;
  std::string words;
  bool dry_run = false;
};

Json change_json(Change const& change) {
  return Json::Object{{"old_cost", money_json(change.old_cost)},
                      {"new_cost", money_json(change.new_cost)},
                      {"thrown_goods", money_json(change.thrown_goods)},
                      {"thrown_hours", money_json(change.thrown_hours)},
                      {"thrown_outside", money_json(change.thrown_outside)},
                      {"thrown_price", money_json(change.thrown_price)},
                      {"difference", money_json(change.difference)},
                      {"price", money_json(change.price)}};
}

Json to_json(Varied const& view) {
  auto const need_json = [](NeedChanged const& need) {
    return Json(Json::Object{
        {"code", need.code}, {"before", amount_json(need.before)}, {"after", amount_json(need.after)}});
  };
  auto const warning = [&](Warning const& each) { return warning_json(each, view.seen.agreed.materials); };
  return Json::Object{{"dry_run", view.dry_run},
                      {"job", job_json(view.seen.job)},
                      {"quote_before", db::number_text(view.before.quote.number)},
                      {"price_before", money_json(view.before.price)},
                      {"to_pay_before", money_json(view.before.to_pay)},
                      {"change", change_json(view.change)},
                      {"needs", json_array(view.needs, need_json)},
                      {"words", view.words},
                      {"warnings", json_array(view.seen.agreed.warnings, warning)}};
}

Table change_table(Varied const& view) {
  std::string const currency(view.change.price.currency.code());
  Change const& change = view.change;
  Table table{{{"The change, without tax"},
               {"Cost " + currency, Align::decimal},
               {"Price " + currency, Align::decimal}},
              {}};
  table.add({"The new book, at today's prices", money_text(change.new_cost), ""});
  table.add({"The book agreed on, at today's prices", money_text(-change.old_cost), ""});
  table.add({"More for the book, less for the one before", money_text(change.new_cost - change.old_cost),
             money_text(change.difference - change.thrown_price)});
  Money const thrown = change.thrown_goods + change.thrown_hours + change.thrown_outside;
  if (change.thrown_goods.minor != 0)
    table.add({"  goods taken, of no more use", money_text(change.thrown_goods), ""});
  if (change.thrown_hours.minor != 0)
    table.add({"  hours worked, of no more use", money_text(change.thrown_hours), ""});
  if (change.thrown_outside.minor != 0)
    table.add({"  work by others, of no more use", money_text(change.thrown_outside), ""});
  if (thrown.minor != 0) table.add({"Thrown away", money_text(thrown), money_text(change.thrown_price)});
  table.add({"Agreed before", "", money_text(view.before.price)});
  table.add_total({"Agreed now", "", money_text(change.price)});
  return table;
}

void add_needs(Document& document, Varied const& view) {
  if (view.needs.empty()) return;
  Table table{{{"Material"}, {"Needed before", Align::right}, {"Needed now", Align::right}}, {}};
  for (NeedChanged const& need : view.needs)
    table.add({need.code, need.before.n == 0 ? "" : sold_words(need.before, need.sold_by),
               need.after.n == 0 ? "" : sold_words(need.after, need.sold_by)});
  document.add(std::move(table));
}

Document to_document(Varied const& view) {
  db::JobHeader const& job = view.seen.job;
  Document document;
  document.heading(fmt::format("{}: {} quote {} now", job_title(job),
                               view.dry_run ? "would be made by" : "is made by",
                               db::number_text(job.quote.number)));
  if (!view.words.empty()) document.paragraph(view.words);
  document.add(change_table(view));
  add_needs(document, view);
  document.paragraph(fmt::format("To pay {}, before it was {}; paid {}, {}.{}", money_words(job.to_pay),
                                 money_text(view.before.to_pay), money_text(job.paid),
                                 due_words(view.seen.due()), view.dry_run ? " Nothing is saved." : ""));
  for (Warning const& warning : view.seen.agreed.warnings)
    document.notice(NoticeKind::warning, warning_words(warning, view.seen.agreed.materials));
  bool const lacks =
      std::ranges::any_of(view.seen.materials, [](auto const& row) { return row.short_of.n > 0; });
  if (!view.dry_run) document.next(lacks ? "endband stock to-buy" : "endband job show " + job.number);
  return document;
}

// The job's own terms stand: its customer, its goal, and its carriage where the new description has none of
// its own.
Read<Asked> asked_of_job(Context& context, db::Workshop& workshop, Args const& args, Described& described,
                         db::JobHeader const& job, FrozenQuote const& agreed) {
  if (Entry const* const entry = described.said.find("quote.customer");
      entry != nullptr && std::get<std::string>(entry->value) != job.quote.customer)
    return refuse({FaultCode::contradiction,
                   entry->where,
                   std::get<std::string>(entry->value),
                   "the job's own customer, " + job.quote.customer,
                   {}});
  constexpr std::array<std::string_view, 14> settled{
      "quote.margin",   "quote.markup",           "quote.profit", "quote.hourly",     "quote.leave",
      "quote.discount", "quote.discount_because", "quote.outlet", "quote.service",    "quote.to",
      "quote.made_to",  "quote.because",          "quote.budget", "quote.valid_until"};
  std::erase_if(described.said.entries,
                [&](Entry const& entry) { return std::ranges::find(settled, entry.key) != settled.end(); });
  described.shop.goal = agreed.goal;
  auto asked = asked_of(context, workshop, args, described);
  if (!asked) return asked;
  asked->customer = job.quote.customer;
  asked->customer_name = job.quote.customer_name;
  if (agreed.selling.outlet)
    asked->outlet = db::OutletInForce{*agreed.selling.outlet, agreed.outlet_version, agreed.on, std::nullopt};
  asked->discount = agreed.selling.discount;
  asked->made_to = agreed.made_to;
  if (described.said.find("quote.carriage") == nullptr) asked->delivery.carriage = agreed.delivery.carriage;
  if (described.said.find("quote.delivery") == nullptr) asked->delivery.words = agreed.delivery.words;
  return asked;
}

// The job, the book agreed on at today's prices, and the new one. The habits of the workshop are those of the
// day of the agreement for both: what nobody says is to stay as it is.
struct Weighed {
  JobSeen seen;
  Commission old_today;
  ToCompute now;
};
Read<Weighed> weigh(Context& context, db::Workshop& workshop, Args const& args) {
  db::Reading const reading(workshop);
  auto seen = see_job(workshop, args, context.on);
  if (!seen) return tl::unexpected(std::move(seen.error()));
  std::string const& file = args.word(1);
  auto text = context.read_file(file);
  if (!text) return tl::unexpected(std::move(text.error()));
  DescriptionDays const days{context.on, seen->agreed.on};
  auto now =
      describe_text(workshop, {file == "-" ? std::string(standard_input) : file, std::move(*text)}, days);
  if (!now) return tl::unexpected(std::move(now.error()));
  auto old = describe_text(
      workshop, {"quote " + db::number_text(seen->job.quote.number), seen->agreed.description}, days);
  if (!old) return tl::unexpected(std::move(old.error()));
  auto asked = asked_of_job(context, workshop, args, *now, seen->job, seen->agreed);
  if (!asked) return tl::unexpected(std::move(asked.error()));
  auto old_today = commission_of(*old, *asked, db::load_steps(workshop, context.on));
  if (old_today) old_today->bench = db::load_bench(workshop, context.on);
  if (!old_today) return tl::unexpected(std::move(old_today.error()));
  old_today->plans = known_plans(workshop, *old_today);
  return Weighed{std::move(*seen), std::move(*old_today), {std::move(*now), std::move(*asked)}};
}

std::vector<NeedChanged> needs_between(FrozenQuote const& before, FrozenQuote const& after) {
  std::vector<NeedChanged> needs;
  auto const need_in = [](FrozenQuote const& quote, MaterialId id) -> std::optional<Amount> {
    for (BillLine const& line : quote.bill.lines)
      if (line.material == id) return needed(line);
    return std::nullopt;
  };
  auto const add = [&](FrozenQuote const& quote, BillLine const& line) {
    Amount const none{line.net.dimension, 0};
    Amount const was = need_in(before, line.material).value_or(none),
                 is = need_in(after, line.material).value_or(none);
    Material const* const material = material_of(quote.materials, line.material);
    if (material != nullptr && was != is) needs.push_back({material->code, material->sold_by, was, is});
  };
  for (BillLine const& line : after.bill.lines) add(after, line);
  for (BillLine const& line : before.bill.lines)
    if (!need_in(after, line.material)) add(before, line);
  return needs;
}

Read<Varied> written(db::Writing& writing, Context const& context, Args const& args, JobSeen const& seen,
                     Computed const& now, Change const& change) {
  auto changes = changed_since(now, writing.workshop(), args, context.on);
  if (!changes.empty()) return tl::unexpected(std::move(changes));
  auto const issue = db::save_issue(writing, seen.job.quote, now.asked.valid_until, now.quote);
  if (!issue) return tl::unexpected(issue.error());
  std::string words = args.text("--words").value_or("");
  auto const done = db::change_agreed(writing, seen.job, *issue, change, context.on, words);
  if (!done) return tl::unexpected(done.error());
  auto after = see_job(writing.workshop(), args, context.on);
  if (!after) return tl::unexpected(std::move(after.error()));
  return Varied{seen.job,         std::move(*after), change, needs_between(seen.agreed, now.quote),
                std::move(words), context.dry_run};
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto weighed = weigh(context, **workshop, args);
  if (!weighed) return tl::unexpected(std::move(weighed.error()));
  JobSeen const& seen = weighed->seen;
  PlanTable const plans_of_old = plan_the_rest(weighed->old_today);
  auto const old_today = price(weighed->old_today);
  if (!old_today) return tl::unexpected(old_today.error());
  auto now = compute_quote(**workshop, std::move(weighed->now), context.on);
  if (!now) return tl::unexpected(now.error());
  now->quote.promise = seen.agreed.promise;  // the day promised stands; job show says where the job does
  auto const change = priced_change(seen.agreed, seen.job.price, old_today->sheet, now->quote, seen.record);
  if (!change) return tl::unexpected(change.error());
  auto view = in_one_writing(context, **workshop, [&](db::Writing& writing) {
    db::save_plans(writing, plans_of_old);
    db::save_plans(writing, now->new_plans);
    return written(writing, context, args, seen, *now, *change);
  });
  if (!view) return tl::unexpected(std::move(view.error()));
  return Answer(std::move(*view));
}

}  // namespace

Command job_vary() {
  return {.noun = "job",
          .verb = "vary",
          .summary = "Change the book of a job that is under way",
          .about =
              "The change costs what the new book would cost today less what the one agreed on would, and "
              "what was "
              "taken or worked that is of no more use; at the goal that was agreed. It is kept as a new "
              "issue of the "
              "quote.",
          .words = {job_word, {"FILE", FlagType::file, "the new description, or - for standard input"}},
          .flags = {{"--words", FlagType::words, "what was agreed"}},
          .examples = {"job vary 26-001 book.toml --dry-run",
                       "job vary 26-001 book.toml --words \"two registers\""},
          .refused_when = "the job has ended, or something it relies on is missing or was changed meanwhile",
          .writes = true,
          .lists = false,
          .run = run};
}

}  // namespace endband::cli
