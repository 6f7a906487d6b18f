// Takes back a command, once it was shown what that reverses.
#include "cli/commands/commands.h"
#include "db/undo.h"

#include <fmt/format.h>

#include <algorithm>
#include <span>

namespace endband::cli {
namespace {

constexpr std::size_t most_rows = 60;  // of a whole notebook there are thousands

struct Undoing {
  db::EntryInfo taken;
  std::vector<db::Undone> rows;
  bool saved = false;
};

Json to_json(Undoing const& view) {
  auto const row_json = [](db::Undone const& row) {
    return Json(Json::Object{{"what", row.what}, {"now", row.now}, {"then", row.then}});
  };
  return Json::Object{{"saved", view.saved},
                      {"entry", view.taken.seq},
                      {"on", date_text(view.taken.on)},
                      {"command", view.taken.command},
                      {"changes", json_array(view.rows, row_json)}};
}

// The corners of a skin's outline tell a person nothing here.
std::string shown(db::Undone const& row, std::string const& value, std::string_view outline) {
  if (value.empty()) return "(nothing)";
  return row.what.ends_with(", shape") ? std::string(outline) : value;
}

Document to_document(Undoing const& view) {
  Document document;
  document.paragraph(fmt::format("{} entry {} of {}: {}", view.saved ? "Took back" : "Would take back",
                                 view.taken.seq, date_text(view.taken.on), view.taken.command));
  Table table{{{"What"}, {view.saved ? "Was" : "Now"}, {view.saved ? "Now" : "Then"}}, {}};
  std::size_t const told = std::min(view.rows.size(), most_rows);
  for (db::Undone const& row : std::span(view.rows).first(told))
    table.add({row.what, shown(row, row.now, "as measured"), shown(row, row.then, "as measured before")});
  document.add(std::move(table));
  if (told < view.rows.size())
    document.paragraph(
        fmt::format("And {} more rows of the kind; --json tells them all.", view.rows.size() - told));
  std::string const itself = fmt::format("endband workshop undo {} --yes", view.taken.seq);
  if (!view.saved) document.paragraph("Nothing is saved. To take it back: " + itself);
  if (view.saved) document.next("endband workshop log");
  return document;
}

Read<db::EntryInfo> asked_for(db::Workshop& workshop, Args const& args) {
  if (args.word_count() > 0)
    return located(db::standing_entry(workshop, args.word<std::int64_t>(0)), args.where("ENTRY"));
  if (auto last = db::last_standing(workshop)) return *std::move(last);
  return refuse({FaultCode::rule_refused,
                 args.where("ENTRY"),
                 "undo",
                 "nothing was written since the workshop was made",
                 {}});
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto taken = asked_for(**workshop, args);
  if (!taken) return tl::unexpected(taken.error());
  db::EntryInfo entry = context.entry();
  entry.undoes = taken->seq;
  // What is only shown is done and rolled back, so that it is what would be.
  db::Writing writing(**workshop, entry);
  auto rows = db::undo(writing, taken->seq);
  if (!rows) return tl::unexpected(rows.error());
  bool const saves = context.yes && !context.dry_run;
  if (saves) writing.commit();
  return Answer(Undoing{*std::move(taken), *std::move(rows), saves});
}

}  // namespace

Command workshop_undo() {
  return {.noun = "workshop",
          .verb = "undo",
          .summary = "Take back what a command wrote",
          .about =
              "Shows what it reverses; with --yes it does. Nothing is deleted: what was written is answered "
              "by its "
              "opposite, or by what stood before. Without a number it is the newest entry of `endband "
              "workshop log` "
              "that stands. What later commands built on is taken back after them.",
          .words = {{.name = "ENTRY",
                     .type = FlagType::entry,
                     .help = "its number in the log; else the newest that stands",
                     .needed = false}},
          .flags = {},
          .examples = {"workshop undo --dry-run", "workshop undo --yes"},
          .refused_when = "a later entry builds on it, or it wrote what cannot be taken back",
          .writes = true,
          .writes_with = {"--yes"},
          .lists = false,
          .run = run};
}

}  // namespace endband::cli
