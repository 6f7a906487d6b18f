#include "cli/pdf/columns.h"

#include <algorithm>
#include <numeric>

namespace endband::cli::pdf {
namespace {

constexpr double gap = mm(4);
constexpr double least_box = mm(16);  // to write a number in
constexpr double smallest = 7.5;

struct Wants {
  std::vector<double> natural, least, behind;
};

double total(std::vector<double> const& widths) {
  double const gaps = gap * static_cast<double>(widths.empty() ? 0 : widths.size() - 1);
  return std::accumulate(widths.begin(), widths.end(), gaps);
}

bool is_words(Column const& column) { return column.align == Align::left && !column.box; }

Wants wants_of(Type& type, Table const& table, double size) {
  Wants wants;
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    Column const& column = table.columns[c];
    double natural = type.width_of(column.title, {size, Weight::bold, ink});
    double least = type.longest_word(column.title, {size, Weight::bold, ink});
    double before = 0, behind = 0;
    if (column.box) natural = std::max(natural, least_box), least = std::max(least, least_box);
    for (Row const& row : table.rows) {
      if (c >= row.cells.size()) continue;
      Style const style{size, row.total ? Weight::bold : Weight::plain, ink};
      if (column.align == Align::decimal) {
        auto const [front, back] = at_the_point(row.cells[c]);
        before = std::max(before, type.width_of(front, style));
        behind = std::max(behind, type.width_of(back, style));
      } else {
        double const whole = type.width_of(row.cells[c], style);
        natural = std::max(natural, whole);
        least = std::max(least, is_words(column) ? type.longest_word(row.cells[c], style) : whole);
      }
    }
    natural = std::max(natural, before + behind);
    least = is_words(column) ? std::min(least, mm(45)) : std::max(least, before + behind);
    wants.natural.push_back(natural);
    wants.least.push_back(std::min(least, natural));
    wants.behind.push_back(behind);
  }
  return wants;
}

// What is over goes to the columns of words, what lacks is taken from what they could spare.
std::vector<double> shared(Table const& table, Wants const& wants, double width) {
  double const over = width - total(wants.natural);
  std::vector<double> widths = wants.natural, shares(widths.size(), 0);
  for (std::size_t c = 0; c < widths.size(); ++c) {
    if (over < 0)
      shares[c] = wants.natural[c] - wants.least[c];
    else if (is_words(table.columns[c]))
      shares[c] = wants.natural[c];
  }
  double const all = std::accumulate(shares.begin(), shares.end(), 0.0);
  if (all <= 0) return widths;
  for (std::size_t c = 0; c < widths.size(); ++c) widths[c] += over * shares[c] / all;
  return widths;
}

}  // namespace

std::pair<std::string_view, std::string_view> at_the_point(std::string_view cell) {
  std::size_t const point = std::min(cell.find_last_of(".,"), cell.size());
  std::size_t const digits = cell.find_last_of("0123456789");
  if (point < cell.size()) return {cell.substr(0, point), cell.substr(point)};
  std::size_t const end = digits == std::string_view::npos ? cell.size() : digits + 1;
  return {cell.substr(0, end), cell.substr(end)};
}

Columns columns_of(Type& type, Table const& table, double width, double size) {
  Wants wants = wants_of(type, table, size);
  while (total(wants.least) > width && size > smallest) {
    size = std::max(smallest, size * 0.93);
    wants = wants_of(type, table, size);
  }
  // The words of so wide a table are broken anywhere.
  if (total(wants.least) > width)
    for (std::size_t c = 0; c < wants.least.size(); ++c)
      if (is_words(table.columns[c])) wants.least[c] = std::min(wants.least[c], mm(12));
  Columns columns{size, {}, shared(table, wants, width), std::move(wants.behind)};
  double left = 0;
  for (double const wide : columns.width) {
    columns.left.push_back(left);
    left += wide + gap;
  }
  return columns;
}

}  // namespace endband::cli::pdf
