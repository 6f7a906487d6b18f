// What every solver of this folder is asked with and answers with. Lengths are whole micrometres, angles
// whole degrees, costs whole numbers of the caller's own unit: nothing here knows money, materials or books.
//
// A solver is a pure function of its request and of Budget::work: the same plan every time, however its tasks
// are run.
#pragma once

#include <cstdint>
#include <functional>
#include <span>
#include <vector>

namespace endband::cutting {

struct Budget {
  std::int64_t work = 1'000'000;  // steps; what a step is, each solver says; some tens of nanoseconds each
  // Runs all tasks, in any order, one after another or at once; empty: one after another. Tasks share nothing
  // that they write.
  std::function<void(std::span<std::function<void()> const>)> run_all;
};

struct Proof {
  std::int64_t cost = 0;   // of the plan
  std::int64_t bound = 0;  // no plan costs less
  std::int64_t work = 0;   // spent
  bool proved() const { return cost <= bound; }
};

enum class Outcome : std::uint8_t {
  planned,
  impossible,  // proved: no plan exists, and the obstacles say why
  not_found,   // none within the budget; one may exist
};

enum class Why : std::uint8_t {
  too_large,   // than every stock piece, however it may lie; `over`: by how much, of the side `side`
  grain,       // it would fit turned, but its grain or its angles forbid it; `over` likewise as it must lie
  flaws,       // it fits the outline, but not between the flaws, at any allowed angle
  grade,       // it fits, but not within the zones of its least grade
  group,       // its group fits no one skin, or no one batch
  not_enough,  // all fit one by one; together there is not enough stock
};
enum class Side : std::uint8_t { none, width, height };
struct Obstacle {
  int piece = 0;  // index into the request's pieces
  Why why = Why::too_large;
  Side side = Side::none;
  std::int64_t over = 0;  // least shortage over all stock pieces; 0: not said
};

// `Used`: one stock piece and what is cut from it.
template <class Used>
struct Answer {
  Outcome outcome = Outcome::not_found;
  std::vector<Used> used;
  std::vector<Obstacle> obstacles;  // empty when planned
  Proof proof;                      // the bound stands for every outcome
};

// A share of cost that a kept offcut is worth: num / den of its part of the stock piece, 0 <= num <= den.
struct Worth {
  std::int64_t num = 0, den = 1;
};

}  // namespace endband::cutting
