// What all figures share: the names of rows at the left, a scale in the middle, numbers in words at the
// right.
#pragma once

#include "cli/document/drawing.h"

#include <cstddef>
#include <functional>
#include <initializer_list>
#include <string>
#include <vector>

namespace endband::cli {

bool can_be_drawn(std::initializer_list<double> values);  // none is infinite or no number

// What lies on a scale, from the least to the most.
class Reach {
 public:
  void take(std::initializer_list<double> values);  // what cannot be drawn is passed over
  double low() const { return low_; }
  double high() const { return high_; }

 private:
  bool any_ = false;
  double low_ = 0, high_ = 0;
};

struct Tick {
  double at = 0;  // mm
  std::string words;
};
// A scale that is `width` mm long and begins at `from`, with a few round numbers on it.
class Axis {
 public:
  Axis(Reach const& reach, double from, double width);
  double at(double value) const;  // what lies beyond an end is drawn at it
  std::vector<Tick> ticks() const;

 private:
  double from_, width_;
  double low_, high_ = 0;
  double step_ = 1;
  int digits_ = 0;  // after the point
};

struct SheetRow {
  std::string name, words;
};
// A sign of the legend; its left end is at the point that it is given.
struct Key {
  double width = 0;
  std::string words;
  std::function<std::vector<Shape>(Point)> sign;
};

// 170 mm wide on paper, which A4 leaves within margins of 20 mm; as high as its rows make it.
class Sheet {
 public:
  Sheet(std::string title, std::string name, std::vector<SheetRow> rows, Reach const& reach);

  double x(double value) const { return axis_.at(value); }
  double y(std::size_t row) const;  // its middle
  double row_height() const { return row_height_; }
  void add(Shape shape) { shapes_.push_back(std::move(shape)); }
  void add(std::vector<Shape> shapes);
  // Across all rows, with words over it.
  void line_at(double value, Pen pen, std::string const& words);

  Drawing finish(std::vector<Key> const& keys, std::string const& unit, std::string words) &&;

 private:
  void draw_ground();
  void draw_ticks(std::string const& unit);
  void draw_keys(std::vector<Key> const& keys, double& up);
  double bottom() const;

  std::string title_, name_;
  std::vector<SheetRow> rows_;
  double row_height_;
  double plot_from_, plot_to_;
  Axis axis_;
  bool line_words_ = false;
  std::vector<Shape> ground_, shapes_;
};

// The text, its end cut off for "…" where it would be wider than so many mm of paper.
std::string cut_to(std::string const& text, double width);

}  // namespace endband::cli
