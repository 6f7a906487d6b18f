// What may change about a lot: its place, its days, a note, the outline of a skin.
#include "cli/commands/changed.h"
#include "cli/commands/commands.h"
#include "cli/commands/stock_parts.h"
#include "cli/commands/stock_shape.h"
#include "db/cutting.h"

#include <array>

namespace endband::cli {
namespace {

struct LotChanged {
  Changed changed;
  std::optional<AreaApart> apart;
};

Json to_json(LotChanged const& view) {
  Json::Object all = std::get<Json::Object>(to_json(view.changed).value());
  all.emplace_back("area_apart", area_apart_json(view.apart));
  return all;
}

Document to_document(LotChanged const& view) {
  Document document = to_document(view.changed);
  add_area_apart(document, view.apart);
  return document;
}

// A lot, and of a skin its outline.
struct State {
  db::LotRow lot;
  std::optional<endband::Shape> shape;
};

Fields fields_of(State const& state) {
  db::LotRow const& lot = state.lot;
  auto const day = [](std::optional<Date> date) { return date ? date_text(*date) : std::string(); };
  return {{"place", lot.place},
          {"opened-on", day(lot.opened_on)},
          {"keeps-until", day(lot.keeps_until)},
          {"note", lot.note},
          {"outline", state.shape ? outline_words(outlined(state.shape)) : std::string()}};
}

// Two outlines may be alike in all that is told of them.
std::vector<Change> changes_of(State const& before, State const& after) {
  std::vector<Change> changes = changes_between(fields_of(before), fields_of(after));
  bool const told = !changes.empty() && changes.back().field == "outline";
  if (!told && before.shape != after.shape) {
    std::string const words = outline_words(outlined(after.shape));
    changes.push_back({"outline", words, words + ", with other corners"});
  }
  return changes;
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

struct Said {
  State before;
  std::vector<Fact> facts;
  std::optional<endband::Shape> shape;
};
Read<Said> all_said(Context& context, db::Workshop& workshop, Args const& args) {
  auto lot = located(db::find_lot(workshop, args.word(0)), args.where("LOT"));
  auto shape = shape_said(context, args);
  std::vector<Fault> faults = lot ? std::vector<Fault>() : lot.error();
  if (!shape) faults.insert(faults.end(), shape.error().begin(), shape.error().end());
  auto const flag = shape_flag_said(args);
  if (flag && lot)
    if (auto fault = refuse_outline_of(*lot, args.where(*flag))) faults.push_back(std::move(*fault));
  auto facts = facts_said(args);
  if (facts.empty() && !flag)
    faults.push_back({FaultCode::bad_command,
                      args.where("--place"),
                      "",
                      "what is to change: --place, --opened, --keeps-until, --note, or a skin's outline",
                      {}});
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  auto before = has_outline(*lot) ? db::find_shape(workshop, lot->id) : std::nullopt;
  return Said{{std::move(*lot), std::move(before)}, std::move(facts), std::move(*shape)};
}

Read<State> changed(db::Writing& writing, Said const& said, std::string const& mark) {
  State after = said.before;
  for (Fact const& fact : said.facts) {
    auto lot = db::set_fact(writing, mark, fact.name, fact.value);
    if (!lot) return tl::unexpected(lot.error());
    after.lot = std::move(*lot);
  }
  if (said.shape && said.shape != said.before.shape) {
    db::save_shape(writing, after.lot.id, *said.shape);
    after.shape = said.shape;
  }
  return after;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto const said = all_said(context, **workshop, args);
  if (!said) return tl::unexpected(said.error());
  auto const after = in_one_writing(
      context, **workshop, [&](db::Writing& writing) { return changed(writing, *said, args.word(0)); });
  if (!after) return tl::unexpected(after.error());
  LotChanged view{.changed = {.deed = Deed::changed,
                              .noun = "lot",
                              .code = lot_text(after->lot),
                              .changes = changes_of(said->before, *after),
                              .from = {},
                              .dry_run = context.dry_run,
                              .next = "endband stock list " + after->lot.code + " --lots"},
                  .apart = {}};
  if (said->shape) view.apart = area_apart(after->lot, outlined(said->shape));
  return Answer(std::move(view));
}

std::vector<Flag> flags() {
  std::vector<Flag> all{{"--place", FlagType::lot_place, "where it lies now; empty: nowhere in particular"},
                        {"--opened", FlagType::date, "the day on which it was opened"},
                        {"--keeps-until", FlagType::date, "the last day on which it may be used"},
                        {"--note", FlagType::words, "for the bench; empty: none"}};
  for (Flag const& flag : shape_flags()) all.push_back(flag);
  return all;
}

}  // namespace

Command stock_change() {
  return {
      .noun = "stock",
      .verb = "change",
      .summary = "Change where a lot lies, its days, its note, or a skin's outline",
      .about =
          "What is opened keeps for fewer days: stock supply says how many. A skin is cut by its outline, "
          "as it lies there now; until it is measured, by a guess of its area.",
      .words = {{"LOT", FlagType::lot, "a lot such as L12 or K3"}},
      .flags = flags(),
      .examples = {"stock change K1 --place \"skin rack\"",
                   "stock change K2 --stations \"0 620, 350 760, 900 520 mm\" --flaw \"120 400 15 mm\""},
      .refused_when = "",
      .writes = true,
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
