// One job made ready to be drawn: tables of its times and counts, and what each costs. Private to
// engine/risk.
#pragma once

#include "engine/chance/draw.h"
#include "engine/risk/risk.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace endband::risk {

inline constexpr std::int64_t thousandths = 1000;  // of a second, of a minor unit

struct TimeModel {
  std::int64_t fixed = 0;                    // ms, where there is nothing to draw
  std::optional<BetaPertDraw> draw;          // ms
  std::optional<std::int64_t> rate;          // own, minor units an hour; none: the workshop's
  std::int64_t wait_low = 0, wait_high = 0;  // s

  std::int64_t at(std::uint64_t bits) const { return draw ? draw->at(bits) : fixed; }
};

struct SpoilModel {
  std::uint32_t line;  // of the bill
  PoissonDraw pieces;
  std::vector<std::int64_t> cost;  // of so many pieces
};

struct RuinModel {
  std::uint32_t line;  // of the bill
  double chance;
  std::int64_t piece;                // its cost
  std::vector<std::uint32_t> again;  // of the work's lines
};

struct RedoModel {
  std::uint32_t index;
  double chance;
  std::int64_t price;
};

struct Model {
  std::vector<TimeModel> lines;
  Rates rates;
  std::int64_t fixed_cost = 0;  // what no run changes, less the mean of what is spoiled
  std::vector<SpoilModel> spoils;
  std::vector<RuinModel> ruins;
  std::vector<RedoModel> redos;
};

// The times alone.
Model model_of(Work const& work);
// `sheet` is that of the input without contingency.
Model model_of(RiskInput const& input, CostSheet const& sheet);

// How often a thing of this chance is done again: p / (1 - p).
inline double odds(double chance) { return chance / (1 - chance); }
double value(Ratio ratio);

// What a spoiled lot of a material is: `spoil` goes in pieces of which `gross` holds so many.
struct Lots {
  std::int64_t gross = 0;  // in the material's dimension; 0: nothing varies
  std::int64_t pieces = 0;
  std::int64_t cost = 0;  // of the gross, should it spoil, in thousandths of a minor unit
  double mean = 0;        // pieces spoiled
};
Lots lots_of(BillLine const& line, std::span<Piece const> pieces);

}  // namespace endband::risk
