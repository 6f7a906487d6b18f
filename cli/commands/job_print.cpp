// What the customer of a job is sent: that the order stands, and that money came.
#include "cli/commands/commands.h"
#include "cli/commands/job_seen.h"
#include "cli/commands/logo.h"
#include "cli/commands/on_cover.h"
#include "cli/commands/paper_file.h"
#include "cli/commands/quote_paper.h"
#include "cli/drawings/closed_book.h"
#include "cli/words/order_words.h"
#include "cli/words/values.h"
#include "db/quotes.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <numeric>
#include <span>

namespace endband::cli {
namespace {

struct JobPrinted {
  std::string job, paper;
  PaperFile written;
  bool dry_run = false;
};

Json to_json(JobPrinted const& view) {
  return Json::Object{{"dry_run", view.dry_run},
                      {"job", view.job},
                      {"paper", view.paper},
                      {"file", view.written.file},
                      {"notices", notices_json(view.written)}};
}

Document to_document(JobPrinted const& view) {
  Document document;
  add_written(document, fmt::format("The {} of job {}", view.paper, view.job), view.written, view.dry_run);
  return document;
}

// All that both papers are made from: what a buyer may see, and what the buyer paid.
struct JobPaper {
  db::JobHeader job;
  QuotePaper quote;
  std::vector<db::Payment> payments;
  std::optional<OnCover> cover;  // none: its description can no longer be read
};

Money sum(std::span<db::Payment const> payments, Currency currency) {
  return std::accumulate(payments.begin(), payments.end(), Money{0, currency},
                         [](Money so_far, db::Payment const& payment) { return so_far + payment.amount; });
}

Document begun(JobPaper const& view, std::string_view word, std::string const& number, Date on,
               KeyValues const& more) {
  Document document;
  document.paper = true;
  add_letterhead(document, view.quote);
  document.heading(fmt::format("{} {}", view.quote.style.word(word), number), 1);
  KeyValues about;
  add_customer(about, view.quote);
  about.rows.emplace_back(view.quote.style.word("date"), date_text(on));
  about.rows.insert(about.rows.end(), more.rows.begin(), more.rows.end());
  document.add(std::move(about));
  return document;
}

NewPaper confirmation(JobPaper const& view) {
  PaperStyle const& style = view.quote.style;
  KeyValues more;
  more.rows.emplace_back(
      style.word("agreed"),
      fmt::format("{} {}, {}", style.word("quotation"), view.quote.number, date_text(view.quote.quote.on)));
  if (view.job.needed_on) more.rows.emplace_back(style.word("needed-on"), date_text(*view.job.needed_on));
  Document document = begun(view, "confirmation", view.job.number, view.job.since, more);
  add_what_is_ordered(document, view.quote, PaperLevel::components, PaperOptions::left_out);
  if (auto drawing = draw_closed_book(view.quote.quote, view.cover.value_or(OnCover{})))
    document.add(std::move(*drawing));
  std::string const name = fmt::format("{} {}", style.word("confirmation"), view.job.number);
  return {std::move(document), page_of(style, name, view.job.since), "confirmation-" + view.job.number};
}

// `which` counts from 1.
NewPaper receipt(JobPaper const& view, std::size_t which) {
  PaperStyle const& style = view.quote.style;
  db::Payment const& payment = view.payments[which - 1];
  std::span<db::Payment const> const until(view.payments.data(), which);
  std::string const number = fmt::format("{}-{}", view.job.number, which);
  KeyValues more;
  std::string const& title = view.quote.quote.title;
  more.rows.emplace_back(style.word("order"), view.job.number + (title.empty() ? "" : ", " + title));
  Document document = begun(view, "receipt", number, payment.on, more);
  auto const money = [&](Money amount) { return style.numbers.money(amount); };
  bool const back = payment.amount.minor < 0;
  std::string const what = style.word(back ? "given-back" : "received");
  Table table{{{""}, {std::string(payment.amount.currency.code()), Align::decimal}}, {}};
  table.add_total({payment.words.empty() ? what : fmt::format("{}: {}", what, payment.words),
                   money(back ? -payment.amount : payment.amount)});
  Money const paid = sum(until, payment.amount.currency);
  table.add({style.word("total"), money(view.job.to_pay)});
  table.add({style.word("paid-so-far"), money(paid)});
  table.add({style.word("still-due"), money(view.job.to_pay - paid)});
  document.add(std::move(table));
  if (!view.quote.exempt_words.empty()) document.paragraph(view.quote.exempt_words);
  document.add(SignHere{{style.word("place-and-date"), style.word("signature")}});
  std::string const name = fmt::format("{} {}", style.word("receipt"), number);
  return {std::move(document), page_of(style, name, payment.on), "receipt-" + number};
}

Read<std::size_t> payment_meant(Args const& args, JobPaper const& view) {
  auto const said = args.get<std::int64_t>("--payment");
  std::size_t const count = view.payments.size();
  if (count == 0)
    return refuse({FaultCode::rule_refused,
                   args.where("NUMBER"),
                   view.job.number,
                   "nothing was paid yet: endband job paid says when it is",
                   {}});
  if (!said) return count;
  if (*said < 1 || static_cast<std::size_t>(*said) > count)
    return refuse({FaultCode::out_of_range,
                   args.where("--payment"),
                   std::to_string(*said),
                   fmt::format("1 to {}, as they came", count),
                   {}});
  return static_cast<std::size_t>(*said);
}

constexpr std::array<std::string_view, 2> papers{"confirmation", "receipt"};

Read<JobPaper> read(Context& context, db::Workshop& workshop, Args const& args) {
  auto const job = job_meant(workshop, args);
  if (!job) return tl::unexpected(job.error());
  auto quote = quote_paper(workshop, db::number_text(job->quote.number), context.on);
  if (!quote) return tl::unexpected(quote.error());
  auto const cover = on_cover(workshop, db::load_quote(workshop, job->quote.id));
  return JobPaper{*job, std::move(*quote), db::payments(workshop, *job),
                  cover ? std::optional(*cover) : std::nullopt};
}

Read<NewPaper> paper_made(Args const& args, std::string const& which, JobPaper const& view) {
  if (which == "receipt") {
    auto const payment = payment_meant(args, view);
    if (!payment) return tl::unexpected(payment.error());
    return receipt(view, *payment);
  }
  if (view.job.state == db::JobState::cancelled)
    return refuse({FaultCode::rule_refused,
                   args.where("NUMBER"),
                   view.job.number,
                   "the job was called off: there is no order to confirm",
                   {}});
  return confirmation(view);
}

Read<NewPaper> paper_asked(Context& context, db::Workshop& workshop, Args const& args,
                           std::string const& which) {
  db::Reading const reading(workshop);
  auto const view = read(context, workshop, args);
  if (!view) return tl::unexpected(view.error());
  auto paper = paper_made(args, which, *view);
  if (!paper) return paper;
  auto logo = logo_of(context, workshop, view->job.since);
  if (!logo) return tl::unexpected(std::move(logo.error()));
  paper->page.logo = std::move(*logo);
  if (!view->cover && which == "confirmation") paper->notices.emplace_back(cover_not_known);
  return paper;
}

Read<Answer> run(Context& context, Args const& args) {
  std::string const which = args.text("--paper").value_or("confirmation");
  if (std::ranges::find(papers, which) == papers.end())
    return refuse({FaultCode::bad_value, args.where("--paper"), which, "confirmation or receipt",
                   nearest(which, papers)});
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto paper = paper_asked(context, **workshop, args, which);
  if (!paper) return tl::unexpected(std::move(paper.error()));
  auto const job = job_meant(**workshop, args);
  auto written = write_paper(context, args, std::move(*paper));
  if (!written) return tl::unexpected(std::move(written.error()));
  return Answer(JobPrinted{job->number, which, std::move(*written), context.dry_run});
}

std::vector<Flag> flags() {
  std::vector<Flag> all{
      {"--paper", FlagType::job_paper, "confirmation (unless said), or receipt"},
      {"--payment", FlagType::whole, "of a receipt: which payment, counted as they came; else the last"}};
  for (Flag const& flag : paper_flags()) all.push_back(flag);
  return all;
}

}  // namespace

Command job_print() {
  return {.noun = "job",
          .verb = "print",
          .summary = "Write what the customer of a job is sent: the order confirmed, or a receipt",
          .about =
              "The confirmation says what was agreed on, in the words of the quotation, without the options "
              "that were not taken. A receipt is for one payment, and says what is still due after it.",
          .words = {job_word},
          .flags = flags(),
          .examples = {"job print 26-001", "job print 26-001 --paper receipt --as pdf"},
          .refused_when = "a receipt is asked for and nothing was paid, or the job was called off",
          .writes = true,
          .lists = false,
          .run = run};
}

}  // namespace endband::cli
