// Prices the book of a description and keeps the quote.
#include "cli/commands/commands.h"
#include "cli/commands/quote_made.h"
#include "db/cutting.h"

namespace endband::cli {
namespace {

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto computed = compute_quote(context, **workshop, args, args.word(0));
  if (!computed) return tl::unexpected(std::move(computed.error()));
  auto header = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<db::QuoteHeader> {
    auto changes = changed_since(*computed, writing.workshop(), args, context.on);
    if (!changes.empty()) return tl::unexpected(std::move(changes));
    db::save_plans(writing, computed->new_plans);
    return db::save_quote(writing, computed->asked.customer, computed->asked.valid_until, computed->quote);
  });
  if (!header) return tl::unexpected(std::move(header.error()));
  return Answer(Made{std::move(*header), std::move(computed->quote), std::move(computed->promised),
                     context.dry_run, std::move(computed->budget)});
}

}  // namespace

Command quote_make() {
  return {
      .noun = "quote",
      .verb = "make",
      .summary = "Price the book of a description, and keep the quote",
      .about =
          "A quote is frozen: later prices, times and settings never change it. What the description's "
          "[quote] "
          "table says, a flag says more strongly; what neither says is the workshop's.",
      .words = {{"FILE", FlagType::file, "a description, or - for standard input"}},
      .flags = asking_flags(true),
      .examples =
          {"quote make book.toml --customer ida-quill --made-to personal --because \"initials tooled\" "
           "--delivery collected",
           "quote make book.toml --margin \"40 %\" --carriage 12.50 --delivery \"insured post\" --dry-run"},
      .refused_when = "a price, a step or a setting is missing, or another changed what was relied on",
      .writes = true,
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
