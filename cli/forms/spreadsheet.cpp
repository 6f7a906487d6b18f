#include "cli/forms/spreadsheet.h"

#include "cli/document/text.h"
#include "cli/forms/csv.h"
#include "engine/money/numeral.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>
#include <tuple>

namespace endband::cli {
namespace {

constexpr std::string_view dashes = "--";
constexpr std::size_t longest_shown = 80;  // bytes of a cell that a fault repeats

std::string_view plain(std::string_view flag) {
  return flag.starts_with(dashes) ? flag.substr(dashes.size()) : flag;
}

// "Sold by", "sold_by", "sold-by" are one column.
std::string header_key(std::string_view cell) {
  std::string key(trimmed(cell));
  for (char& c : key) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    if (c == ' ' || c == '_') c = '-';
  }
  return key;
}

// A point for a comma and a comma for a point, or the same back.
std::string other_marks(std::string_view text) {
  std::string other(text);
  for (char& c : other) c = c == '.' ? ',' : c == ',' ? '.' : c;
  return other;
}

bool has_marks(FlagType type) { return !is_words(type) && type != FlagType::date && type != FlagType::on; }

// What stands before the first sign that is no apostrophe may be an apostrophe of ours.
bool begins_formula(std::string_view text) {
  std::size_t const first = text.find_first_not_of('\'');
  return first != std::string_view::npos &&
         std::string_view("=+-@\t\r").find(text[first]) != std::string_view::npos;
}

std::string shortened(std::string text) {
  if (text.size() <= longest_shown) return text;
  std::size_t end = longest_shown;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
  return text.substr(0, end) + "...";
}

class SheetReader {
 public:
  SheetReader(std::string_view source, std::string_view command, std::span<SpreadsheetColumn const> columns,
              Marks marks)
      : source_(source), command_(command), columns_(columns), marks_(marks) {}

  Spreadsheet read(std::string_view text) {
    CsvText const csv = read_csv(text, static_cast<char>(marks_), source_);
    sheet_.faults = csv.faults;
    bool const header_read = !csv.rows.empty() && (csv.faults.empty() || before(csv.rows[0], csv.faults[0]));
    if (csv.rows.empty() && csv.faults.empty())
      add(FaultCode::missing_key, {source_, 1, 1, "a header"}, "", "a first row that names the columns");
    if (header_read) {
      std::size_t const faults_before = sheet_.faults.size();
      read_header(csv.rows.front());
      sheet_.header_good = sheet_.faults.size() == faults_before;
      for (CsvRow const& row : std::span(csv.rows).subspan(1)) read_row(row);
      if (sheet_.rows.empty() && sheet_.faults.empty())
        add(FaultCode::missing_key, {source_, csv.rows.front().front().line + 1, 1, "a row"}, "",
            "below the header there is none");
    }
    sheet_.faults = by_place(std::move(sheet_.faults));
    return std::move(sheet_);
  }

 private:
  static bool before(CsvRow const& row, Fault const& fault) { return row.front().line < fault.where.line; }

  void add(FaultCode code, Where where, std::string found, std::string expected,
           std::vector<std::string> near = {}) {
    sheet_.faults.push_back(
        {code, std::move(where), shortened(std::move(found)), std::move(expected), std::move(near)});
  }

  Where place(CsvCell const& cell, std::string_view field) const {
    return {source_, cell.line, cell.column, std::string(field)};
  }

  void read_header(CsvRow const& header) {
    for (CsvCell const& cell : header) in_file_.push_back(column_of(cell, header));
    for (SpreadsheetColumn const& column : columns_)
      if (column.needed && std::ranges::find(in_file_, &column) == in_file_.end())
        add(FaultCode::missing_key, place(header.front(), "the column " + column_name(column.flag.name)), "",
            std::string(column.flag.help));
  }

  SpreadsheetColumn const* column_of(CsvCell const& cell, CsvRow const& header) {
    std::string const key = header_key(cell.text);
    auto const found = std::ranges::find_if(
        columns_, [&](SpreadsheetColumn const& column) { return plain(column.flag.name) == key; });
    if (found == columns_.end()) {
      unknown_column(cell, key);
      return nullptr;
    }
    if (auto const first = std::ranges::find(in_file_, &*found); first != in_file_.end()) {
      CsvCell const& other = header[static_cast<std::size_t>(first - in_file_.begin())];
      add(FaultCode::contradiction, place(cell, key), cell.text,
          fmt::format("one column of this name; another begins at {}:{}", other.line, other.column));
      return nullptr;
    }
    return &*found;
  }

  void unknown_column(CsvCell const& cell, std::string const& key) {
    std::vector<std::string> names;
    for (SpreadsheetColumn const& column : columns_) names.push_back(column_name(column.flag.name));
    std::string const all = fmt::format("a column here, which are {}", fmt::join(names, ", "));
    if (key.empty()) {
      add(FaultCode::missing_key, place(cell, "the column's name"), "", all);
      return;
    }
    std::vector<std::string_view> const known(names.begin(), names.end());
    auto near = nearest(cell.text.substr(0, longest_shown), known);
    std::string const right = near.empty() ? all : "a column here";
    add(FaultCode::bad_value, place(cell, key), cell.text, right, std::move(near));
  }

  void read_row(CsvRow const& cells) {
    if (std::ranges::all_of(cells, [](CsvCell const& cell) { return trimmed(cell.text).empty(); })) return;
    SpreadsheetRow row;
    row.places.emplace("", place(cells.front(), ""));
    std::map<std::string, FlagValue, std::less<>> said;
    std::size_t const faults_before = sheet_.faults.size();
    for (std::size_t i = 0; i < cells.size(); ++i) {
      SpreadsheetColumn const* const column = in_file_[i];
      if (column == nullptr) continue;
      row.places.emplace(plain(column->flag.name), place(cells[i], column_name(column->flag.name)));
      read_cell(cells[i], *column, said, row);
    }
    require_cells(row, said, faults_before);
    row.good = sheet_.faults.size() == faults_before;
    row.said = Args(command_, {}, std::move(said));
    sheet_.rows.push_back(std::move(row));
  }

  void require_cells(SpreadsheetRow const& row, std::map<std::string, FlagValue, std::less<>> const& said,
                     std::size_t faults_before) {
    if (sheet_.faults.size() != faults_before) return;  // it may be there, and be wrong
    for (SpreadsheetColumn const& column : columns_)
      if (auto const place = row.places.find(plain(column.flag.name));
          column.needed && place != row.places.end() && !said.contains(column.flag.name))
        add(FaultCode::missing_key, place->second, "", std::string(column.flag.help));
  }

  void read_cell(CsvCell const& cell, SpreadsheetColumn const& column,
                 std::map<std::string, FlagValue, std::less<>>& said, SpreadsheetRow& row) {
    Where const where = place(cell, column_name(column.flag.name));
    if (!is_utf8(cell.text)) {
      add(FaultCode::bad_value, where, printable(cell.text), "text in UTF-8; save the file in that encoding");
      return;
    }
    FlagType const type = column.flag.type;
    std::string const text = is_words(type) ? as_meant(cell.text)
                             : marks_ == Marks::semicolon && has_marks(type)
                                 ? other_marks(trimmed(cell.text))
                                 : std::string(trimmed(cell.text));
    if (text.empty()) return;  // says nothing
    if (type == FlagType::on && text != "yes") {
      add(FaultCode::bad_value, where, cell.text, "yes, or nothing");
      return;
    }
    if (text != cell.text && has_marks(type)) row.as_in_file.emplace(text, cell.text);
    auto value = read_flag(type, text);
    if (value) {
      said.emplace(column.flag.name, std::move(*value));
      return;
    }
    for (Fault& fault : value.error()) fault.where.field = column.flag.name;
    for (Fault& fault : row.placed(std::move(value.error()))) sheet_.faults.push_back(std::move(fault));
  }

  std::string source_, command_;
  std::span<SpreadsheetColumn const> columns_;
  Marks marks_;
  std::vector<SpreadsheetColumn const*> in_file_;  // nullptr: unknown, and told
  Spreadsheet sheet_;
};

// "--rate, the EUR for one GBP": in a table it is a column.
std::string in_columns(std::string text) {
  for (std::size_t at = 0; (at = text.find(dashes, at)) != std::string::npos;) {
    bool const word = (at == 0 || text[at - 1] == ' ') && at + 2 < text.size() && text[at + 2] >= 'a' &&
                      text[at + 2] <= 'z';
    if (!word) {
      at += dashes.size();
      continue;
    }
    std::size_t const end = std::min(text.find_first_not_of("abcdefghijklmnopqrstuvwxyz-", at), text.size());
    std::string const name = column_name(text.substr(at, end - at));
    text.replace(at, end - at, name);
    at += name.size();
  }
  return text;
}

}  // namespace

std::string column_name(std::string_view flag) {
  std::string name(plain(flag));
  std::ranges::replace(name, '-', ' ');
  return name;
}

bool is_words(FlagType type) {
  return type == FlagType::words || type == FlagType::text || type == FlagType::code ||
         type == FlagType::country;
}

std::string defused(std::string_view words) {
  return begins_formula(words) ? "'" + std::string(words) : std::string(words);
}

std::string as_meant(std::string_view cell) {
  bool const ours = cell.starts_with('\'') && begins_formula(cell);
  return std::string(ours ? cell.substr(1) : cell);
}

std::string write_sheet(std::span<SpreadsheetColumn const> columns, std::span<SheetFields const> rows,
                        Marks marks) {
  std::vector<std::vector<std::string>> cells(1);
  std::vector<SpreadsheetColumn const*> written;
  for (SpreadsheetColumn const& column : columns) {
    if (!column.written) continue;
    written.push_back(&column);
    cells.front().push_back(column_name(column.flag.name));
  }
  for (SheetFields const& row : rows) {
    std::vector<std::string>& line = cells.emplace_back(written.size());
    for (auto const& [field, text] : row) {
      auto const column = std::ranges::find_if(
          written, [&name = field](SpreadsheetColumn const* each) { return plain(each->flag.name) == name; });
      if (column == written.end()) throw std::logic_error("a field without a column: " + field);
      FlagType const type = (*column)->flag.type;
      line[static_cast<std::size_t>(column - written.begin())] =
          is_words(type)                                 ? defused(text)
          : marks == Marks::semicolon && has_marks(type) ? other_marks(text)
                                                         : text;
    }
  }
  return write_csv(cells, static_cast<char>(marks));
}

Where SpreadsheetRow::where(std::string_view field) const {
  auto const found = places.find(plain(field));
  if (found != places.end()) return found->second;
  Where row = places.at("");
  row.field = column_name(field);
  return row;
}

std::vector<Fault> SpreadsheetRow::placed(std::vector<Fault> faults) const {
  for (Fault& fault : faults) {
    fault.where = where(fault.where.field);
    if (auto const cell = as_in_file.find(fault.found); cell != as_in_file.end()) {
      // Both readings of a number in the decimal mark of the file.
      if (fault.code == FaultCode::ambiguous_number) fault.expected = other_marks(fault.expected);
      fault.found = cell->second;
    }
    fault.found = shortened(std::move(fault.found));
    fault.expected = in_columns(std::move(fault.expected));
  }
  return faults;
}

Spreadsheet read_sheet(std::string_view text, std::string_view source, std::string_view command,
                       std::span<SpreadsheetColumn const> columns, std::optional<Marks> marks) {
  if (!marks) {
    auto const found = separator_of(text);
    if (!found)
      return {{},
              {{FaultCode::missing_key,
                {std::string(source), 1, 1, "one separator"},
                "",
                "the header has several; say which with --separator comma, semicolon or tab",
                {}}},
              false};
    marks = static_cast<Marks>(*found);
  }
  return SheetReader(source, command, columns, *marks).read(text);
}

std::vector<Fault> by_place(std::vector<Fault> faults) {
  std::ranges::stable_sort(
      faults, {}, [](Fault const& fault) { return std::tuple(fault.where.line, fault.where.column); });
  return faults;
}

}  // namespace endband::cli
