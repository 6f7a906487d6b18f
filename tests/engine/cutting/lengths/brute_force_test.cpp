// Small orders against every plan there is.
#include "plans.h"

#include <doctest/doctest.h>

using namespace endband::cutting;

namespace {

class Numbers {  // splitmix64
 public:
  explicit Numbers(std::uint64_t seed) : state_(seed) {}
  std::int64_t from_to(std::int64_t low, std::int64_t high) {
    std::uint64_t z = (state_ += 0x9e3779b97f4a7c15U);
    z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
    z ^= z >> 31U;
    return low + static_cast<std::int64_t>(z % static_cast<std::uint64_t>(high - low + 1));
  }

 private:
  std::uint64_t state_;
};

LengthRequest random_request(Numbers& numbers) {
  LengthRequest request;
  std::int64_t const scale = numbers.from_to(0, 2) == 0 ? 1 : numbers.from_to(1, 40);
  request.kerf = numbers.from_to(0, 1) * numbers.from_to(0, 3);
  bool const may_run_out = numbers.from_to(0, 3) == 0;
  for (std::int64_t r = numbers.from_to(1, 3); r > 0; --r) {
    std::int64_t const length = numbers.from_to(8, 30) * scale;
    bool const endless = r == 1 && !may_run_out;
    request.rolls.push_back({endless ? 30 * scale : length, numbers.from_to(0, 25), std::nullopt});
    if (!endless) request.rolls.back().copies = numbers.from_to(0, 2);
  }
  std::int64_t left = numbers.from_to(1, 7);
  while (left > 0) {
    std::int64_t const copies = numbers.from_to(1, left);
    request.pieces.push_back({numbers.from_to(2, 16) * scale + numbers.from_to(0, 1), copies});
    left -= copies;
  }
  return request;
}

}  // namespace

TEST_CASE("random small orders come out as by trying everything") {
  Numbers numbers(20261126);
  int planned = 0, impossible = 0, best_remnant = 0;
  for (int i = 0; i < 1500; ++i) {
    CAPTURE(i);
    auto const request = random_request(numbers);
    auto const best = plans::brute_force(request);
    auto const answer = plans::plan(request, 300'000);
    if (!best) {
      CHECK(answer.outcome == Outcome::impossible);
      CHECK_FALSE(answer.obstacles.empty());
      ++impossible;
      continue;
    }
    ++planned;
    REQUIRE(plans::fault_of(request, answer) == "");
    REQUIRE(answer.proof.cost == best->cost);
    CHECK(answer.proof.proved());
    auto const remnant = plans::longest_remnant(request, answer);
    CHECK(remnant <= best->remnant);
    if (remnant == best->remnant) ++best_remnant;
  }
  CHECK(planned > 800);
  CHECK(impossible > 50);
  MESSAGE(best_remnant << " of " << planned << " with the longest remnant there can be");
  CHECK(best_remnant * 100 >= planned * 85);
}

TEST_CASE("no bound is above the optimum, and no plan below it, however little the work") {
  Numbers numbers(7);
  for (int i = 0; i < 400; ++i) {
    CAPTURE(i);
    auto const request = random_request(numbers);
    auto const best = plans::brute_force(request);
    for (std::int64_t const work : {0, 1, 10, 100, 1000}) {
      auto const answer = plans::plan(request, work);
      if (!best) {
        CHECK(answer.outcome != Outcome::planned);
        continue;
      }
      CHECK(answer.outcome != Outcome::impossible);
      CHECK(answer.proof.bound <= best->cost);
      if (answer.outcome == Outcome::planned) {
        CHECK(plans::fault_of(request, answer) == "");
        CHECK(answer.proof.cost >= best->cost);
      }
    }
  }
}
