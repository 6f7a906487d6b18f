// A table that a spreadsheet keeps: comma-separated values under a header of known columns. One list of
// columns makes the writer, the reader, its faults and the help; a column is a flag of the command that keeps
// the same thing, and its cells are read as that flag's values are.
#pragma once

#include "cli/command/args.h"
#include "cli/command/flag.h"
#include "engine/fault/fault.h"

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace endband::cli {

struct SpreadsheetColumn {
  Flag flag;            // "--sold-by": the header says "sold by"; a switch is "yes" or empty
  bool needed = false;  // a file without it cannot be read
  bool written = true;  // stands in what is written too
};
std::string column_name(std::string_view flag);  // "sold by"

// Cells that spreadsheets take for formulas ("=", "+", "-", "@", a tab or a carriage return first) get an
// apostrophe before them when written, and lose it when read. Figures are left alone: -5 stays a number.
bool is_words(FlagType type);
std::string defused(std::string_view words);
std::string as_meant(std::string_view cell);

// --- writing
enum class Marks : char { comma = ',', semicolon = ';', tab = '\t' };
// Of one row, the texts of its fields by their names, as fields_of gives them: "sold-by". A column without
// one is empty; a field without a column is a mistake of ours. Beside semicolons the decimal mark is a comma.
using SheetFields = std::vector<std::pair<std::string, std::string>>;
std::string write_sheet(std::span<SpreadsheetColumn const> columns, std::span<SheetFields const> rows,
                        Marks marks);

// --- reading
class SpreadsheetRow {
 public:
  Args said;  // of all cells that are not empty: "--sold-by"

  bool good = true;                                            // every cell could be read
  std::map<std::string, Where, std::less<>> places;            // of each column that the file has: "sold-by"
  std::map<std::string, std::string, std::less<>> as_in_file;  // where a comma was read as a point, the cell
  Where where(std::string_view field) const;  // "--sold-by" or "sold-by"; else the row's beginning
  // Faults of what the row says, each at its cell, and in the words of a table.
  std::vector<Fault> placed(std::vector<Fault> faults) const;
};

struct Spreadsheet {
  std::vector<SpreadsheetRow> rows;
  std::vector<Fault> faults;
  bool header_good = false;  // the rows are of known columns, with none missing
};
// `command` names the command whose flags the columns are, for Args. Rows whose cells are all empty are
// passed over. `marks` absent: as the header has it. The faults are in the order of the file.
Spreadsheet read_sheet(std::string_view text, std::string_view source, std::string_view command,
                       std::span<SpreadsheetColumn const> columns, std::optional<Marks> marks);

std::vector<Fault> by_place(std::vector<Fault> faults);

}  // namespace endband::cli
