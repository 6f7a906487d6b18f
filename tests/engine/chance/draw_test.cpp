#include "engine/chance/draw.h"

#include "engine/fault/fault.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <cmath>
#include <stdexcept>

using endband::BetaPertDraw;
using endband::PhiloxBlock;
using endband::PoissonDraw;
using endband::ThreePoints;

namespace {

std::uint64_t at(double chance) { return static_cast<std::uint64_t>(chance * 0x1p64); }

}  // namespace

// The known answers that Random123, the library of the paper's authors, is tested with (kat_vectors,
// philox4x32 of 10 rounds); from memory.
TEST_CASE("the generator gives its authors' known answers") {
  CHECK(endband::philox({0, 0, 0, 0}, 0) == PhiloxBlock{0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8});
  CHECK(endband::philox({~0U, ~0U, ~0U, ~0U}, ~std::uint64_t{0}) ==
        PhiloxBlock{0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd});
  CHECK(endband::philox({0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344}, 0x299f31d0a4093822) ==
        PhiloxBlock{0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1});
}

TEST_CASE("a draw depends on seed, run, step and what it is of, and on nothing else") {
  std::uint64_t const one = endband::draw(1, 2, 3, 4);
  CHECK(one == endband::draw(1, 2, 3, 4));
  for (std::uint64_t const other :
       {endband::draw(2, 2, 3, 4), endband::draw(1, 3, 3, 4), endband::draw(1, 2, 2, 4),
        endband::draw(1, 2, 3, std::uint64_t{4} << 32)})
    CHECK(one != other);
  CHECK(one == endband::two_draws(1, 2, 1, 4).odd);
}

TEST_CASE("a uniform draw is from 0 to less than 1, a whole one between its ends") {
  CHECK(endband::uniform(0) == 0);
  CHECK(endband::uniform(~std::uint64_t{0}) < 1);
  CHECK(endband::uniform(std::uint64_t{1} << 63) == 0.5);
  CHECK(endband::whole_between(0, 5, 9) == 5);
  CHECK(endband::whole_between(~std::uint64_t{0}, 5, 9) == 9);
  CHECK(endband::whole_between(at(0.5), 5, 9) == 7);
  CHECK(endband::whole_between(~std::uint64_t{0}, 5, 5) == 5);
}

TEST_CASE("a drawn time lies between low and high and rises with its chance") {
  CHECK(rc::check([] {
    auto const low = *rc::gen::inRange<std::int64_t>(0, 1'000'000);
    auto const likely = low + *rc::gen::inRange<std::int64_t>(0, 1'000'000);
    auto const high = likely + *rc::gen::inRange<std::int64_t>(0, 1'000'000);
    ThreePoints const of{static_cast<double>(low), static_cast<double>(likely), static_cast<double>(high)};
    BetaPertDraw const draws(of);
    CHECK(draws.at(0) == low);
    std::int64_t last = low;
    for (int i = 0; i < 200; ++i) {
      std::int64_t const drawn = draws.at(at(i / 200.0) | 1);
      RC_ASSERT(drawn >= last);
      last = drawn;
    }
    RC_ASSERT(draws.at(~std::uint64_t{0}) <= high);
    RC_ASSERT(draws.at(~std::uint64_t{0}) >= last);
  }));
}

// pert_quantile halves the incomplete beta function, by a continued fraction: another way to the same.
TEST_CASE("the kept inverse is that of the beta distribution, and its mean that of PERT") {
  constexpr double high = 1e9;
  for (double const likely : {0.0, 0.01, 0.2, 0.5, 0.83, 1.0}) {
    CAPTURE(likely);
    ThreePoints const of{0, likely * high, high};
    BetaPertDraw const draws(of);
    for (double const p : {0.001, 0.05, 0.2, 0.5, 0.8, 0.95, 0.999}) {
      CAPTURE(p);
      double const drawn = static_cast<double>(draws.at(at(p)));
      CHECK(std::abs(drawn - pert_quantile(of, p)) < 3e-3 * high * (p > 0.99 || p < 0.01 ? 1 : 0.01));
    }
    double sum = 0;
    constexpr int parts = 1 << 16;
    for (int i = 0; i < parts; ++i) sum += static_cast<double>(draws.at(at((i + 0.5) / parts)));
    CHECK(std::abs(sum / parts - pert_mean(of)) < 1e-5 * high);
  }
}

TEST_CASE("a time without spread is drawn as it is, and one beyond reach overflows") {
  BetaPertDraw const draws({600, 600, 600});
  CHECK(draws.at(0) == 600);
  CHECK(draws.at(~std::uint64_t{0}) == 600);
  CHECK_THROWS_AS(BetaPertDraw({0, 0, 1e13}), endband::Overflow);
  CHECK_THROWS_AS(BetaPertDraw({2, 1, 3}), std::logic_error);
}

TEST_CASE("a geometric draw is k or more with the k-th power of its chance") {
  CHECK(endband::draw_geometric(0, 0) == 0);
  CHECK(endband::draw_geometric(0.5, 0) == 0);  // the least of what is left is the whole
  CHECK(endband::draw_geometric(0.5, at(0.49)) == 0);
  CHECK(endband::draw_geometric(0.5, at(0.51)) == 1);
  CHECK(endband::draw_geometric(0.5, at(0.76)) == 2);
  CHECK(endband::draw_geometric(0.04, at(0.95)) == 0);
  CHECK(endband::draw_geometric(0.04, at(0.97)) == 1);
  double sum = 0;
  constexpr int parts = 1 << 16;
  for (int i = 0; i < parts; ++i)
    sum += static_cast<double>(endband::draw_geometric(0.2, at((i + 0.5) / parts)));
  CHECK(sum / parts == doctest::Approx(0.25).epsilon(1e-3));
  CHECK_THROWS_AS(endband::draw_geometric(1, 0), std::logic_error);
}

TEST_CASE("a Poisson draw has its mean as mean and as variance") {
  for (double const mean : {0.0, 0.06, 1.0, 9.0, 800.0}) {
    CAPTURE(mean);
    PoissonDraw const draws(mean);
    CHECK(draws.at(0) >= 0);
    CHECK(draws.at(~std::uint64_t{0}) <= draws.most());
    double sum = 0;
    double squares = 0;
    constexpr int parts = 1 << 15;
    for (int i = 0; i < parts; ++i) {
      auto const k = static_cast<double>(draws.at(at((i + 0.5) / parts)));
      sum += k;
      squares += (k - mean) * (k - mean);
    }
    CHECK(sum / parts == doctest::Approx(mean).epsilon(1e-3));
    CHECK(squares / parts == doctest::Approx(mean).epsilon(5e-3));
  }
  CHECK(PoissonDraw(1).at(at(0.36)) == 0);  // e^-1 = 0.3679
  CHECK(PoissonDraw(1).at(at(0.37)) == 1);
  CHECK_THROWS_AS(PoissonDraw(-1), std::logic_error);
}
