// A drawing to scale. Its shapes lie in millimetres of the thing that is drawn, x to the right and y down;
// how they look (strokes, letters, dashes, how far a measure stands off) is in millimetres of the paper. The
// model is a list, so that every writer draws the same.
#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

namespace endband::cli {

struct Point {
  double x = 0, y = 0;
};

// Each kind of line differs from the others without colour too.
enum class Pen : std::uint8_t {
  none,
  outline,  // what is seen or cut
  thin,     // what helps to read: axes, measures
  hidden,   // what lies under something, dashed
  fold,     // where it is folded or turned in, dash and dot
  accent,   // what the drawing is about: heavier, and in the one colour
};
enum class Fill : std::uint8_t { none, white, shade, hatch, solid };
enum class Anchor : std::uint8_t { start, middle, end };

struct Segment {
  Point from, to;
  Pen pen = Pen::outline;
};
struct Leg {
  Point to;
  double radius = 0;  // of the arc that leads there; 0: straight
  bool clockwise = true;
  bool long_way = false;  // the arc of more than half a circle
};
struct Path {
  Point start;
  std::vector<Leg> legs;
  bool closed = false;
  Pen pen = Pen::outline;
  Fill fill = Fill::none;
};
struct Rectangle {
  Point corner;  // the upper left one
  double width = 0, height = 0;
  Pen pen = Pen::outline;
  Fill fill = Fill::none;
};
struct Circle {
  Point centre;
  double radius = 0;
  Pen pen = Pen::outline;
  Fill fill = Fill::none;
};
struct Text {
  Point at;  // on the line that the letters stand on
  std::string words;
  double size = 3;  // of the letters, mm of the paper
  Anchor anchor = Anchor::start;
  bool upwards = false;  // read from the right side of the paper
};
// The distance of two points that lie level or plumb, measured beside them; what it says is what it measures.
struct DimensionLine {
  Point from, to;
  double away = 6;    // mm of the paper: downwards of a level one, to the right of a plumb one; or, < 0, not
  std::string words;  // "T": stands before the measure
};
// Measures that all run from one corner along one edge, as on a bench template.
struct Running {
  Point zero;
  bool down = false;             // else to the right
  std::vector<double> stations;  // from zero, in order
  double away = 4;               // mm of the paper: upwards of a level one, to the left of a plumb one
};
// Which way the fibres run.
struct GrainArrow {
  Point middle;
  double length = 0;  // mm of the thing
  bool down = false;  // else across
};
// Copied, moved and ended in drawing.cpp alone, as a Block is.
struct Shape : std::variant<Segment, Path, Rectangle, Circle, Text, DimensionLine, Running, GrainArrow> {
  using variant::variant;
  Shape(Shape const&);
  Shape(Shape&&) noexcept;
  Shape& operator=(Shape const&);
  Shape& operator=(Shape&&) noexcept;
  ~Shape();
};

struct Drawing {
  std::string title{};
  std::string words{};  // say the same for whoever cannot see it
  std::string name{};   // "section": of its file
  double scale = 1;     // mm of the thing for each mm of the paper: 2 is 1:2
  Point corner{};       // the upper left one of all that is drawn
  double width = 0, height = 0;
  std::vector<Shape> shapes{};
  bool titled = false;     // its title is drawn in it
  bool true_size = false;  // must be printed at its scale: never shrunk to the page
};

// What a writer has to know how to draw: the rest is made of these.
using Mark = std::variant<Segment, Path, Rectangle, Circle, Text>;
std::vector<Mark> marks_of(Drawing const& drawing);

// Sets corner, width and height so that all marks lie within, `margin` mm of paper to spare.
void frame(Drawing& drawing, double margin);

// How wide letters come out, in mm of the paper: near enough to keep them apart.
double letters_width(std::string const& words, double size);
std::string tenths(double mm);  // "223.3", "210"

}  // namespace endband::cli
