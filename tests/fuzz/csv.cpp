// Any bytes as a table: read or refused with places, and what was read is written and read again as the same.
#include "cli/forms/csv.h"

#include "tests/fuzz/target.h"

#include <string_view>
#include <vector>

using namespace endband;
using namespace endband::cli;
using endband::fuzz::require;

namespace {

std::vector<std::vector<std::string>> texts_of(std::vector<CsvRow> const& rows) {
  std::vector<std::vector<std::string>> texts;
  for (CsvRow const& row : rows) {
    auto& line = texts.emplace_back();
    for (CsvCell const& cell : row) line.push_back(cell.text);
  }
  return texts;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size) {
  std::string_view const text(reinterpret_cast<char const*>(data), size);
  char const separator = separator_of(text).value_or(';');
  CsvText const read = read_csv(text, separator, "any.csv");
  int line = 1;
  for (Fault const& fault : read.faults) {
    require(fault.where.line >= 1 && fault.where.column >= 1 && !fault.expected.empty(),
            "a fault has a place");
    require(fault.where.line >= line || !read.rows.empty(), "faults by line");
  }
  for (CsvRow const& row : read.rows) {
    require(row.size() == read.rows.front().size() && row.front().line >= line, "rows are of one width");
    line = row.front().line;
  }
  auto const texts = texts_of(read.rows);
  CsvText const again = read_csv(write_csv(texts, separator), separator, "again.csv");
  require(again.faults.empty() && texts_of(again.rows) == texts, "what is written is read as the same");
  return 0;
}
