// A quote of random rows whose sheet and offer follow from them, of materials and steps that stand in a
// workshop.
#pragma once

#include "db/workshop.h"
#include "engine/commission/commission.h"

#include <cstdint>

namespace endband::db::test {

// A stream of numbers that a seed fixes (splitmix64, Steele, Lea and Flood 2014, from memory).
class Draw {
 public:
  explicit Draw(std::uint64_t seed) : least(static_cast<std::int64_t>(seed % 2)), state_(seed) {}
  std::int64_t const least;  // rows in any list
  std::int64_t to(std::int64_t most) {
    return static_cast<std::int64_t>(next() % (static_cast<std::uint64_t>(most) + 1));
  }
  bool coin() { return to(1) == 1; }
  template <class E>
  E one_of(E last) {
    return static_cast<E>(to(static_cast<std::int64_t>(last)));
  }
  std::string words();

 private:
  std::uint64_t next();
  std::uint64_t state_;
};

// Some materials with prices, a customer "otter-stage" and two steps, in a workshop that has none.
void stock_workshop(Workshop& workshop);
// Of an odd seed no list is empty.
FrozenQuote any_quote(Workshop& workshop, std::uint64_t seed);

}  // namespace endband::db::test
