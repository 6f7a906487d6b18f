// Comma-separated values (RFC 4180): text to rows of cells with their places, and back. The separator may be
// another mark; nothing here knows what a cell means.
#pragma once

#include "engine/fault/fault.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace endband::cli {

struct CsvCell {
  std::string text;
  int line = 1, column = 1;  // where it begins, its quote if it has one; columns in code points
};
using CsvRow = std::vector<CsvCell>;

// Rows that can be read stand in `rows` even where others cannot; each fault has its place.
struct CsvText {
  std::vector<CsvRow> rows;
  std::vector<Fault> faults;  // bad_syntax, in the order of the text
};

// Strict: a quote stands only around a whole cell, doubled within it; every row has as many cells as the
// first; no NUL. CRLF or LF end a row, the last also the text. A byte order mark before the text, and lines
// on which nothing stands, are passed over. `source` names the text in faults.
CsvText read_csv(std::string_view text, char separator, std::string_view source);

// The one of ; , and tab that stands in the first row outside of quotes; nullopt: several of them do. Without
// any, the comma: the row is one cell.
std::optional<char> separator_of(std::string_view text);

// CRLF after every row; quotes where the text would else be read as something else.
std::string write_csv(std::span<std::vector<std::string> const> rows, char separator);

}  // namespace endband::cli
