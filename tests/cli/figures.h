// What the tests of figures share: the marks of a drawing, and whether they keep to their places.
#pragma once

#include "cli/drawings/figure.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

namespace endband::cli::testing {

constexpr double hair = 1e-6;

template <class T>
inline std::vector<T> all_of(Drawing const& drawing) {
  std::vector<T> found;
  for (Shape const& shape : drawing.shapes)
    if (auto const* const one = std::get_if<T>(&shape)) found.push_back(*one);
  return found;
}

inline std::vector<std::string> letters_in(Drawing const& drawing) {
  std::vector<std::string> words;
  for (Text const& text : all_of<Text>(drawing)) words.push_back(text.words);
  return words;
}

inline bool says(Drawing const& drawing, std::string const& words) {
  auto const all = letters_in(drawing);
  return std::find(all.begin(), all.end(), words) != all.end();
}

inline bool has(std::string const& text, std::string const& part) {
  return text.find(part) != std::string::npos;
}

inline Text text_of(Drawing const& drawing, std::string const& words) {
  for (Text const& text : all_of<Text>(drawing))
    if (text.words == words) return text;
  FAIL("no such words: " << words);
  return {};
}

inline std::vector<Circle> dots(Drawing const& drawing, Fill fill) {
  auto found = all_of<Circle>(drawing);
  std::erase_if(found, [fill](Circle const& dot) { return dot.fill != fill || dot.centre.y < 0; });
  return found;
}

// Those of the rows; grid lines have no pen, and the legend stands over the rows.
inline std::vector<Rectangle> bars(Drawing const& drawing) {
  auto found = all_of<Rectangle>(drawing);
  std::erase_if(found, [](Rectangle const& bar) { return bar.pen == Pen::none || bar.corner.y < 0; });
  return found;
}

struct Inside {
  Drawing const& drawing;
  bool operator()(Point point) const {
    return point.x >= drawing.corner.x - hair && point.x <= drawing.corner.x + drawing.width + hair &&
           point.y >= drawing.corner.y - hair && point.y <= drawing.corner.y + drawing.height + hair;
  }
  bool operator()(Segment const& line) const { return (*this)(line.from) && (*this)(line.to); }
  bool operator()(Path const&) const { return false; }
  bool operator()(Rectangle const& shape) const {
    return shape.width >= 0 && shape.height >= 0 && (*this)(shape.corner) &&
           (*this)(Point{shape.corner.x + shape.width, shape.corner.y + shape.height});
  }
  bool operator()(Circle const& dot) const {
    return (*this)(Point{dot.centre.x - dot.radius, dot.centre.y - dot.radius}) &&
           (*this)(Point{dot.centre.x + dot.radius, dot.centre.y + dot.radius});
  }
  bool operator()(Text const& text) const {
    double const length = letters_width(text.words, text.size);
    double const before = text.anchor == Anchor::start ? 0 : text.anchor == Anchor::end ? length : length / 2;
    return text.size >= 2.8 && (*this)(Point{text.at.x - before, text.at.y - text.size}) &&
           (*this)(Point{text.at.x - before + length, text.at.y});
  }
};

inline bool all_inside(Drawing const& drawing) {
  auto const marks = marks_of(drawing);
  return drawing.width == 170 && std::all_of(marks.begin(), marks.end(), [&](Mark const& mark) {
           return std::visit(Inside{drawing}, mark);
         });
}

// Names end, and numbers begin, before any mark of a row.
inline bool apart(Drawing const& drawing) {
  double left = 0, right = 164;
  for (Text const& text : all_of<Text>(drawing)) {
    if (text.at.y < 0) continue;
    if (text.anchor == Anchor::start) left = std::max(left, letters_width(text.words, text.size));
    if (text.anchor == Anchor::end) right = std::min(right, 164 - letters_width(text.words, text.size));
  }
  auto const circles = all_of<Circle>(drawing);
  auto const boxes = bars(drawing);
  return std::all_of(circles.begin(), circles.end(),
                     [&](Circle const& dot) {
                       return dot.centre.y < 0 ||
                              (dot.centre.x - dot.radius > left && dot.centre.x + dot.radius < right);
                     }) &&
         std::all_of(boxes.begin(), boxes.end(), [&](Rectangle const& bar) {
           return bar.corner.x > left && bar.corner.x + bar.width < right;
         });
}

inline PairFigure three_jobs() {
  return {.title = "Two of three jobs lost",
          .name = "jobs",
          .first = "quoted",
          .second = "actual",
          .unit = "% of the price",
          .aim = 35,
          .aim_words = "aimed at: 35 %",
          .rows = {{"J3 Album", 20, -5, "20 % -> -5 %"},
                   {"J1 Bible", 30, 30, "30 % -> 30 %"},
                   {"J2 Thesis", 10, 40, "10 % -> 40 %"}}};
}

}  // namespace endband::cli::testing
