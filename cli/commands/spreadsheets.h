// What all commands share that write a table for a spreadsheet, or read one.
#pragma once

#include "cli/command/args.h"
#include "cli/command/command.h"
#include "cli/command/context.h"
#include "cli/commands/changed.h"
#include "cli/forms/spreadsheet.h"

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace endband::cli {

// Columns of the flags, in their order.
std::vector<SpreadsheetColumn> columns_of(std::vector<Flag> const& flags);

// --- out
std::vector<Flag> export_flags();
inline constexpr std::string_view export_about =
    "A file of comma-separated values (RFC 4180) in UTF-8, its first row the columns' names. With "
    "--separator "
    "semicolon the decimal mark is a comma too. Words that a spreadsheet would take for a formula begin with "
    "an apostrophe, and lose it when they are imported.";
struct Counted {
  std::string_view one, many;  // "material", "materials"
};
// Rows of what is counted so, to --output or to standard output.
Read<Answer> exported(Context& context, Args const& args, Counted noun,
                      std::vector<SpreadsheetColumn> const& columns, std::vector<SheetFields> const& rows);

// --- in
std::vector<Flag> import_flags();
inline constexpr Word import_word{"FILE", FlagType::file, "a table with a header, or - for standard input"};
inline constexpr std::string_view import_about =
    "A file of comma-separated values with a header; the columns may stand in any order. Semicolons and tabs "
    "part cells too, as the header has it; beside semicolons 12,50 and 1.234,56 are usual. A column that is "
    "not there and a cell that is empty say nothing: what is kept stays. All rows are kept, or none.";

struct ImportedRow {
  int line = 0;
  std::string code;
  bool fresh = false;
  std::vector<Change> changes;
};
struct Imported {
  std::string noun;  // "material"
  std::string file;
  std::vector<ImportedRow> rows{};  // those that say something new
  std::int64_t unchanged = 0;
  bool dry_run = false;
  std::string next;
};
Json to_json(Imported const& view);
Document to_document(Imported const& view);

// The file that is named, read as a table of `columns`. Faults that leave nothing to look at.
Read<Spreadsheet> sheet_said(Context& context, Args const& args, std::string_view command,
                             std::vector<SpreadsheetColumn> const& columns);
// Further rows of what an earlier one says are faults of the sheet, and not good; of those rows that count.
void refuse_repeated(Spreadsheet& sheet, std::string_view flag,
                     std::function<bool(SpreadsheetRow const&)> const& counts = nullptr);

// Runs `keep` over every row that can be read, in one transaction: it answers with what the row changes, or
// with no changes. All faults of the file at once, in its order; where there are any, or nothing changes,
// nothing is written.
template <class Keep>  // Read<ImportedRow>(db::Writing&, SpreadsheetRow const&)
Read<Imported> import_rows(Context& context, db::Workshop& workshop, Spreadsheet const& sheet, Imported view,
                           Keep&& keep) {
  std::vector<Fault> faults = sheet.faults;
  db::Writing writing(workshop, context.entry());
  for (SpreadsheetRow const& row : sheet.rows) {
    if (!row.good || !sheet.header_good) continue;
    Read<ImportedRow> kept = keep(writing, row);
    if (!kept) {
      for (Fault& fault : row.placed(std::move(kept.error()))) faults.push_back(std::move(fault));
    } else if (kept->changes.empty()) {
      ++view.unchanged;
    } else {
      view.rows.push_back(std::move(*kept));
      view.rows.back().line = row.where("").line;
    }
  }
  if (!faults.empty()) return tl::unexpected(by_place(std::move(faults)));
  view.dry_run = context.dry_run;
  if (!view.rows.empty() && !context.dry_run) writing.commit();
  return view;
}

}  // namespace endband::cli
