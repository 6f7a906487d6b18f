// A new issue of a quote: the one before no longer holds.
#include "cli/commands/commands.h"
#include "cli/commands/quote_made.h"
#include "db/cutting.h"
#include "db/jobs.h"

namespace endband::cli {
namespace {

struct Revised {
  Made made;
  std::string before;  // "26-014a"
};

Json to_json(Revised const& view) {
  Json::Object object{{"revises", view.before}};
  Json const made = to_json(view.made);
  auto const& members = std::get<Json::Object>(made.value());
  object.insert(object.end(), members.begin(), members.end());
  return object;
}

Document to_document(Revised const& view) {
  Document document = to_document(view.made);
  document.notice(NoticeKind::note,
                  view.before + (view.made.dry_run ? " would no longer hold." : " no longer holds."));
  return document;
}

// What a job is made by changes by `job vary`; and a commission has one customer.
std::vector<Fault> not_revisable(db::Workshop& workshop, Args const& args, db::QuoteHeader const& quote,
                                 Asked const& asked) {
  std::vector<Fault> faults;
  std::string number = db::number_text(quote.number);
  number.pop_back();
  if (auto const job = db::find_job(workshop, number))
    faults.push_back({FaultCode::rule_refused,
                      args.where("NUMBER"),
                      db::number_text(quote.number),
                      "it is job " + number + " already; endband job vary " + number + " FILE changes that",
                      {}});
  if (!asked.customer.empty() && asked.customer != quote.customer)
    faults.push_back({FaultCode::contradiction,
                      args.where("quote.customer"),
                      asked.customer,
                      quote.customer.empty() ? "nobody, as before; a quote for a customer is a new one"
                                             : "the customer of all its issues, " + quote.customer,
                      {}});
  return faults;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto const before = located(db::find_quote(**workshop, args.word(0)), args.where("NUMBER"));
  if (!before) return tl::unexpected(before.error());
  auto computed = compute_quote(context, **workshop, args, args.word(1));
  if (!computed) return tl::unexpected(std::move(computed.error()));
  auto header = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<db::QuoteHeader> {
    auto faults = not_revisable(writing.workshop(), args, *before, computed->asked);
    if (faults.empty()) faults = changed_since(*computed, writing.workshop(), args, context.on);
    if (!faults.empty()) return tl::unexpected(std::move(faults));
    db::save_plans(writing, computed->new_plans);
    return db::save_issue(writing, *before, computed->asked.valid_until, computed->quote);
  });
  if (!header) return tl::unexpected(std::move(header.error()));
  return Answer(Revised{{std::move(*header), std::move(computed->quote), std::move(computed->promised),
                         context.dry_run, std::move(computed->budget)},
                        db::number_text(before->number)});
}

}  // namespace

Command quote_revise() {
  return {
      .noun = "quote",
      .verb = "revise",
      .summary = "Price a book anew, as another issue of a quote",
      .about = "The issues before it no longer hold; all are kept as they were. The customer stays the same.",
      .words = {{"NUMBER", FlagType::quote, "the quote's number: 26-001a, or 26-001 for its latest issue"},
                {"FILE", FlagType::file, "a description, or - for standard input"}},
      .flags = asking_flags(false),
      .examples = {"quote revise 26-001a book.toml --margin \"38 %\"",
                   "quote revise 26-001 book.toml --carriage 9.00 --dry-run"},
      .refused_when = "it is a job already, or a price, a step or a setting is missing",
      .writes = true,
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
