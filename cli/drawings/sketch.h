// What every drawing is begun and ended with: a scale at which it goes on a page, a title, the scale in words
// and a bar to hold a rule against.
#pragma once

#include "cli/document/drawing.h"
#include "engine/book/figure.h"

#include <initializer_list>
#include <string>
#include <string_view>

namespace endband::cli {

// Millimetres of paper.
struct Paper {
  double width = 0, height = 0;
};
// What both A4 and US Letter leave within margins of 10 mm.
inline constexpr Paper page{190, 259};

// The paper that a drawing is made for. All that is said in mm of paper (letters, gaps, arrows) is so many
// times as large as in a picture of its own: what is laid out at 1:7 with letters of 1.4 comes out at 1:5.
struct OnPaper {
  Paper room = page;
  bool turned = true;  // it may lie on its side too
  double letters = 1;
  bool holds(double width, double height, Paper around, double scale) const;
};

// The largest of 1:1, 1:2, 1:5, 1:10 ... at which `width` x `height` mm of the thing and, round it, `around`
// go on the paper; as it is laid out.
double scale_for(double width, double height, Paper around, OnPaper const& on = {});

class Sketch {
 public:
  // `of`: the title of the book; may be empty. `scale`: as it is laid out.
  Sketch(std::string name, std::string_view what, std::string_view of, double scale, OnPaper const& on = {});

  double paper(double mm) const { return mm * drawing_.scale; }  // mm of paper as mm of the thing

  void add(Shape shape) { drawing_.shapes.push_back(std::move(shape)); }
  void line(Point from, Point to, Pen pen = Pen::outline) { add(Segment{from, to, pen}); }
  void text(Point at, std::string words, Anchor anchor = Anchor::middle, double size = 3,
            bool upwards = false) {
    add(Text{at, std::move(words), size, anchor, upwards});
  }
  // Words in lines as long as the paper is wide, from `at` down; how many there are.
  std::size_t note(Point at, std::string const& words, double apart = 4.5);
  // A line from `at` out to words that are written at `to`.
  void pointer(Point at, Point to, std::string words);

  // With title and scale set under what was drawn, and its extent measured. What is drawn over time has a
  // foot of its own instead of the scale.
  Drawing finish(std::string words, std::string foot = "") &&;

 private:
  // Of letters that the paper holds beside margins and measures of so many mm of paper.
  std::size_t columns(double size, double aside) const;

  Drawing drawing_;
  OnPaper on_;
};

// The same with all that is of the paper so many times as large, and the thing as much larger: at the scale
// divided by that. Of marks alone.
Drawing enlarged(Drawing drawing, double times);

// Are all of them known?
bool known(Figures const& figures, std::initializer_list<FigureId> ids);

// "2 boards", "1 board": only words that take an s.
std::string so_many(double count, std::string_view one);
std::string mm_words(double mm);  // "55.6 mm"

}  // namespace endband::cli
