#include "cli/forms/csv.h"

#include "cli/document/text.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr char quote = '"';
constexpr std::size_t most_faults = 1000;  // a file with more is no table

std::string_view without_mark(std::string_view text) {
  if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
  return text;
}

class CsvReader {
 public:
  CsvReader(std::string_view text, char separator, std::string_view source)
      : text_(without_mark(text)), separator_(separator), source_(source) {}

  CsvText read() {
    while (at_ < text_.size() && result_.faults.size() < most_faults) {
      if (std::size_t const end = line_end(); end > 0)
        skip(end);
      else
        read_row();
    }
    return std::move(result_);
  }

 private:
  // Bytes of the line's end here: 0, 1 or 2.
  std::size_t line_end() const {
    if (text_.substr(at_, 1) == "\n") return 1;
    return text_.substr(at_, 2) == "\r\n" ? 2 : 0;
  }

  void skip(std::size_t bytes) {
    for (std::size_t const end = at_ + bytes; at_ < end;) {
      bool const ends_line = text_[at_] == '\n';
      next_code_point(text_, at_);
      line_ += ends_line ? 1 : 0;
      column_ = ends_line ? 1 : column_ + 1;
    }
  }
  void take(std::string& into) {
    std::size_t const from = at_;
    skip(1);
    into += text_.substr(from, at_ - from);
  }

  void add(int line, int column, std::string field, std::string why) {
    result_.faults.push_back(
        {FaultCode::bad_syntax, {source_, line, column, std::move(field)}, "", std::move(why), {}});
  }

  void read_row() {
    std::size_t const faults_before = result_.faults.size();
    CsvRow row;
    for (bool more = true; more;) {
      row.push_back(text_.substr(at_, 1) == "\"" ? quoted_cell() : bare_cell());
      more = at_ < text_.size() && text_[at_] == separator_;
      if (more) skip(1);
    }
    skip(line_end());
    if (width_ == 0) width_ = row.size();
    if (row.size() != width_ && result_.faults.size() == faults_before)
      add(row.front().line, row.front().column, "the row",
          fmt::format("it has {} cell{}, the first row {}", row.size(), row.size() == 1 ? "" : "s", width_));
    if (result_.faults.size() == faults_before) result_.rows.push_back(std::move(row));
  }

  bool ends_cell() const { return at_ == text_.size() || text_[at_] == separator_ || line_end() > 0; }

  CsvCell bare_cell() {
    CsvCell cell{"", line_, column_};
    bool told = false;  // one fault a cell
    while (!ends_cell()) {
      if (!told) told = refuse_in_bare(text_[at_]);
      take(cell.text);
    }
    return cell;
  }

  CsvCell quoted_cell() {
    CsvCell cell{"", line_, column_};
    bool told = false;
    skip(1);
    while (at_ < text_.size()) {
      if (text_.substr(at_, 2) == "\"\"") {
        skip(1);
      } else if (text_[at_] == quote) {
        skip(1);
        pass_over_rest();
        return cell;
      }
      if (!told) told = refuse_nul(text_[at_]);
      take(cell.text);
    }
    add(cell.line, cell.column, "the cell", "the quote (\") that opens it is never closed");
    return cell;
  }

  void pass_over_rest() {
    if (ends_cell()) return;
    add(line_, column_, "the cell", "nothing may stand between its closing quote (\") and the next cell");
    std::string rest;
    while (!ends_cell()) take(rest);
  }

  bool refuse_nul(char c) {
    if (c == '\0') add(line_, column_, "the cell", "a byte of zero (NUL) is no text");
    return c == '\0';
  }

  bool refuse_in_bare(char c) {
    if (c == quote)
      add(line_, column_, "the cell", "a quote (\") stands only around a whole cell, doubled within it");
    else if (c == '\r')
      add(line_, column_, "the cell", "a carriage return without a line feed stands only within quotes");
    else
      return refuse_nul(c);
    return true;
  }

  std::string_view text_;
  char separator_;
  std::string source_;
  std::size_t at_ = 0, width_ = 0;
  int line_ = 1, column_ = 1;
  CsvText result_;
};

// What a reader of the written text could take for something else.
bool needs_quotes(std::string_view cell, char separator, bool alone) {
  if (cell.empty()) return alone;  // an empty line is passed over
  return cell.find_first_of("\"\r\n") != std::string_view::npos ||
         cell.find(separator) != std::string_view::npos || cell.starts_with(byte_order_mark);
}

void write_cell(std::string& out, std::string_view cell, bool quoted) {
  if (!quoted) {
    out += cell;
    return;
  }
  out += quote;
  for (char const c : cell) {
    if (c == quote) out += quote;
    out += c;
  }
  out += quote;
}

}  // namespace

CsvText read_csv(std::string_view text, char separator, std::string_view source) {
  return CsvReader(text, separator, source).read();
}

std::optional<char> separator_of(std::string_view text) {
  std::optional<char> found;
  bool within = false;
  for (char const c : without_mark(text)) {
    if (c == quote) within = !within;
    if (within) continue;
    if (c == '\n') break;
    if (c != ';' && c != ',' && c != '\t') continue;
    if (found && *found != c) return std::nullopt;
    found = c;
  }
  return found ? found : ',';
}

std::string write_csv(std::span<std::vector<std::string> const> rows, char separator) {
  std::string out;
  for (std::vector<std::string> const& row : rows) {
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (i > 0) out += separator;
      write_cell(out, row[i], needs_quotes(row[i], separator, row.size() == 1));
    }
    out += "\r\n";
  }
  return out;
}

}  // namespace endband::cli
