#include "cli/document/svg.h"

#include "cli/document/markup.h"

#include <fmt/format.h>

#include <string_view>
#include <variant>

namespace endband::cli {
namespace {

constexpr std::string_view accent = "#0072B2";  // 5.2:1 on white
constexpr std::string_view shade = "#E8E8E8";
constexpr std::string_view letters =
    "'EB Garamond', Garamond, Georgia, 'Liberation Serif', 'DejaVu Serif', serif";

// To a thousandth, without zeros that say nothing.
std::string number(double value) {
  std::string text = fmt::format("{:.3f}", value);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text == "-0" ? "0" : text;
}

class Writer {
 public:
  Writer(Drawing const& drawing, bool black)
      : scale_(drawing.scale),
        accent_(black ? "black" : accent),
        hatch_("hatch-" + (drawing.name.empty() ? "drawing" : drawing.name)) {}
  std::string take() { return std::move(out_); }
  std::string const& hatch() const { return hatch_; }

  void operator()(Segment const& line) {
    out_ += fmt::format("<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"{}/>\n", number(line.from.x),
                        number(line.from.y), number(line.to.x), number(line.to.y), stroke(line.pen));
  }

  void operator()(Path const& path) {
    std::string d = fmt::format("M{} {}", number(path.start.x), number(path.start.y));
    for (Leg const& leg : path.legs) {
      if (leg.radius > 0)
        d += fmt::format("A{0} {0} 0 {1} {2} ", number(leg.radius), leg.long_way ? 1 : 0,
                         leg.clockwise ? 1 : 0);
      else
        d += 'L';
      d += fmt::format("{} {}", number(leg.to.x), number(leg.to.y));
    }
    out_ += fmt::format("<path d=\"{}{}\"{}{}/>\n", d, path.closed ? "Z" : "", filled(path.fill),
                        stroke(path.pen));
  }

  void operator()(Rectangle const& shape) {
    out_ += fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"{}{}/>\n", number(shape.corner.x),
                        number(shape.corner.y), number(shape.width), number(shape.height), filled(shape.fill),
                        stroke(shape.pen));
  }

  void operator()(Circle const& shape) {
    out_ += fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\"{}{}/>\n", number(shape.centre.x),
                        number(shape.centre.y), number(shape.radius), filled(shape.fill), stroke(shape.pen));
  }

  void operator()(Text const& text) {
    static constexpr std::string_view anchors[] = {"start", "middle", "end"};
    std::string const at = fmt::format("{} {}", number(text.at.x), number(text.at.y));
    out_ += fmt::format(
        "<text x=\"{}\" y=\"{}\" font-size=\"{}\" text-anchor=\"{}\"{}>{}</text>\n", number(text.at.x),
        number(text.at.y), number(text.size * scale_), anchors[static_cast<std::size_t>(text.anchor)],
        text.upwards ? fmt::format(" transform=\"rotate(-90 {})\"", at) : "", escaped(text.words));
  }

 private:
  std::string paper(double mm) const { return number(mm * scale_); }

  std::string drawn(std::string_view colour, double width, std::string_view dashes = {}) const {
    return fmt::format(" stroke=\"{}\" stroke-width=\"{}\"{}", colour, paper(width), dashes);
  }

  std::string dashes(double on, double off) const {
    return fmt::format(" stroke-dasharray=\"{} {}\"", paper(on), paper(off));
  }

  std::string stroke(Pen pen) const {
    switch (pen) {
      case Pen::none: return "";
      case Pen::outline: return drawn("black", 0.35);
      case Pen::thin: return drawn("black", 0.15);
      case Pen::hidden: return drawn("black", 0.25, dashes(2, 1));
      case Pen::fold:
        return drawn(
            "black", 0.25,
            fmt::format(" stroke-dasharray=\"{} {} {} {}\"", paper(4), paper(1), paper(0.6), paper(1)));
      case Pen::accent: return drawn(accent_, 0.7);
    }
    return "";
  }

  std::string filled(Fill fill) const {
    switch (fill) {
      case Fill::none: return " fill=\"none\"";
      case Fill::white: return " fill=\"white\"";
      case Fill::shade: return fmt::format(" fill=\"{}\"", shade);
      case Fill::hatch: return fmt::format(" fill=\"url(#{})\"", hatch_);
      case Fill::solid: return " fill=\"black\"";
    }
    return "";
  }

  double scale_;
  std::string_view accent_;
  std::string hatch_;  // the pattern's name: its own in each picture, for a page may hold several
  std::string out_;
};

bool hatched(Mark const& mark) {
  auto const fill_of = [](auto const& shape) {
    if constexpr (requires { shape.fill; }) return shape.fill == Fill::hatch;
    return false;
  };
  return std::visit(fill_of, mark);
}

// Strokes at 45 degrees, 1.6 mm apart on paper.
std::string hatch_pattern(std::string const& name, double scale) {
  return fmt::format(
      "<defs><pattern id=\"{}\" width=\"{}\" height=\"{}\" patternUnits=\"userSpaceOnUse\" "
      "patternTransform=\"rotate(45)\"><line x1=\"0\" y1=\"0\" x2=\"0\" y2=\"{}\" stroke=\"black\" "
      "stroke-width=\"{}\"/></pattern></defs>\n",
      name, number(1.6 * scale), number(1.6 * scale), number(1.6 * scale), number(0.2 * scale));
}

}  // namespace

std::string to_svg(Drawing const& drawing, bool black) {
  auto const marks = marks_of(drawing);
  Writer writer(drawing, black);
  bool any_hatched = false;
  for (Mark const& mark : marks) {
    any_hatched = any_hatched || hatched(mark);
    std::visit(writer, mark);
  }
  std::string out = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{}mm\" height=\"{}mm\" viewBox=\"{} {} {} {}\" "
      "role=\"img\" font-family=\"{}\" style=\"font-variant-numeric: lining-nums tabular-nums\">\n",
      number(drawing.width / drawing.scale), number(drawing.height / drawing.scale), number(drawing.corner.x),
      number(drawing.corner.y), number(drawing.width), number(drawing.height), letters);
  out += fmt::format("<title>{}</title>\n<desc>{}</desc>\n", escaped(drawing.title), escaped(drawing.words));
  if (any_hatched) out += hatch_pattern(writer.hatch(), drawing.scale);
  // Paper is white wherever the picture is shown.
  out += fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"white\"/>\n",
                     number(drawing.corner.x), number(drawing.corner.y), number(drawing.width),
                     number(drawing.height));
  return out + writer.take() + "</svg>\n";
}

}  // namespace endband::cli
