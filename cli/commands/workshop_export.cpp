// The whole workshop as text: to keep, to compare, to read with other programs, to make it anew from.
#include "cli/commands/commands.h"
#include "cli/commands/workshop_text.h"
#include "cli/process/private_file.h"
#include "cli/process/taken.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

struct Exported {
  std::optional<std::string> file;  // none: shown
  std::string text;                 // what is shown
  std::int64_t rows = 0;
  bool dry_run = false;
};

Json to_json(Exported const& view) {
  return Json::Object{{"dry_run", view.dry_run},
                      {"file", view.file},
                      {"text", view.file ? Json() : Json(view.text)},
                      {"workshop_schema", db::schema_version},
                      {"rows", view.rows}};
}

Document to_document(Exported const& view) {
  Document document;
  if (!view.file) return document.add(Verbatim{view.text}), document;
  document.paragraph(fmt::format("The workshop, {} rows, {} in {}.{}", view.rows,
                                 view.dry_run ? "would be" : "is", *view.file,
                                 view.dry_run ? " Nothing is saved." : ""));
  if (view.dry_run) return document;
  document.notice(NoticeKind::note,
                  "Names, addresses and all you earn are in it: only you may read the file.");
  document.next(fmt::format("endband workshop new --from-text {} --workshop NEW.db", *view.file));
  return document;
}

Read<std::int64_t> write_file(db::Workshop& workshop, std::string const& path, bool dry_run) {
  if (dry_run) return write_workshop(workshop, [](std::string_view) { return true; });
  PrivateFile file(path);
  if (auto const begun = file.begin(); !begun) return tl::unexpected(begun.error());
  Read<bool> written = true;
  std::int64_t const rows = write_workshop(workshop, [&](std::string_view piece) {
    written = file.write(piece);
    return written.has_value();
  });
  if (written) written = file.put_in_place();
  if (!written) return tl::unexpected(written.error());
  return rows;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  Exported view{.file = args.text("--output"), .text = "", .rows = 0, .dry_run = context.dry_run};
  if (view.file == "-") view.file.reset();
  db::Reading const reading(**workshop);
  if (!view.file) {
    view.rows = write_workshop(**workshop, [&](std::string_view piece) {
      view.text += piece;
      return true;
    });
    return Answer(std::move(view));
  }
  if (auto fault = taken(*view.file, args.where("--output"), context.yes)) return refuse(std::move(*fault));
  auto const rows = write_file(**workshop, *view.file, context.dry_run);
  if (!rows) return tl::unexpected(rows.error());
  view.rows = *rows;
  return Answer(std::move(view));
}

}  // namespace

Command workshop_export() {
  return {
      .noun = "workshop",
      .verb = "export",
      .summary = "Write the whole workshop as text",
      .about =
          "JSON Lines: a first line that says what it is, one row of one table a line, and a last line "
          "with the "
          "count of rows. The same workshop gives the same text; endband workshop new --from-text makes the "
          "workshop "
          "anew from it. Without -o the text is shown. Names and addresses are in it: the file is for "
          "you alone.",
      .words = {},
      .flags = {{"--output", FlagType::file, "the file to write; - shows it", 'o'}},
      .examples = {"workshop export --output workshop.jsonl", "workshop export -o -"},
      .refused_when = "the file is there already, and --yes is not said",
      .writes = true,
      .writes_with = {"--output"},
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
