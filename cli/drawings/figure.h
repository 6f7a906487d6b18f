// Figures of what past jobs came to: bars and dots on a scale, drawn, and as text. Each title says what the
// figure shows; every number stands beside its mark, so that nothing has to be read off. A picture is 170 mm
// wide and grows downwards; a name that would want more than 54 mm in a wide type is cut, and in numbers "->"
// and "-" are set as an arrow and a minus. What is infinite or no number is not drawn, its words are.
#pragma once

#include "cli/document/drawing.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace endband::cli {

// Two values of a row on one scale, such as quoted and actual: a hollow and a full dot, joined.
struct PairRow {
  std::string name{};
  double first = 0, second = 0;
  std::string words{};  // "18.0 % -> 3.2 %"
};
struct PairFigure {
  std::string title{}, name{};            // name: of its file
  std::string first{}, second{}, unit{};  // what the two dots are: "quoted", "actual"; "% of the price"
  std::optional<double> aim{};            // a line across all rows, dashed
  std::string aim_words{};
  std::vector<PairRow> rows{};  // at most 40 are drawn; the caller says so when there are more
};
Drawing draw_pairs(PairFigure const& figure);

// From one sum to another, step by step: what is taken hangs from where the step before ended.
struct StairRow {
  std::string name{};
  double amount = 0;    // what it adds; less than nothing: takes. Of a sum: how much is there
  bool sum = false;     // stands on the ground: what is there so far
  std::string words{};  // "-41.20"
};
struct StairFigure {
  std::string title{}, name{}, unit{};
  std::vector<StairRow> rows{};
};
Drawing draw_stairs(StairFigure const& figure);

// One value of a row with its range, from a line of no difference.
struct RangeRow {
  std::string name{};
  double value = 0, low = 0, high = 0;
  std::string words{};  // "+24 % (+18 to +31), n 61"
  bool faint = false;   // too few to say anything
};
struct RangeFigure {
  std::string title{}, name{}, unit{};
  double zero = 0;  // the line of no difference
  std::string zero_words{};
  bool bars = false;  // a bar from the line to the value; else a dot with its range
  std::vector<RangeRow> rows{};
};
Drawing draw_ranges(RangeFigure const& figure);

// A bar of characters, `width` columns wide in all: from the zero of [low, high] to the value, '#' beyond it
// to the right, '-' to the left, '|' at zero. What is not nothing has a mark on its side, however small; what
// is beyond an end goes to it. ASCII only, so that a pipe and a dumb terminal show it.
std::string bar_text(double value, double low, double high, std::size_t width);

}  // namespace endband::cli
