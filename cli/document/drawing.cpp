#include "cli/document/drawing.h"

#include "cli/document/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace endband::cli {
namespace {

constexpr double letter = 2.8;       // size of a measure's numbers, mm of the paper
constexpr double line_apart = 3.2;   // least distance of two numbers that stand side by side
constexpr double head_length = 2.2;  // of an arrow
constexpr double head_half = 0.6;
constexpr double tick = 1.2;

double distance(Point a, Point b) { return std::hypot(b.x - a.x, b.y - a.y); }

// The places of labels that want to stand at `wanted` (in order) and need `apart` between each other: moved
// no more than they must, a crowd about its own middle.
std::vector<double> spread_out(std::vector<double> const& wanted, double apart) {
  struct Crowd {
    double middle;
    std::size_t count;
  };
  std::vector<Crowd> crowds;
  for (double const at : wanted) {
    crowds.push_back({at, 1});
    while (crowds.size() > 1) {
      Crowd const last = crowds.back();
      Crowd& before = crowds[crowds.size() - 2];
      double const together = static_cast<double>(before.count + last.count);
      if (last.middle - before.middle >= together / 2 * apart) break;
      before.middle = (before.middle * static_cast<double>(before.count) +
                       last.middle * static_cast<double>(last.count)) /
                      together;
      before.count += last.count;
      crowds.pop_back();
    }
  }
  std::vector<double> places;
  for (Crowd const& crowd : crowds)
    for (std::size_t i = 0; i < crowd.count; ++i)
      places.push_back(crowd.middle +
                       (static_cast<double>(i) - static_cast<double>(crowd.count - 1) / 2) * apart);
  return places;
}

// Without those that would read as the one before.
std::vector<double> told_apart(std::vector<double> stations) {
  auto const same = [](double a, double b) { return tenths(a) == tenths(b); };
  stations.erase(std::unique(stations.begin(), stations.end(), same), stations.end());
  return stations;
}

class TakenApart {
 public:
  explicit TakenApart(double scale) : scale_(scale) {}
  std::vector<Mark> take() { return std::move(marks_); }

  void operator()(Segment const& shape) { marks_.emplace_back(shape); }
  void operator()(Path const& shape) { marks_.emplace_back(shape); }
  void operator()(Rectangle const& shape) { marks_.emplace_back(shape); }
  void operator()(Circle const& shape) { marks_.emplace_back(shape); }
  void operator()(Text const& shape) { marks_.emplace_back(shape); }

  void operator()(DimensionLine const& shape) {
    bool const level = std::abs(shape.to.x - shape.from.x) >= std::abs(shape.to.y - shape.from.y);
    double const measure = distance(shape.from, shape.to);
    double const off = paper(shape.away);
    Point const from =
        level ? Point{shape.from.x, shape.from.y + off} : Point{shape.from.x + off, shape.from.y};
    Point const to = level ? Point{shape.to.x, from.y} : Point{from.x, shape.to.y};
    helping(shape.from, from);
    helping(shape.to, to);
    std::string const words = (shape.words.empty() ? "" : shape.words + " ") + tenths(measure);
    bool const inside = measure > paper(letters_width(words, letter) + 2 * head_length + 2);
    dimension_line(from, to, measure > paper(2 * head_length + 1));
    // Words that find no room between the arrows stand beside them, away from what is measured.
    bool const leftwards = !level && shape.away < 0;
    double const foot = paper(letter / 3);
    Point const middle{(from.x + to.x) / 2, (from.y + to.y) / 2};
    if (inside)
      text(level ? Point{middle.x, middle.y - paper(0.8)} : Point{middle.x - paper(0.8), middle.y}, words,
           Anchor::middle, !level);
    else if (level)
      text({std::max(from.x, to.x) + paper(head_length + 1.5), middle.y + foot}, words, Anchor::start, false);
    else
      text({middle.x + paper(leftwards ? -1.2 : 1.2), middle.y + foot}, words,
           leftwards ? Anchor::end : Anchor::start, false);
  }

  void operator()(Running const& shape) {
    std::vector<double> const stations = told_apart(shape.stations);
    std::vector<double> const places = spread_out(stations, paper(line_apart));
    for (std::size_t i = 0; i < stations.size(); ++i) {
      double const at = stations[i];
      double const near = paper(shape.away);
      marks_.emplace_back(Segment{along(shape, at, paper(0.5)), along(shape, at, near), Pen::thin});
      Point const end = along(shape, places[i], near + paper(tick + 1));
      marks_.emplace_back(Segment{along(shape, at, near), end, Pen::thin});
      Point const foot = along(shape, places[i], near + paper(tick + 1.6));
      // The letters' middle stands on the end of their line.
      if (shape.down)
        text({foot.x, foot.y + paper(letter / 3)}, tenths(at), Anchor::end, false);
      else
        text({foot.x + paper(letter / 3), foot.y}, tenths(at), Anchor::start, true);
    }
  }

  void operator()(GrainArrow const& shape) {
    double const half = shape.length / 2;
    Point const from = shape.down ? Point{shape.middle.x, shape.middle.y - half}
                                  : Point{shape.middle.x - half, shape.middle.y};
    Point const to = shape.down ? Point{shape.middle.x, shape.middle.y + half}
                                : Point{shape.middle.x + half, shape.middle.y};
    dimension_line(from, to, true);
  }

 private:
  double paper(double mm) const { return mm * scale_; }

  Point along(Running const& shape, double at, double off) const {
    return shape.down ? Point{shape.zero.x - off, shape.zero.y + at}
                      : Point{shape.zero.x + at, shape.zero.y - off};
  }

  void text(Point at, std::string words, Anchor anchor, bool upwards) {
    marks_.emplace_back(Text{at, std::move(words), letter, anchor, upwards});
  }

  // From what is measured to a little past the measure.
  void helping(Point from, Point to) {
    double const length = distance(from, to);
    if (length < paper(1)) return;
    Point const unit{(to.x - from.x) / length, (to.y - from.y) / length};
    double const gap = paper(0.8);
    marks_.emplace_back(Segment{{from.x + unit.x * gap, from.y + unit.y * gap},
                                {to.x + unit.x * gap, to.y + unit.y * gap},
                                Pen::thin});
  }

  // Arrow heads within, or, where there is no room, without.
  void dimension_line(Point from, Point to, bool within) {
    double const length = distance(from, to);
    if (!(length > 0)) return;
    Point const unit{(to.x - from.x) / length, (to.y - from.y) / length};
    double const turn = within ? 1 : -1;
    double const stub = within ? 0 : paper(head_length + 1);
    marks_.emplace_back(Segment{{from.x - unit.x * stub, from.y - unit.y * stub},
                                {to.x + unit.x * stub, to.y + unit.y * stub},
                                Pen::thin});
    arrow_head(from, {unit.x * turn, unit.y * turn});
    arrow_head(to, {-unit.x * turn, -unit.y * turn});
  }

  // `into`: from the tip towards the shaft.
  void arrow_head(Point tip, Point into) {
    double const l = paper(head_length);
    double const h = paper(head_half);
    Point const foot{tip.x + into.x * l, tip.y + into.y * l};
    marks_.emplace_back(Path{tip,
                             {{{foot.x - into.y * h, foot.y + into.x * h}, 0, true, false},
                              {{foot.x + into.y * h, foot.y - into.x * h}, 0, true, false}},
                             true,
                             Pen::none,
                             Fill::solid});
  }

  double scale_;
  std::vector<Mark> marks_;
};

class Extent {
 public:
  explicit Extent(double scale) : scale_(scale) {}

  void operator()(Segment const& line) { take(line.from), take(line.to); }
  void operator()(Path const& path) {
    take(path.start);
    Point at = path.start;
    for (Leg const& leg : path.legs) {
      if (leg.radius > 0) bulge(at, leg);
      take(leg.to);
      at = leg.to;
    }
  }
  void operator()(Rectangle const& shape) {
    take(shape.corner);
    take({shape.corner.x + shape.width, shape.corner.y + shape.height});
  }
  void operator()(Circle const& shape) {
    take({shape.centre.x - shape.radius, shape.centre.y - shape.radius});
    take({shape.centre.x + shape.radius, shape.centre.y + shape.radius});
  }
  void operator()(Text const& text) {
    double const length = letters_width(text.words, text.size) * scale_;
    double const before = text.anchor == Anchor::start ? 0 : text.anchor == Anchor::end ? length : length / 2;
    double const up = text.size * scale_;
    double const below = 0.3 * up;
    if (text.upwards) {
      take({text.at.x - up, text.at.y + before});
      take({text.at.x + below, text.at.y + before - length});
    } else {
      take({text.at.x - before, text.at.y - up});
      take({text.at.x - before + length, text.at.y + below});
    }
  }

  void set(Drawing& drawing, double margin) const {
    double const more = margin * scale_;
    drawing.corner = {low_.x - more, low_.y - more};
    drawing.width = high_.x - low_.x + 2 * more;
    drawing.height = high_.y - low_.y + 2 * more;
  }

 private:
  void take(Point point) {
    if (!any_) low_ = high_ = point;
    any_ = true;
    low_ = {std::min(low_.x, point.x), std::min(low_.y, point.y)};
    high_ = {std::max(high_.x, point.x), std::max(high_.y, point.y)};
  }
  // The top of the arc, over the middle of its chord.
  void bulge(Point from, Leg const& leg) {
    double const chord = distance(from, leg.to);
    if (!(chord > 0)) return;
    double const half = std::min(chord / 2, leg.radius);
    double const flat = std::sqrt(leg.radius * leg.radius - half * half);
    double const rise = leg.long_way ? leg.radius + flat : leg.radius - flat;
    double const side = leg.clockwise ? 1 : -1;
    take({(from.x + leg.to.x) / 2 + side * rise * (leg.to.y - from.y) / chord,
          (from.y + leg.to.y) / 2 - side * rise * (leg.to.x - from.x) / chord});
  }

  double scale_;
  bool any_ = false;
  Point low_, high_;
};

}  // namespace

Shape::Shape(Shape const&) = default;
Shape::Shape(Shape&&) noexcept = default;
Shape& Shape::operator=(Shape const&) = default;
Shape& Shape::operator=(Shape&&) noexcept = default;
Shape::~Shape() = default;

std::vector<Mark> marks_of(Drawing const& drawing) {
  TakenApart apart(drawing.scale);
  for (Shape const& shape : drawing.shapes) std::visit(apart, shape);
  return apart.take();
}

void frame(Drawing& drawing, double margin) {
  Extent extent(drawing.scale);
  for (Mark const& mark : marks_of(drawing)) std::visit(extent, mark);
  extent.set(drawing, margin);
}

// A serif letter is about half as wide as it is high.
double letters_width(std::string const& words, double size) {
  return static_cast<double>(display_width(words)) * 0.52 * size;
}

std::string tenths(double mm) {
  std::string text = fmt::format("{:.1f}", mm);
  if (text.ends_with(".0")) text.resize(text.size() - 2);
  return text == "-0" ? "0" : text;
}

}  // namespace endband::cli
