// The rules of the book: for each figure that is computed one row, or one for each way that has a formula of
// its own, with its formula in words, the figures it
// reads, and its source. A rule sees only the inputs it names, so the table cannot lie about what a figure
// depends on.
#pragma once

#include "engine/book/figure.h"
#include "engine/book/way.h"

#include <span>
#include <string_view>

namespace endband {

struct Rule {
  FigureId gives;
  Ways when{};                        // the books it is for; empty: all
  std::string_view formula;           // "S = n x d x c", in the symbols of figure_row
  std::span<FigureId const> inputs;   // in the order that `value` takes them
  double (*value)(double const* in);  // in[i] is the value of inputs[i]
  std::string_view source;  // where the formula comes from; "geometry"; "common practice, no source"
};

// In an order in which each rule comes after the rules of its inputs.
std::span<Rule const> rules();
Rule const* rule_of(FigureId id, Ways ways);  // nullptr: never computed in a book of these ways

// Fills every figure that is not given and whose inputs are all known, by the rules for these ways.
void apply_rules(Figures& figures, Ways ways);

}  // namespace endband
