// How much less time the copies after the first take. Two models bear the name, and the same rate means
// different times in them, so a curve always says which it is:
//   Crawford  the time of a unit falls to `rate` with every doubling of its number: unit n takes n^b.
//   Wright    the average of all units so far falls so: n units take n x n^b together.
// b = ln(rate) / ln 2. (T. P. Wright, Factors affecting the cost of airplanes, 1936; J. R. Crawford, Learning
// curve, ship curve, ratios, related data, Lockheed, about 1944: both from memory.)
#pragma once

#include "engine/money/money.h"

#include <cstdint>
#include <string_view>

namespace endband {

enum class LearningModel : std::uint8_t { crawford, wright };
std::string_view learning_model_name(LearningModel model);  // "crawford"

struct LearningCurve {
  LearningModel model = LearningModel::crawford;
  Ratio rate = 1;            // 1: nothing is learned
  std::int64_t plateau = 0;  // the unit after which the time of a unit falls no more; 0: it never stops
};
// 0 < rate <= 1, plateau >= 0. Wright's rate is at least one half: below it a later unit would take less than
// no time, and more copies less than fewer.
bool is_valid(LearningCurve const& curve);

// Of the first unit's time. n >= 1; a curve that is not valid throws std::logic_error.
double unit_factor(LearningCurve const& curve, std::int64_t n);   // what unit n takes
double total_factor(LearningCurve const& curve, std::int64_t n);  // what the first n take together

// total_factor rounded half away to a millionth: what times, and so prices, are made with. It never falls
// from one n to the next, and is n exactly where nothing is learned.
Ratio learned_total(LearningCurve const& curve, std::int64_t n);

// Wright's rate from what the first unit took and what n units took together, n >= 2, both > 0.
double wright_rate(double first, double total, std::int64_t n);

}  // namespace endband
