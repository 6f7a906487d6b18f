#include "cli/drawings/figure.h"

#include "cli/drawings/figure_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace endband::cli {
namespace {

constexpr std::size_t most_pairs = 40;
// Of equal values the hollow dot is seen round the full one.
constexpr double hollow_radius = 1.4, full_radius = 0.95;
constexpr double range_end = 1.75;  // up and down: seen beyond a dot that covers it
constexpr double bar_share = 0.5;   // of the height of a row
constexpr double key_width = 6, key_height = 2.8;

Circle hollow_dot(Point middle) { return {middle, hollow_radius, Pen::outline, Fill::white}; }
Circle full_dot(Point middle) { return {middle, full_radius, Pen::none, Fill::solid}; }

// The looks of a bar.
struct Ink {
  Fill fill;
  Pen pen = Pen::outline;
};
constexpr Ink there{Fill::solid}, taken{Fill::white, Pen::accent}, added{Fill::hatch};
constexpr Ink found{Fill::solid}, doubtful{Fill::white};

// From `from` to `to`, whichever is the left one. What is too narrow to have an inside is a line.
Shape bar(double from, double to, double middle, double height, Ink ink) {
  double const top = middle - height / 2;
  if (std::abs(to - from) < 0.4) return Segment{{to, top}, {to, top + height}, ink.pen};
  return Rectangle{{std::min(from, to), top}, std::abs(to - from), height, ink.pen, ink.fill};
}

Key bar_key(Ink ink, std::string words) {
  return {key_width, std::move(words), [ink](Point left) {
            return std::vector<Shape>{bar(left.x, left.x + key_width, left.y, key_height, ink)};
          }};
}

Key dot_key(bool full, std::string words) {
  return {2 * hollow_radius, std::move(words), [full](Point left) {
            Point const middle{left.x + hollow_radius, left.y};
            return std::vector<Shape>{full ? full_dot(middle) : hollow_dot(middle)};
          }};
}

template <class Row>
std::vector<SheetRow> sheet_rows(std::vector<Row> const& rows, std::size_t count) {
  std::vector<SheetRow> out;
  for (std::size_t i = 0; i < count; ++i) out.push_back({rows[i].name, rows[i].words});
  return out;
}

// "What it is: 1; name: words; name: words."
std::string in_words(std::string const& about, std::vector<SheetRow> const& rows) {
  std::string all = about;
  for (SheetRow const& row : rows)
    all += fmt::format("{}{}: {}", all.empty() ? "" : "; ", row.name, row.words);
  return rows.empty() ? all + (all.empty() ? "" : "; ") + "nothing to show." : all + ".";
}

}  // namespace

Drawing draw_pairs(PairFigure const& figure) {
  std::size_t const count = std::min(figure.rows.size(), most_pairs);
  Reach reach;
  reach.take({0});
  if (figure.aim) reach.take({*figure.aim});
  for (std::size_t i = 0; i < count; ++i) reach.take({figure.rows[i].first, figure.rows[i].second});
  std::vector<SheetRow> const rows = sheet_rows(figure.rows, count);
  Sheet sheet(figure.title, figure.name, rows, reach);
  sheet.line_at(0, Pen::outline, "");
  if (figure.aim) sheet.line_at(*figure.aim, Pen::hidden, figure.aim_words);
  for (std::size_t i = 0; i < count; ++i) {
    PairRow const& row = figure.rows[i];
    if (!can_be_drawn({row.first, row.second})) continue;
    Point const first{sheet.x(row.first), sheet.y(i)}, second{sheet.x(row.second), sheet.y(i)};
    if (first.x != second.x) sheet.add(Segment{first, second, Pen::accent});
    sheet.add(hollow_dot(first));
    sheet.add(full_dot(second));
  }
  std::string about = fmt::format("{} and {}, {}", figure.first, figure.second, figure.unit);
  if (figure.aim && !figure.aim_words.empty()) about += "; line: " + figure.aim_words;
  return std::move(sheet).finish({dot_key(false, figure.first), dot_key(true, figure.second)}, figure.unit,
                                 in_words(about, rows));
}

Drawing draw_stairs(StairFigure const& figure) {
  struct Step {
    double from, to;
    Ink ink;
  };
  std::vector<Step> steps;
  Reach reach;
  reach.take({0});
  double level = 0;
  for (StairRow const& row : figure.rows) {
    double const amount = can_be_drawn({row.amount}) ? row.amount : 0;
    double const from = row.sum ? 0 : level;
    level = from + amount;
    Ink const ink = row.sum ? there : amount < 0 ? taken : added;
    steps.push_back({from, level, ink});
    reach.take({level});  // where it begins is one of these, or the ground
  }
  std::vector<SheetRow> const rows = sheet_rows(figure.rows, figure.rows.size());
  Sheet sheet(figure.title, figure.name, rows, reach);
  double const height = sheet.row_height() * bar_share;
  sheet.line_at(0, Pen::outline, "");
  for (std::size_t i = 0; i < steps.size(); ++i) {
    double const to = sheet.x(steps[i].to);
    if (i + 1 < steps.size())
      sheet.add(Segment{{to, sheet.y(i) + height / 2}, {to, sheet.y(i + 1) - height / 2}, Pen::thin});
    sheet.add(bar(sheet.x(steps[i].from), to, sheet.y(i), height, steps[i].ink));
  }
  std::vector<Key> keys;
  auto const key = [&](Ink ink, std::string words) {
    auto const inked = [ink](Step const& step) { return step.ink.fill == ink.fill; };
    if (std::any_of(steps.begin(), steps.end(), inked)) keys.push_back(bar_key(ink, std::move(words)));
  };
  key(there, "what is there so far");
  key(taken, "taken off");
  key(added, "added");
  return std::move(sheet).finish(keys, figure.unit, in_words(figure.unit, rows));
}

namespace {

void draw_range(Sheet& sheet, RangeRow const& row, double y) {
  double const low = sheet.x(row.low), high = sheet.x(row.high);
  sheet.add(Segment{{low, y}, {high, y}, row.faint ? Pen::thin : Pen::accent});
  for (double const end : {low, high})
    sheet.add(Segment{{end, y - range_end}, {end, y + range_end}, Pen::outline});
  Point const middle{sheet.x(row.value), y};
  sheet.add(row.faint ? hollow_dot(middle) : full_dot(middle));
}

Key range_key(bool full, std::string words) {
  return {key_width, std::move(words), [full](Point left) {
            Point const right{left.x + key_width, left.y}, middle{left.x + key_width / 2, left.y};
            return std::vector<Shape>{Segment{left, right, full ? Pen::accent : Pen::thin},
                                      full ? full_dot(middle) : hollow_dot(middle)};
          }};
}

std::vector<Key> range_keys(RangeFigure const& figure) {
  bool const any_faint =
      std::any_of(figure.rows.begin(), figure.rows.end(), [](RangeRow const& row) { return row.faint; });
  std::string const faint = "too few to say anything";
  if (figure.bars)
    return any_faint ? std::vector{bar_key(found, "enough to go by"), bar_key(doubtful, faint)}
                     : std::vector<Key>{};
  std::vector<Key> keys{range_key(true, "found, and the range it lies in")};
  if (any_faint) keys.push_back(range_key(false, faint));
  return keys;
}

}  // namespace

Drawing draw_ranges(RangeFigure const& figure) {
  Reach reach;
  reach.take({figure.zero});
  for (RangeRow const& row : figure.rows) {
    reach.take({row.value});
    if (!figure.bars) reach.take({row.low, row.high});
  }
  std::vector<SheetRow> rows = sheet_rows(figure.rows, figure.rows.size());
  Sheet sheet(figure.title, figure.name, rows, reach);
  sheet.line_at(figure.zero, Pen::outline, figure.zero_words);
  for (std::size_t i = 0; i < figure.rows.size(); ++i) {
    RangeRow const& row = figure.rows[i];
    if (!can_be_drawn({row.value, row.low, row.high, figure.zero})) continue;
    if (figure.bars)
      sheet.add(bar(sheet.x(figure.zero), sheet.x(row.value), sheet.y(i), sheet.row_height() * bar_share,
                    row.faint ? doubtful : found));
    else
      draw_range(sheet, row, sheet.y(i));
  }
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (figure.rows[i].faint) rows[i].words += ", too few to say anything";
  std::string about = figure.unit;
  if (!figure.zero_words.empty()) about += "; line: " + figure.zero_words;
  return std::move(sheet).finish(range_keys(figure), figure.unit, in_words(about, rows));
}

}  // namespace endband::cli
