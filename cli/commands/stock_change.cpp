// What may change about a lot: its place, its days, a note.
#include "cli/commands/changed.h"
#include "cli/commands/commands.h"
#include "cli/commands/stock_parts.h"

#include <array>

namespace endband::cli {
namespace {

Fields fields_of(db::LotRow const& lot) {
  auto const day = [](std::optional<Date> date) { return date ? date_text(*date) : std::string(); };
  return {{"place", lot.place},
          {"opened-on", day(lot.opened_on)},
          {"keeps-until", day(lot.keeps_until)},
          {"note", lot.note}};
}

struct Fact {
  std::string name, value;
};
std::vector<Fact> facts_said(Args const& args) {
  std::vector<Fact> facts;
  if (auto const place = args.text("--place")) facts.push_back({"place", *place});
  if (auto const day = args.get<Date>("--opened")) facts.push_back({"opened-on", date_text(*day)});
  if (auto const day = args.get<Date>("--keeps-until")) facts.push_back({"keeps-until", date_text(*day)});
  if (auto const note = args.text("--note")) facts.push_back({"note", *note});
  return facts;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto const before = located(db::find_lot(**workshop, args.word(0)), args.where("LOT"));
  if (!before) return tl::unexpected(before.error());
  auto const facts = facts_said(args);
  if (facts.empty())
    return refuse({FaultCode::bad_command,
                   args.where("--place"),
                   "",
                   "what is to change: --place, --opened, --keeps-until "
                   "or --note",
                   {}});
  auto const after = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<db::LotRow> {
    Read<db::LotRow> lot = *before;
    for (Fact const& fact : facts) {
      lot = db::set_fact(writing, args.word(0), fact.name, fact.value);
      if (!lot) return lot;
    }
    return lot;
  });
  if (!after) return tl::unexpected(after.error());
  return Answer(Changed{.deed = Deed::changed,
                        .noun = "lot",
                        .code = lot_text(*after),
                        .changes = changes_between(fields_of(*before), fields_of(*after)),
                        .from = {},
                        .dry_run = context.dry_run,
                        .next = "endband stock list " + after->code + " --lots"});
}

}  // namespace

Command stock_change() {
  return {
      .noun = "stock",
      .verb = "change",
      .summary = "Change where a lot lies, its days, or its note",
      .about = "What is opened keeps for fewer days: stock supply says how many.",
      .words = {{"LOT", FlagType::words, "a lot such as L12 or K3"}},
      .flags = {{"--place", FlagType::words, "where it lies now; empty: nowhere in particular"},
                {"--opened", FlagType::date, "the day on which it was opened"},
                {"--keeps-until", FlagType::date, "the last day on which it may be used"},
                {"--note", FlagType::words, "for the bench; empty: none"}},
      .examples = {"stock change K1 --place \"skin rack\"", "stock change L2 --opened 2026-11-20 --dry-run"},
      .refused_when = "",
      .writes = true,
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
