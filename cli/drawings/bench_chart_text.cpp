// The same chart in letters: a column is a whole number of hours.
#include "cli/drawings/bench_chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>

namespace endband::cli {
namespace {

using schedule::Time;

constexpr Time hour_s = 3'600;

struct Columns {
  Time hours = 1;  // of a column
  std::size_t count = 0;
  std::size_t a_day() const { return static_cast<std::size_t>(24 / hours); }
  std::size_t of(Time time) const {
    return static_cast<std::size_t>(std::max<Time>(0, time) / (hours * hour_s));
  }
};

Columns columns_for(int days, std::size_t room) {
  constexpr std::array<Time, 8> steps{1, 2, 3, 4, 6, 8, 12, 24};
  for (Time const hours : steps) {
    auto const count = static_cast<std::size_t>(days * (24 / hours));
    if (count <= room) return {hours, count};
  }
  return {24, static_cast<std::size_t>(days)};
}

// Days where there is room for them, else Mondays.
std::string head_line(BenchChart const& chart, Columns const& columns) {
  constexpr std::array<std::string_view, 7> names{"Mo", "Tu", "We", "Th", "Fr", "Sa", "Su"};
  std::string line(columns.count, ' ');
  for (int day = 0; day < chart.days; ++day) {
    Date const date = chart.on + std::chrono::days(day);
    unsigned const weekday = std::chrono::weekday(date).iso_encoding() - 1;
    std::string const full = date_text(date);
    std::string words = "|";
    if (columns.a_day() >= 6)
      words += fmt::format("{} {}", names[weekday], full.substr(8));
    else if (columns.a_day() >= 4)
      words += fmt::format("{}{}", names[weekday].substr(0, 1), full.substr(8));
    else if (weekday == 0 || day == 0)
      words += full.substr(5);
    else
      continue;
    std::size_t const at = static_cast<std::size_t>(day) * columns.a_day();
    // A Monday soon after the first day would write over it.
    if (line[at] != ' ') continue;
    line.replace(at, std::min(words.size(), columns.count - at), words.substr(0, columns.count - at));
  }
  return line;
}

void mark(std::string& line, Columns const& columns, ChartBar const& bar, char letter) {
  if (bar.end <= 0 || bar.end <= bar.begin) return;
  std::size_t const first = columns.of(bar.begin), last = columns.of(bar.end - 1);
  for (std::size_t i = first; i <= last && i < line.size(); ++i) line[i] = letter;
}

// Hands are seen through what waits beside them; a due day that has nothing else on it is a bar.
std::string row_line(ChartRow const& row, BenchChart const& chart, Columns const& columns) {
  std::string line(columns.count, ' ');
  struct Way {
    BarKind kind;
    char letter;
  };
  for (Way const way : {Way{BarKind::others, '+'}, Way{BarKind::waits, '-'}, Way{BarKind::hands, '#'}})
    for (ChartBar const& bar : row.bars)
      if (bar.kind == way.kind) mark(line, columns, bar, way.letter);
  auto const set = [&](Time time, char letter) {
    std::size_t const at = columns.of(time);
    if (at < line.size()) line[at] = letter;
  };
  if (row.due && *row.due >= chart.on) set((*row.due - chart.on).count() * 86'400 + 86'399, '|');
  if (row.ready) set(std::max<Time>(0, *row.ready - 1), 'R');
  return line;
}

}  // namespace

std::string bench_chart_text(BenchChart const& chart, std::size_t width) {
  std::size_t label = 0;
  for (ChartRow const& row : chart.rows) label = std::max(label, row.name.size());
  label = std::min<std::size_t>(label + 2, 20);
  Columns const columns = columns_for(chart.days, width > label + 7 ? width - label : 7);
  std::string text = std::string(label, ' ') + head_line(chart, columns) + "\n";
  for (ChartRow const& row : chart.rows) {
    std::string line = fmt::format("{:<{}.{}}", row.name, label, label - 1) + row_line(row, chart, columns);
    line.erase(line.find_last_not_of(' ') + 1);
    text += line + "\n";
  }
  return text + fmt::format(
                    "# hands   - presses, dries   + on its way or with others   R ready   | due\n"
                    "A column is {} hour{}, day and night.\n",
                    columns.hours, columns.hours == 1 ? "" : "s");
}

}  // namespace endband::cli
