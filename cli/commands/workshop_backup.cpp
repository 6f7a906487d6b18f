// A copy of the workshop to lay by, made while others may use it, and looked at before it is said to be good.
#include "cli/commands/commands.h"
#include "cli/process/unfinished.h"
#include "db/backup.h"
#include "db/files.h"

#include <fmt/format.h>

#include <filesystem>

namespace endband::cli {
namespace {

struct Backup {
  std::string file;
  std::int64_t last_entry = 0;  // of the log: up to where it goes
  std::size_t problems = 0;
  bool dry_run = false;
};

Json to_json(Backup const& view) {
  return Json::Object{{"dry_run", view.dry_run},
                      {"file", view.file},
                      {"last_entry", view.last_entry},
                      {"problems", static_cast<std::int64_t>(view.problems)}};
}

Document to_document(Backup const& view) {
  Document document;
  if (view.dry_run) {
    document.paragraph(fmt::format("The workshop would be copied to {}. Nothing is saved.", view.file));
    return document;
  }
  document.paragraph(
      fmt::format("The workshop up to entry {} of its log is in {}.", view.last_entry, view.file));
  if (view.problems == 0)
    document.paragraph("The copy was checked: it is sound.");
  else
    document.notice(NoticeKind::warning,
                    fmt::format("{} problem{} found in the copy, as there {} in the workshop.", view.problems,
                                view.problems == 1 ? " was" : "s were", view.problems == 1 ? "is" : "are"));
  document.notice(
      NoticeKind::note,
      "Names, addresses and all you earn are in it: only you may read the file. Keep it in another place.");
  document.next(view.problems == 0 ? fmt::format("endband --workshop {} workshop show", view.file)
                                   : "endband workshop check");
  return document;
}

std::int64_t last_entry(db::Workshop& workshop) {
  auto const newest = db::log_entries(workshop, 1);
  return newest.empty() ? 0 : newest.front().seq;
}

Read<Answer> run(Context& context, Args const& args) {
  if (args.word(0) == "-")
    return refuse({FaultCode::bad_value,
                   args.where("FILE"),
                   args.word(0),
                   "a file's name: a backup is not shown, but kept in a file",
                   {}});
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  Backup view{.file = args.word(0), .last_entry = 0, .problems = 0, .dry_run = context.dry_run};
  if (std::error_code error; std::filesystem::exists(view.file, error))
    return refuse({FaultCode::already_exists,
                   args.where("FILE"),
                   view.file,
                   "a name that is free: an older backup is never written over",
                   {}});
  if (auto left = db::left_beside(view.file)) return refuse(*std::move(left));
  if (view.dry_run) return Answer(std::move(view));
  {
    SignalsWait const wait;
    db::back_up(**workshop, view.file);
  }
  auto copy = db::Workshop::open(view.file);
  if (!copy) return tl::unexpected(copy.error());
  view.last_entry = last_entry(*copy);
  view.problems = db::check(*copy).size();
  int const exit = view.problems == 0 ? 0 : 1;
  return Answer(std::move(view)).ending_with(exit);
}

}  // namespace

Command workshop_backup() {
  return {.noun = "workshop",
          .verb = "backup",
          .summary = "Copy the workshop to another file",
          .about =
              "The whole workshop as it stands, in a new file that only you may read; others may go on "
              "working meanwhile. "
              "The copy is read whole and added up again. It is a workshop like any other: name it with "
              "--workshop. To put it in the place of one that is lost or damaged, first move that one away "
              "with the files beside it that are named as it is and end in -wal and -shm: they would be read "
              "as a part of the copy. Then copy it back: endband --workshop COPY workshop backup WORKSHOP.",
          .words = {{"FILE", FlagType::file, "the new file"}},
          .flags = {},
          .examples = {"workshop backup workshop-2026-11-25.db", "workshop backup copy.db --dry-run"},
          .refused_when =
              "the file is there already, or the -wal of one that is gone; or the copy has problems, as the "
              "workshop then has",
          .writes = true,
          .run = run};
}

}  // namespace endband::cli
