#include "cli/document/table_layout.h"

#include "cli/document/text.h"

#include <algorithm>
#include <numeric>
#include <string_view>

namespace endband::cli {
namespace {

constexpr std::size_t gap = 2;
constexpr std::size_t least_wrapped = 12;

struct TableShape {
  std::vector<std::size_t> shown;   // indexes of columns, in order
  std::vector<std::size_t> widths;  // of all columns
};

std::size_t decimals_of(std::string_view cell) {
  std::size_t const point = cell.rfind('.');
  return point == std::string_view::npos ? 0 : display_width(cell.substr(point));
}

// Fills what is missing after the point, so that right alignment puts point under point.
void align_decimals(Table& table, std::size_t column) {
  std::size_t most = 0;
  for (Row const& row : table.rows) most = std::max(most, decimals_of(row.cells.at(column)));
  for (Row& row : table.rows) {
    std::string& cell = row.cells.at(column);
    if (!cell.empty()) cell.append(most - decimals_of(cell), ' ');
  }
}

std::size_t total_width(TableShape const& shape) {
  std::size_t total = 0;
  for (std::size_t column : shape.shown) total += shape.widths[column] + gap;
  return total == 0 ? 0 : total - gap;
}

TableShape natural_shape(Table const& table) {
  TableShape shape;
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    std::size_t widest = display_width(table.columns[c].title);
    for (Row const& row : table.rows) widest = std::max(widest, display_width(row.cells.at(c)));
    shape.widths.push_back(widest);
    shape.shown.push_back(c);
  }
  return shape;
}

void drop_columns(Table const& table, TableShape& shape, std::size_t width) {
  auto const priority = [&](std::size_t column) { return table.columns[column].priority; };
  while (total_width(shape) > width) {
    auto const worst = std::max_element(shape.shown.begin(), shape.shown.end(),
                                        [&](auto a, auto b) { return priority(a) < priority(b); });
    if (worst == shape.shown.end() || priority(*worst) == 0) return;
    shape.shown.erase(worst);
  }
}

// Column by column of the terminal, off the widest: what is left is shared as evenly as the words allow.
void narrow_words(Table const& table, TableShape& shape, std::size_t width) {
  while (total_width(shape) > width) {
    std::size_t* widest = nullptr;
    for (std::size_t column : shape.shown)
      if (table.columns[column].align == Align::left && (widest == nullptr || shape.widths[column] > *widest))
        widest = &shape.widths[column];
    if (widest == nullptr || *widest <= least_wrapped) return;
    --*widest;
  }
}

void trim_end(std::string& text) {
  while (!text.empty() && text.back() == ' ') text.pop_back();
}

void write_row(std::vector<std::string>& out, Table const& table, TableShape const& shape,
               std::vector<std::string> const& cells) {
  std::vector<std::vector<std::string>> wrapped;
  std::size_t height = 1;
  for (std::size_t column : shape.shown) {
    bool const words = table.columns[column].align == Align::left;
    wrapped.push_back(words ? wrap(cells.at(column), shape.widths[column])
                            : std::vector<std::string>{cells.at(column)});
    height = std::max(height, wrapped.back().size());
  }
  for (std::size_t i = 0; i < height; ++i) {
    std::string line;
    for (std::size_t k = 0; k < shape.shown.size(); ++k) {
      std::size_t const column = shape.shown[k];
      std::string const part = i < wrapped[k].size() ? wrapped[k][i] : "";
      if (k > 0) line.append(gap, ' ');
      line += table.columns[column].align == Align::left ? pad_right(part, shape.widths[column])
                                                         : pad_left(part, shape.widths[column]);
    }
    trim_end(line);
    out.push_back(std::move(line));
  }
}

// A short stroke over the figures of a total, as one draws it under a sum on paper.
void write_stroke(std::vector<std::string>& out, Table const& table, TableShape const& shape,
                  Row const& total) {
  std::string line;
  for (std::size_t column : shape.shown) {
    bool const figure = table.columns[column].align != Align::left && !total.cells.at(column).empty();
    if (!line.empty()) line.append(gap, ' ');
    line.append(shape.widths[column], figure ? '-' : ' ');
  }
  trim_end(line);
  if (!line.empty()) out.push_back(std::move(line));
}

}  // namespace

std::vector<std::string> lay_out(Table const& given, std::size_t width) {
  Table table = given;
  for (Row& row : table.rows)
    for (std::string& cell : row.cells) cell = printable(cell);
  for (std::size_t c = 0; c < table.columns.size(); ++c)
    if (table.columns[c].align == Align::decimal) align_decimals(table, c);
  TableShape shape = natural_shape(table);
  if (width > 0) {
    drop_columns(table, shape, width);
    narrow_words(table, shape, width);
  }
  std::vector<std::string> out;
  std::vector<std::string> titles;
  for (Column const& column : table.columns) titles.push_back(column.title);
  write_row(out, table, shape, titles);
  for (Row const& row : table.rows) {
    if (row.total) write_stroke(out, table, shape, row);
    write_row(out, table, shape, row.cells);
  }
  return out;
}

}  // namespace endband::cli
