#include "cli/drawings/figure_sheet.h"

#include "cli/document/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>

namespace endband::cli {
namespace {

// Millimetres of paper.
constexpr double sheet_width = 164, margin = 3;
constexpr double letters = 2.8, title_size = 4;
constexpr double foot = 0.95;      // from the middle of a line of letters to what they stand on
constexpr double gap = 4;          // between the names, the scale and the numbers
constexpr double mark_room = 2.4;  // a dot at an end of the scale lies within
constexpr double line_height = 4.6;
constexpr double least_name = 12, most_name = 54;
constexpr double least_number = 8, most_number = 60;
constexpr double most_line_words = 80;
constexpr std::size_t title_columns = 70, least_columns = 20;
constexpr std::size_t rows_with_room = 20;  // up to here rows stand wider
constexpr double most_steps = 6;
constexpr double beyond = 1e12;  // further out nothing is told apart
constexpr double hair = 1e-9;

bool among(char32_t letter, std::u32string_view all) { return all.find(letter) != std::u32string_view::npos; }

// In sizes of the letters. Of DejaVu Serif, the widest type that a picture may fall back to.
double letter_width(char32_t letter, std::size_t columns) {
  if (columns != 1) return 1.1 * static_cast<double>(columns) / 2;
  if (among(letter, U" .,:;'|!()[]iljtfI-/")) return 0.4;
  if (among(letter, U"MWm%@&")) return 1.03;
  if (among(letter, U"wHNUGOQD+<>=~\u2212\u2192\u2026")) return 0.88;
  if (letter >= U'A' && letter <= U'Z') return 0.77;
  return 0.64;
}

double room_for(std::string_view text, double size = letters) {
  double room = 0;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t const from = at;
    char32_t const letter = next_code_point(text, at);
    room += letter_width(letter, display_width(text.substr(from, at - from)));
  }
  return room * size;
}

bool digit(char letter) { return letter >= '0' && letter <= '9'; }

// With a minus and an arrow in place of what stands for them on a terminal.
std::string in_type(std::string const& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    char const before = i > 0 ? words[i - 1] : ' ', after = i + 1 < words.size() ? words[i + 1] : ' ';
    if (words[i] == '-' && after == '>')
      out += "\xE2\x86\x92", ++i;
    else if (words[i] == '-' && digit(after) && (before == ' ' || before == '('))
      out += "\xE2\x88\x92";
    else
      out += words[i];
  }
  return out;
}

double widest(std::vector<SheetRow> const& rows, std::string SheetRow::*column, double least) {
  double width = least;
  for (SheetRow const& row : rows) width = std::max(width, room_for(row.*column));
  return width;
}

std::vector<SheetRow> cut_rows(std::vector<SheetRow> rows) {
  for (SheetRow& row : rows) {
    row.name = cut_to(row.name, most_name);
    row.words = cut_to(in_type(row.words), most_number);
  }
  return rows;
}

// Lines as equal as can be, none wider than the sheet.
std::vector<std::string> title_lines(std::string const& given) {
  std::string const title = printable(given);
  std::size_t columns = title_columns;
  auto const too_wide = [](std::string const& line) { return room_for(line, title_size) > sheet_width; };
  auto lines = wrap(title, columns);
  while (columns > least_columns && std::any_of(lines.begin(), lines.end(), too_wide))
    lines = wrap(title, --columns);
  for (; columns > least_columns; --columns) {
    auto closer = wrap(title, columns - 1);
    if (closer.size() > lines.size()) break;
    lines = std::move(closer);
  }
  return lines;
}

Text written(Point at, std::string words, Anchor anchor, double size = letters) {
  return {at, std::move(words), size, anchor, false};
}

// Lighter than any pen: it leads the eye and says nothing.
Rectangle pale(Point from, double width, double height) {
  return {from, width, height, Pen::none, Fill::shade};
}

std::string tick_words(double value, int digits) { return in_type(fmt::format("{:.{}f}", value, digits)); }

}  // namespace

bool can_be_drawn(std::initializer_list<double> values) {
  return std::all_of(values.begin(), values.end(), [](double value) { return std::isfinite(value); });
}

void Reach::take(std::initializer_list<double> values) {
  for (double const value : values) {
    if (!std::isfinite(value)) continue;
    double const near = std::clamp(value, -beyond, beyond);
    low_ = any_ ? std::min(low_, near) : near;
    high_ = any_ ? std::max(high_, near) : near;
    any_ = true;
  }
}

// Steps of 1, 2 or 5 and zeros: the smallest of which a few fit, with room for their numbers.
Axis::Axis(Reach const& reach, double from, double width) : from_(from), width_(width), low_(reach.low()) {
  double const span = reach.high() - reach.low() > hair ? reach.high() - reach.low() : 1;
  high_ = low_ + span;
  int tens = static_cast<int>(std::floor(std::log10(span / most_steps)));
  for (int turn = 0;; ++turn) {
    constexpr double mantissas[] = {1, 2, 5};
    if (turn == 3) turn = 0, ++tens;
    step_ = mantissas[turn] * std::pow(10, tens);
    digits_ = std::max(0, -tens);
    double const steps = span / step_;
    double const words =
        std::max(room_for(tick_words(low_, digits_)), room_for(tick_words(high_, digits_))) + 2;
    if (steps <= 2 || (steps <= most_steps && width_ / steps >= words)) return;
  }
}

double Axis::at(double value) const {
  return from_ + std::clamp((value - low_) / (high_ - low_), 0.0, 1.0) * width_;
}

std::vector<Tick> Axis::ticks() const {
  std::vector<Tick> ticks;
  for (double k = std::ceil(low_ / step_ - hair); k <= high_ / step_ + hair; ++k) {
    double const value = k == 0 ? 0 : k * step_;
    ticks.push_back({at(value), tick_words(value, digits_)});
  }
  return ticks;
}

Sheet::Sheet(std::string title, std::string name, std::vector<SheetRow> rows, Reach const& reach)
    : title_(std::move(title)),
      name_(std::move(name)),
      rows_(cut_rows(std::move(rows))),
      row_height_(rows_.size() > rows_with_room ? 5.2 : 6.6),
      plot_from_(widest(rows_, &SheetRow::name, least_name) + gap),
      plot_to_(sheet_width - widest(rows_, &SheetRow::words, least_number) - gap),
      axis_(reach, plot_from_ + mark_room, plot_to_ - plot_from_ - 2 * mark_room) {
  draw_ground();
}

double Sheet::y(std::size_t row) const { return row_height_ * (static_cast<double>(row) + 0.5); }

double Sheet::bottom() const {
  return row_height_ * static_cast<double>(std::max<std::size_t>(1, rows_.size()));
}

void Sheet::add(std::vector<Shape> shapes) {
  for (Shape& shape : shapes) shapes_.push_back(std::move(shape));
}

void Sheet::line_at(double value, Pen pen, std::string const& words) {
  if (rows_.empty() || !can_be_drawn({value})) return;
  shapes_.push_back(Segment{{x(value), 0}, {x(value), bottom()}, pen});
  if (words.empty()) return;
  std::string const cut = cut_to(words, most_line_words);
  double const half = room_for(cut) / 2;
  double const middle = std::clamp(x(value), half, sheet_width - half);
  shapes_.push_back(written({middle, -1.4}, cut, Anchor::middle));
  line_words_ = true;
}

// What lies under the marks: round numbers downwards, and a line from each name to its number.
void Sheet::draw_ground() {
  if (rows_.empty()) {
    ground_.push_back(written({0, y(0) + foot}, "Nothing to show.", Anchor::start));
    return;
  }
  for (Tick const& tick : axis_.ticks()) ground_.push_back(pale({tick.at - 0.15, 0}, 0.3, bottom()));
  for (std::size_t i = 0; i < rows_.size(); ++i) {
    ground_.push_back(pale({plot_from_, y(i) - 0.1}, plot_to_ - plot_from_, 0.2));
    ground_.push_back(written({0, y(i) + foot}, rows_[i].name, Anchor::start));
    ground_.push_back(written({sheet_width, y(i) + foot}, rows_[i].words, Anchor::end));
  }
}

void Sheet::draw_ticks(std::string const& unit) {
  shapes_.push_back(Segment{{plot_from_, bottom()}, {plot_to_, bottom()}, Pen::thin});
  for (Tick const& tick : axis_.ticks()) {
    shapes_.push_back(Segment{{tick.at, bottom()}, {tick.at, bottom() + 1.2}, Pen::thin});
    shapes_.push_back(written({tick.at, bottom() + 4.2}, tick.words, Anchor::middle));
  }
  std::string const cut = cut_to(unit, most_line_words);
  double const half = room_for(cut) / 2;
  double const middle = std::clamp((plot_from_ + plot_to_) / 2, half, sheet_width - half);
  if (!cut.empty()) shapes_.push_back(written({middle, bottom() + 8.4}, cut, Anchor::middle));
}

// In as many lines as they need, the last of them `up` over the rows.
void Sheet::draw_keys(std::vector<Key> const& keys, double& up) {
  if (keys.empty()) return;
  struct Place {
    double x;
    int line;
  };
  std::vector<Place> places;
  double x = 0;
  int line = 0;
  for (Key const& key : keys) {
    double const width = key.width + 1.5 + room_for(cut_to(key.words, most_line_words));
    if (x > 0 && x + width > sheet_width) x = 0, ++line;
    places.push_back({x, line});
    x += width + 5;
  }
  for (std::size_t i = 0; i < keys.size(); ++i) {
    double const y = -up - line_height * (line - places[i].line);
    add(keys[i].sign({places[i].x, y}));
    shapes_.push_back(written({places[i].x + keys[i].width + 1.5, y + foot},
                              cut_to(keys[i].words, most_line_words), Anchor::start));
  }
  up += line_height * (line + 1);
}

Drawing Sheet::finish(std::vector<Key> const& keys, std::string const& unit, std::string words) && {
  double up = line_words_ ? 8 : 4;
  if (!rows_.empty()) {
    draw_ticks(unit);
    draw_keys(keys, up);
  }
  up += 1.5;
  auto const title = title_lines(title_);
  for (std::size_t i = title.size(); i-- > 0; up += title_size * 1.2)
    shapes_.push_back(written({0, -up}, title[i], Anchor::start, title_size));
  Drawing drawing{.title = std::move(title_), .words = std::move(words), .name = std::move(name_)};
  drawing.titled = true;
  drawing.shapes = std::move(ground_);
  for (Shape& shape : shapes_) drawing.shapes.push_back(std::move(shape));
  frame(drawing, margin);
  drawing.corner.x = -margin;
  drawing.width = sheet_width + 2 * margin;
  return drawing;
}

std::string cut_to(std::string const& given, double width) {
  std::string const text = printable(given);
  if (room_for(text) <= width) return text;
  constexpr std::string_view ellipsis = "\xE2\x80\xA6";
  std::size_t end = 0;
  for (std::size_t at = 0; at < text.size();) {
    next_code_point(text, at);
    if (room_for(std::string_view(text).substr(0, at)) + room_for(ellipsis) > width) break;
    end = at;
  }
  while (end > 0 && text[end - 1] == ' ') --end;
  return text.substr(0, end) + std::string(ellipsis);
}

}  // namespace endband::cli
