// Checked whole numbers, and amounts whose dimension is known only when the program runs.
#include "engine/measure/measure.h"

#include <stdexcept>

namespace endband {
namespace {

void require_same(Dimension a, Dimension b) {
  if (a != b) throw std::logic_error("amounts of two dimensions are added");
}

}  // namespace

std::int64_t checked_add(std::int64_t a, std::int64_t b) {
  std::int64_t result = 0;
  if (__builtin_add_overflow(a, b, &result)) throw Overflow("a sum of quantities leaves 64 bits");
  return result;
}

std::int64_t checked_sub(std::int64_t a, std::int64_t b) {
  std::int64_t result = 0;
  if (__builtin_sub_overflow(a, b, &result)) throw Overflow("a difference of quantities leaves 64 bits");
  return result;
}

std::int64_t checked_mul(std::int64_t a, std::int64_t b) {
  std::int64_t result = 0;
  if (__builtin_mul_overflow(a, b, &result)) throw Overflow("a product of quantities leaves 64 bits");
  return result;
}

Area area(Length height, Length width) { return {checked_mul(height.n, width.n)}; }

Amount operator+(Amount a, Amount b) {
  require_same(a.dimension, b.dimension);
  return {a.dimension, checked_add(a.n, b.n)};
}

Amount operator-(Amount a, Amount b) {
  require_same(a.dimension, b.dimension);
  return {a.dimension, checked_sub(a.n, b.n)};
}

}  // namespace endband
