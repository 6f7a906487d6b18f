#include "cli/commands/spreadsheets.h"

#include "cli/commands/spreadsheet_columns.h"
#include "cli/document/document.h"
#include "cli/process/put_files.h"
#include "cli/process/taken.h"
#include "cli/words/values.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace endband::cli {
namespace {

Flag const separator_flag{"--separator", FlagType::words, "between cells: comma, semicolon or tab"};

Read<std::optional<Marks>> marks_said(Args const& args) {
  auto const said = args.text("--separator");
  if (!said) return std::nullopt;
  if (*said == "comma" || *said == ",") return Marks::comma;
  if (*said == "semicolon" || *said == ";") return Marks::semicolon;
  if (*said == "tab" || *said == "\t") return Marks::tab;
  return refuse({FaultCode::bad_value, args.where("--separator"), *said, "comma, semicolon or tab", {}});
}

struct Exported {
  Counted noun;
  std::optional<std::string> file;
  std::size_t rows = 0;
  std::string text;
  bool dry_run = false;
};

Json to_json(Exported const& view) {
  return Json::Object{{"dry_run", view.dry_run},
                      {"file", view.file},
                      {"rows", static_cast<std::int64_t>(view.rows)},
                      {"text", view.file ? Json() : Json(view.text)}};
}

Document to_document(Exported const& view) {
  if (!view.file) return Document().add(Verbatim{view.text});
  return Document().paragraph(fmt::format("{} {} {} in {}.", view.rows,
                                          view.rows == 1 ? view.noun.one : view.noun.many,
                                          view.dry_run     ? "would be"
                                          : view.rows == 1 ? "is"
                                                           : "are",
                                          *view.file));
}

// A reader of a person's file need not be ready for more.
constexpr std::size_t most_bytes = 16U << 20U;
constexpr std::size_t most_shown = 40;  // rows of an answer for people

}  // namespace

std::vector<SpreadsheetColumn> columns_of(std::vector<Flag> const& flags) {
  std::vector<SpreadsheetColumn> columns;
  for (Flag const& flag : flags) columns.push_back({flag});
  return columns;
}

std::vector<SpreadsheetColumn> sheet_columns(Command const& command) {
  bool const table = command.verb == "export" || command.verb == "import";
  if (table && command.noun == "material") return material_columns();
  if (table && command.noun == "customer") return customer_columns();
  if (table && command.noun == "stock") return stock_columns(true);
  if (table && command.noun == "job") return job_columns();
  return {};
}

std::vector<Flag> export_flags() {
  return {{"--output", FlagType::file, "the file to write; else, or with -, standard output", 'o'},
          separator_flag};
}

Read<Answer> exported(Context& context, Args const& args, Counted noun,
                      std::vector<SpreadsheetColumn> const& columns, std::vector<SheetFields> const& rows) {
  auto const marks = marks_said(args);
  if (!marks) return tl::unexpected(marks.error());
  Exported view{noun, args.text("--output"), rows.size(),
                write_sheet(columns, rows, marks->value_or(Marks::comma)), context.dry_run};
  if (view.file == "-") view.file.reset();
  if (!view.file) return Answer(std::move(view));
  if (auto fault = taken(*view.file, args.where("--output"), context.yes)) return refuse(std::move(*fault));
  if (!context.dry_run)
    if (auto const put = put_file(*view.file, view.text); !put) return tl::unexpected(put.error());
  return Answer(std::move(view));
}

std::vector<Flag> import_flags() {
  Flag flag = separator_flag;
  flag.help = "between cells: comma, semicolon or tab; else the one that the header has";
  return {flag};
}

Json to_json(Imported const& view) {
  auto const change = [](Change const& each) {
    return Json(Json::Object{{"field", each.field}, {"from", each.from}, {"to", each.to}});
  };
  auto const row = [&](ImportedRow const& each) {
    return Json(Json::Object{{"line", each.line},
                             {"code", each.code},
                             {"deed", each.fresh ? "added" : "changed"},
                             {"changes", json_array(each.changes, change)}});
  };
  return Json::Object{{"dry_run", view.dry_run},
                      {"noun", view.noun},
                      {"file", view.file},
                      {"rows", json_array(view.rows, row)},
                      {"unchanged", view.unchanged}};
}

Document to_document(Imported const& view) {
  Document document;
  auto const fresh = std::ranges::count_if(view.rows, &ImportedRow::fresh);
  std::int64_t const changed = static_cast<std::int64_t>(view.rows.size()) - fresh;
  document.paragraph(fmt::format("{}: {} new, {} {}changed, {} as {} {}.{}", view.file, fresh, changed,
                                 view.dry_run ? "would be " : "", view.unchanged,
                                 view.unchanged == 1 ? "it" : "they", view.unchanged == 1 ? "was" : "were",
                                 view.dry_run ? " Nothing is saved." : ""));
  Table table{{{"Line", Align::right, 1}, {"Code"}, {"What"}, {"Was"}, {"Is"}}, {}};
  for (ImportedRow const& row : view.rows) {
    if (table.rows.size() >= most_shown) break;
    if (row.fresh) {
      table.add({std::to_string(row.line), row.code, "new", "", ""});
      continue;
    }
    bool first = true;
    for (Change const& each : row.changes) {
      table.add({first ? std::to_string(row.line) : "", first ? row.code : "", each.field,
                 each.from.value_or("(none)"), each.to.value_or("(none)")});
      first = false;
    }
  }
  document.add(std::move(table));
  if (view.rows.size() > most_shown) document.paragraph("The first of them are shown; --json has all.");
  if (!view.dry_run && !view.rows.empty()) document.next(view.next);
  return document;
}

Read<Spreadsheet> sheet_said(Context& context, Args const& args, std::string_view command,
                             std::vector<SpreadsheetColumn> const& columns) {
  auto const marks = marks_said(args);
  if (!marks) return tl::unexpected(marks.error());
  std::string const& file = args.word(0);
  std::string const source = file == "-" ? std::string(standard_input) : file;
  auto const text = context.read_file(file);
  if (!text) return tl::unexpected(text.error());
  if (text->size() > most_bytes)
    return refuse({FaultCode::out_of_range, {source, 0, 0, "the file"}, "", "at most 16 MB", {}});
  Spreadsheet sheet = read_sheet(*text, source, command, columns, *marks);
  if (!sheet.faults.empty() && sheet.rows.empty()) return tl::unexpected(std::move(sheet.faults));
  return sheet;
}

void refuse_repeated(Spreadsheet& sheet, std::string_view flag,
                     std::function<bool(SpreadsheetRow const&)> const& counts) {
  std::map<std::string, int, std::less<>> lines;
  for (SpreadsheetRow& row : sheet.rows) {
    auto const code = row.said.text(flag);
    if (!code || (counts && !counts(row))) continue;
    auto const [first, fresh] = lines.emplace(*code, row.where("").line);
    if (fresh) continue;
    row.good = false;
    sheet.faults.push_back(
        {FaultCode::contradiction,
         row.where(flag),
         *code,
         fmt::format("one row of this {}; another stands on line {}", column_name(flag), first->second),
         {}});
  }
}

}  // namespace endband::cli
