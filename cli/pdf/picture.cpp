#include "cli/pdf/picture.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <span>
#include <variant>

namespace endband::cli::pdf {
namespace {

constexpr Colour accent{0x00 / 255.0, 0x72 / 255.0, 0xB2 / 255.0};  // 5.2:1 on white
constexpr double pi = std::numbers::pi;

// From `from` along a circle of the leg's radius, as SVG 1.1 appendix F.6.5 finds its centre.
void arc(cairo_t* on, Point from, Leg const& leg) {
  double const half_x = (from.x - leg.to.x) / 2, half_y = (from.y - leg.to.y) / 2;
  double const half = half_x * half_x + half_y * half_y;
  if (half == 0) return;
  double const radius = std::max(leg.radius, std::sqrt(half));
  double const off =
      std::sqrt(std::max(0.0, (radius * radius - half) / half)) * (leg.long_way != leg.clockwise ? 1 : -1);
  Point const centre{(from.x + leg.to.x) / 2 + off * half_y, (from.y + leg.to.y) / 2 - off * half_x};
  double const begin = std::atan2(from.y - centre.y, from.x - centre.x);
  double const end = std::atan2(leg.to.y - centre.y, leg.to.x - centre.x);
  if (leg.clockwise)
    cairo_arc(on, centre.x, centre.y, radius, begin, end);
  else
    cairo_arc_negative(on, centre.x, centre.y, radius, begin, end);
}

class Draw {
 public:
  Draw(cairo_t* on, Type& type, double scale, Colour const& accented)
      : on_(on), type_(type), scale_(scale), accented_(accented) {}

  void operator()(Segment const& line) {
    cairo_move_to(on_, line.from.x, line.from.y);
    cairo_line_to(on_, line.to.x, line.to.y);
    finish(Fill::none, line.pen);
  }
  void operator()(Path const& path) {
    cairo_move_to(on_, path.start.x, path.start.y);
    Point at = path.start;
    for (Leg const& leg : path.legs) {
      if (leg.radius > 0)
        arc(on_, at, leg);
      else
        cairo_line_to(on_, leg.to.x, leg.to.y);
      at = leg.to;
    }
    if (path.closed) cairo_close_path(on_);
    finish(path.fill, path.pen);
  }
  void operator()(Rectangle const& shape) {
    cairo_rectangle(on_, shape.corner.x, shape.corner.y, shape.width, shape.height);
    finish(shape.fill, shape.pen);
  }
  void operator()(Circle const& shape) {
    cairo_new_sub_path(on_);
    cairo_arc(on_, shape.centre.x, shape.centre.y, shape.radius, 0, 2 * pi);
    cairo_close_path(on_);
    finish(shape.fill, shape.pen);
  }
  // Letters are of the paper's size, whatever the thing's.
  void operator()(Text const& text) {
    static constexpr std::array anchors{0.0, 0.5, 1.0};
    cairo_save(on_);
    cairo_translate(on_, text.at.x, text.at.y);
    if (text.upwards) cairo_rotate(on_, -pi / 2);
    double const of_thing = scale_ / mm(1);
    cairo_scale(on_, of_thing, of_thing);
    type_.draw_on_foot(on_, text.words, {mm(text.size), Weight::plain, {}}, 0, 0,
                       anchors.at(static_cast<std::size_t>(text.anchor)));
    cairo_restore(on_);
  }

 private:
  // What has been traced: filled, then stroked.
  void finish(Fill fill, Pen pen) {
    switch (fill) {
      case Fill::none: break;
      case Fill::white: flood(1); break;
      case Fill::shade: flood(0xE8 / 255.0); break;
      case Fill::solid: flood(0); break;
      case Fill::hatch: hatch(); break;
    }
    stroke(pen);
    cairo_new_path(on_);
  }

  void flood(double light) {
    cairo_set_source_rgb(on_, light, light, light);
    cairo_fill_preserve(on_);
  }

  // Strokes at 45 degrees, 1.6 mm apart on paper, and in line with those of the next shape.
  void hatch() {
    double left = 0, top = 0, right = 0, foot = 0;
    cairo_path_extents(on_, &left, &top, &right, &foot);
    cairo_path_t* const traced = cairo_copy_path(on_);
    cairo_save(on_);
    cairo_clip(on_);
    double const step = 1.6 * std::numbers::sqrt2 * scale_;
    for (double sum = std::floor((left + top) / step) * step; sum <= right + foot; sum += step) {
      cairo_move_to(on_, sum - top, top);
      cairo_line_to(on_, sum - foot, foot);
    }
    pen(0.2, {}, {});
    cairo_stroke(on_);
    cairo_restore(on_);
    cairo_new_path(on_);
    cairo_append_path(on_, traced);
    cairo_path_destroy(traced);
  }

  void stroke(Pen kind) {
    static constexpr std::array<double, 2> under{2, 1};
    static constexpr std::array<double, 4> folded{4, 1, 0.6, 1};
    switch (kind) {
      case Pen::none: return;
      case Pen::outline: pen(0.35, {}, {}); break;
      case Pen::thin: pen(0.15, {}, {}); break;
      case Pen::hidden: pen(0.25, under, {}); break;
      case Pen::fold: pen(0.25, folded, {}); break;
      case Pen::accent: pen(0.7, {}, accented_); break;
    }
    cairo_stroke_preserve(on_);
  }

  // Lengths in millimetres of the paper.
  void pen(double width, std::span<double const> dashes, Colour colour) {
    std::array<double, 4> scaled{};
    std::ranges::transform(dashes, scaled.begin(), [&](double dash) { return dash * scale_; });
    cairo_set_line_width(on_, width * scale_);
    cairo_set_dash(on_, scaled.data(), static_cast<int>(dashes.size()), 0);
    cairo_set_source_rgb(on_, colour.red, colour.green, colour.blue);
  }

  cairo_t* on_;
  Type& type_;
  double scale_;
  Colour accented_;
};

}  // namespace

double shrunk_to(Drawing const& drawing, Size room) {
  Size const natural = size_of(drawing, 1);
  return std::min({1.0, room.width / natural.width, room.height / natural.height});
}

Size size_of(Drawing const& drawing, double shrunk) {
  return {mm(drawing.width / drawing.scale) * shrunk, mm(drawing.height / drawing.scale) * shrunk};
}

void draw(cairo_t* on, Type& type, Drawing const& drawing, Point corner, double shrunk, bool black) {
  cairo_save(on);
  cairo_translate(on, corner.x, corner.y);
  double const of_thing = mm(1) / drawing.scale * shrunk;
  cairo_scale(on, of_thing, of_thing);
  cairo_translate(on, -drawing.corner.x, -drawing.corner.y);
  Draw writer(on, type, drawing.scale, black ? Colour{} : accent);
  for (Mark const& mark : marks_of(drawing)) std::visit(writer, mark);
  cairo_restore(on);
}

}  // namespace endband::cli::pdf
