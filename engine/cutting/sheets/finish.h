// From patterns to cut lists; for the .cpp files of this folder only.
#pragma once

#include "engine/cutting/sheets/fill.h"

namespace endband::cutting::many {

// What a pattern leaves: a rectangle, grown.
struct Left {
  int rect = 0;
  std::int64_t x = 0, y = 0, width = 0, height = 0;
};
std::vector<Left> left_of(Job const& job, Pattern const& pattern);

// Where the pieces of some steps lie, rectangle 0 being width x height.
struct Spot {
  std::int64_t x = 0, y = 0, width = 0, height = 0;
};
std::vector<Spot> spots_of(Job const& job, std::vector<Step> const& steps, std::int64_t width,
                           std::int64_t height);

// Steps that lay nothing and are not needed fall away, and last cuts go where they leave the most worth
// keeping.
void tidy(Job const& job, Pattern& pattern);

// Sets the net cost, as things are.
void set_cost(Job const& job, Pattern& pattern);

// The area of the largest kept rectangle, not grown; 0: none.
std::int64_t largest_kept(Job const& job, Pattern const& pattern);

// Pieces of a type go out in the order of the request.
class Dealer {
 public:
  explicit Dealer(Job const& job);
  CutSheet cut_sheet(Pattern const& pattern);

 private:
  int next_piece(int type);
  Job const& job_;
  std::vector<std::size_t> place_;   // in Type::pieces
  std::vector<std::int64_t> dealt_;  // of that piece
};

}  // namespace endband::cutting::many
