#include "engine/cutting/geometry/curves.h"
#include "engine/cutting/geometry/outline.h"
#include "engine/cutting/geometry/path_text.h"

#include <cmath>
#include <stdexcept>
#include <string_view>
#include <utility>

namespace endband::cutting {

namespace {

using drawing::Spot;

constexpr double tolerance_in_micrometres = 200;
constexpr std::size_t most_corners = 10'000;
constexpr double largest_coordinate = 1e9;  // um, so that sums of a few stay exact enough

struct Subpath {
  std::vector<Spot> corners;  // user units
  std::size_t begins_at;
  bool closed = false;
};

class Reader {
 public:
  Reader(std::string_view data, double micrometres_per_unit)
      : text_(data),
        unit_(micrometres_per_unit),
        tolerance_(tolerance_in_micrometres / micrometres_per_unit) {}
  std::optional<OutlineFault> read();
  std::vector<Subpath> const& subpaths() const { return subpaths_; }

 private:
  void fail(OutlineWrong wrong, std::size_t at) {
    if (!fault_) fault_ = OutlineFault{wrong, static_cast<int>(at)};
  }
  double number(bool first = false);  // 0 and a fault, where there is none
  bool flag();
  Spot spot(bool relative, bool first = false);
  std::vector<Spot>& corners();  // of the subpath being drawn

  void limit_corners() {
    if (!subpaths_.empty() && subpaths_.back().corners.size() > most_corners)
      fail(OutlineWrong::path_corners, text_.at());
  }
  bool take_command();
  void one_set(char command, bool relative);
  void move(bool relative);
  void curve(char command, bool relative);
  void smooth_curve(char command, bool relative);
  void arc(bool relative);
  void line_to(Spot to) {
    corners().push_back(to);
    here_ = to;
  }
  void close();

  drawing::PathText text_;
  double unit_, tolerance_;
  std::vector<Subpath> subpaths_;
  Spot here_, start_;
  Spot control_;           // the last control point, of ...
  char control_of_ = ' ';  // ... a cubic (C) or a quadratic (Q); else there is none
  std::size_t command_at_ = 0;
  std::optional<OutlineFault> fault_;
};

double Reader::number(bool first) {
  if (fault_) return 0;
  if (first)
    text_.skip_space();
  else
    text_.skip_space_and_comma();
  std::size_t const at = text_.at();
  if (!text_.at_number()) {
    fail(OutlineWrong::path_syntax, at);
    return 0;
  }
  std::optional<double> const value = text_.number();
  if (!value)
    fail(OutlineWrong::path_number, at);
  else if (std::fabs(*value) * unit_ > largest_coordinate)
    fail(OutlineWrong::too_large, at);
  return value.value_or(0);
}

bool Reader::flag() {
  if (fault_) return false;
  text_.skip_space_and_comma();
  std::optional<bool> const value = text_.flag();
  if (!value) fail(OutlineWrong::path_syntax, text_.at());
  return value.value_or(false);
}

Spot Reader::spot(bool relative, bool first) {
  double const x = number(first), y = number();
  return relative ? Spot{here_.x + x, here_.y + y} : Spot{x, y};
}

std::vector<Spot>& Reader::corners() {
  if (subpaths_.back().closed) subpaths_.push_back({{start_}, command_at_});  // drawn on after Z
  return subpaths_.back().corners;
}

void Reader::move(bool relative) {
  here_ = start_ = spot(relative, true);
  if (!subpaths_.empty() && subpaths_.back().corners.size() < 2) subpaths_.pop_back();  // moved on at once
  subpaths_.push_back({{here_}, command_at_});
}

void Reader::curve(char command, bool relative) {
  Spot const first = spot(relative, true);
  Spot const second = command == 'C' ? spot(relative) : first;
  Spot const to = spot(relative);
  if (fault_) return;
  if (command == 'C')
    drawing::add_cubic(here_, first, second, to, tolerance_, corners());
  else
    drawing::add_quadratic(here_, first, to, tolerance_, corners());
  control_ = second;
  control_of_ = command;
  here_ = to;
}

void Reader::smooth_curve(char command, bool relative) {
  char const kind = command == 'S' ? 'C' : 'Q';
  Spot const mirrored =
      control_of_ == kind ? Spot{2 * here_.x - control_.x, 2 * here_.y - control_.y} : here_;
  Spot const second = command == 'S' ? spot(relative, true) : mirrored;
  Spot const to = spot(relative, command == 'T');
  if (fault_) return;
  if (command == 'S')
    drawing::add_cubic(here_, mirrored, second, to, tolerance_, corners());
  else
    drawing::add_quadratic(here_, mirrored, to, tolerance_, corners());
  control_ = second;
  control_of_ = kind;
  here_ = to;
}

void Reader::arc(bool relative) {
  drawing::Arc arc;
  arc.x_radius = number(true);
  arc.y_radius = number();
  arc.turned = number();
  arc.large = flag();
  arc.sweep = flag();
  Spot const to = spot(relative);
  if (fault_) return;
  drawing::add_arc(here_, arc, to, tolerance_, corners());
  here_ = to;
}

void Reader::close() {
  subpaths_.back().closed = true;
  here_ = start_;
}

void Reader::one_set(char command, bool relative) {
  char const control_before = std::exchange(control_of_, ' ');
  switch (command) {
    case 'L': return line_to(spot(relative, true));
    case 'H': {
      double const x = number(true);
      return line_to({relative ? here_.x + x : x, here_.y});
    }
    case 'V': {
      double const y = number(true);
      return line_to({here_.x, relative ? here_.y + y : y});
    }
    case 'C':
    case 'Q': return curve(command, relative);
    case 'S':
    case 'T': control_of_ = control_before; return smooth_curve(command, relative);
    default: return arc(relative);
  }
}

// One command with all its sets of arguments; false: a fault.
bool Reader::take_command() {
  command_at_ = text_.at();
  char const letter = text_.command();
  bool const relative = letter >= 'a' && letter <= 'z';
  char const command = relative ? static_cast<char>(letter - 'a' + 'A') : letter;
  if (std::string_view("MLHVCSQTAZ").find(command) == std::string_view::npos) {
    fail(OutlineWrong::path_syntax, command_at_);
    return false;
  }
  if (subpaths_.empty() && command != 'M') {
    fail(OutlineWrong::path_start, command_at_);
    return false;
  }
  if (command == 'Z') {
    control_of_ = ' ';
    close();
    text_.skip_space();
    return true;
  }
  if (command == 'M') {
    control_of_ = ' ';
    move(relative);
  } else {
    one_set(command, relative);
  }
  while (!fault_ && text_.another_set()) {
    one_set(command == 'M' ? 'L' : command, relative);
    limit_corners();
  }
  return !fault_;
}

std::optional<OutlineFault> Reader::read() {
  text_.skip_space();
  if (text_.at_end()) fail(OutlineWrong::path_empty, text_.at());
  while (!fault_ && !text_.at_end()) {
    if (!take_command()) break;
    limit_corners();
  }
  if (!fault_ && subpaths_.size() > 1 && subpaths_.back().corners.size() < 2) subpaths_.pop_back();
  return fault_;
}

std::optional<std::int64_t> to_micrometres(double units, double unit) {
  double const value = units * unit;
  if (!(std::fabs(value) <= largest_coordinate)) return std::nullopt;
  return std::llround(value);
}

tl::expected<Polygon, OutlineFault> polygon_of(Subpath const& subpath, double unit, int flaw) {
  int const at = static_cast<int>(subpath.begins_at);
  Polygon polygon;
  for (Spot const& corner : subpath.corners) {
    std::optional<std::int64_t> const x = to_micrometres(corner.x, unit), y = to_micrometres(-corner.y, unit);
    if (!x || !y) return tl::unexpected(OutlineFault{OutlineWrong::too_large, at, 0, flaw});
    if (polygon.empty() || polygon.back() != Point{*x, *y}) polygon.push_back({*x, *y});
  }
  bool const returns = polygon.size() > 1 && polygon.front() == polygon.back();
  if (!returns && !subpath.closed) return tl::unexpected(OutlineFault{OutlineWrong::path_open, at, 0, flaw});
  if (returns) polygon.pop_back();
  if (polygon.size() < 3) return tl::unexpected(OutlineFault{OutlineWrong::few_corners, at, 0, flaw});
  if (polygon.size() > most_corners)
    return tl::unexpected(OutlineFault{OutlineWrong::path_corners, at, 0, flaw});
  return polygon;
}

}  // namespace

tl::expected<DrawnSkin, OutlineFault> svg_path(std::string_view data, Scale scale) {
  if (scale.num <= 0 || scale.den <= 0) throw std::logic_error("svg_path: a scale that is not positive");
  double const unit = static_cast<double>(scale.num) / static_cast<double>(scale.den);
  Reader reader(data, unit);
  if (std::optional<OutlineFault> const fault = reader.read()) return tl::unexpected(*fault);
  DrawnSkin skin;
  for (std::size_t i = 0; i < reader.subpaths().size(); ++i) {
    tl::expected<Polygon, OutlineFault> polygon =
        polygon_of(reader.subpaths()[i], unit, static_cast<int>(i) - 1);
    if (!polygon) return tl::unexpected(polygon.error());
    if (i == 0)
      skin.outline = std::move(*polygon);
    else
      skin.flaws.push_back(std::move(*polygon));
  }
  Box const box = box_of(skin.outline);
  Point const to_corner{-box.left, -box.bottom};
  skin.outline = moved(std::move(skin.outline), to_corner);
  for (Polygon& flaw : skin.flaws) flaw = moved(std::move(flaw), to_corner);
  return skin;
}

}  // namespace endband::cutting
