#include "tests/engine/stock/ledger.h"

#include <stdexcept>

using namespace endband;
using Postings = std::vector<Posting>;

namespace {

LotBalance own(std::int64_t id, std::int64_t quantity, std::int64_t value) {
  return {LotId{id}, Costed::own, quantity, value};
}
LotBalance pooled(std::int64_t id, std::int64_t quantity) { return {LotId{id}, Costed::pool, quantity, 0}; }

Postings taken(std::vector<LotBalance> const& lots, std::int64_t wanted) {
  PoolBalance pool;
  return take(lots, pool, wanted);
}

}  // namespace

TEST_CASE("a part is valued at its share, a half going up, and the last part at all that is left") {
  CHECK(value_of_part(100, 3, 1) == 33);
  CHECK(value_of_part(100, 3, 2) == 67);
  CHECK(value_of_part(1, 2, 1) == 1);
  CHECK(value_of_part(5, 4, 2) == 3);
  CHECK(value_of_part(100, 3, 3) == 100);
  CHECK(value_of_part(100, 3, 0) == 0);
  CHECK(value_of_part(0, 7, 3) == 0);
  CHECK(value_of_part(0, 0, 0) == 0);
  // 1000 m2 in um2 at ten million: the product leaves 64 bits, the part does not.
  CHECK(value_of_part(1'000'000'000, 1'000'000'000'000'000, 333'333'333'333'333) == 333'333'333);
}

TEST_CASE("a part of more than there is, or of less than nothing, is a broken contract") {
  CHECK_THROWS_AS(value_of_part(100, 3, 4), std::logic_error);
  CHECK_THROWS_AS(value_of_part(100, 3, -1), std::logic_error);
  CHECK_THROWS_AS(value_of_part(-1, 3, 1), std::logic_error);
  CHECK_THROWS_AS(taken({own(1, 3, 100)}, -1), std::logic_error);
  CHECK_THROWS_AS(taken({own(1, -3, 100)}, 1), std::logic_error);
  // The pool holds less than its lots.
  CHECK_THROWS_AS(taken({pooled(1, 3)}, 1), std::logic_error);
}

TEST_CASE("lots of their own cost are taken in the order given, each as far as it goes") {
  std::vector<LotBalance> const lots{own(4, 10, 1000), own(2, 5, 600), own(9, 20, 3000)};
  CHECK(taken(lots, 10) == Postings{{LotId{4}, 10, 1000}});
  CHECK(taken(lots, 12) == Postings{{LotId{4}, 10, 1000}, {LotId{2}, 2, 240}});
  CHECK(taken(lots, 16) == Postings{{LotId{4}, 10, 1000}, {LotId{2}, 5, 600}, {LotId{9}, 1, 150}});
  CHECK(taken(lots, 0).empty());
}

TEST_CASE("a lot that is used up is passed over") {
  CHECK(taken({own(1, 0, 0), own(2, 4, 80)}, 3) == Postings{{LotId{2}, 3, 60}});
}

TEST_CASE("more than there is: all is taken and the sum says what is missing") {
  Postings const postings = taken({own(1, 3, 100), own(2, 4, 50)}, 10);
  CHECK(postings == Postings{{LotId{1}, 3, 100}, {LotId{2}, 4, 50}});
  CHECK(ledger::quantity_of(postings) == 7);
}

TEST_CASE("pooled lots are taken at the average of the pool, which is lowered") {
  // 10 at 20 each and 30 at 40 each: 35 on average.
  std::vector<LotBalance> const lots{pooled(1, 10), pooled(2, 30)};
  PoolBalance pool{40, 1400};
  CHECK(take(lots, pool, 12) == Postings{{LotId{1}, 10, 350}, {LotId{2}, 2, 70}});
  CHECK(pool.quantity == 28);
  CHECK(pool.value == 980);
}

TEST_CASE("a pool of which some lots may not serve keeps their part") {
  PoolBalance pool{40, 1400};
  CHECK(take(std::vector<LotBalance>{pooled(2, 30)}, pool, 30) == Postings{{LotId{2}, 30, 1050}});
  CHECK(pool.quantity == 10);
  CHECK(pool.value == 350);
}

TEST_CASE("what was bought for the job keeps its own cost beside the pool") {
  PoolBalance pool{10, 1000};
  CHECK(take(std::vector<LotBalance>{own(7, 2, 900), pooled(1, 10)}, pool, 5) ==
        Postings{{LotId{7}, 2, 900}, {LotId{1}, 3, 300}});
  CHECK(pool.value == 700);
}

TEST_CASE("the last taking takes the last of the value, however the ones before were rounded") {
  for (CostFormula const formula : {CostFormula::first_in_first_out, CostFormula::moving_average}) {
    ledger::Shelf shelf{formula, {}, {}};
    shelf.receive(7, 100);
    std::vector<std::int64_t> values;
    for (int n = 0; n < 7; ++n) values.push_back(ledger::value_of(shelf.take(1)));
    // 100/7 = 14.29, 86/6 = 14.33, 72/5 = 14.4, 58/4 = 14.5, 43/3 = 14.33, 29/2 = 14.5, 14
    CHECK(values == std::vector<std::int64_t>{14, 14, 14, 15, 14, 15, 14});
    CHECK(shelf.quantity() == 0);
    CHECK(shelf.value() == 0);
  }
}

TEST_CASE("what was taken last goes back first, at the value it was taken at") {
  std::vector<Held> const held{{LotId{5}, 4, 90}, {LotId{3}, 10, 1000}};
  CHECK(give_back(held, 3) == Postings{{LotId{5}, 3, 68}});
  CHECK(give_back(held, 4) == Postings{{LotId{5}, 4, 90}});
  CHECK(give_back(held, 6) == Postings{{LotId{5}, 4, 90}, {LotId{3}, 2, 200}});
  CHECK(give_back(held, 99) == Postings{{LotId{5}, 4, 90}, {LotId{3}, 10, 1000}});
  CHECK(give_back(held, 0).empty());
  CHECK(give_back({}, 1).empty());
  CHECK_THROWS_AS(give_back(held, -1), std::logic_error);
}

TEST_CASE("what is given back comes off the job for what it came on, though the average has moved") {
  ledger::Shelf shelf{CostFormula::moving_average, {}, {}};
  LotId const lot = shelf.receive(10, 1000);
  auto const used = shelf.take(4);
  REQUIRE(used == Postings{{lot, 4, 400}});
  shelf.receive(6, 1800);  // the average is 200 now
  auto const back = give_back(std::vector<Held>{{lot, 4, 400}}, 2);
  REQUIRE(back == Postings{{lot, 2, 200}});
  for (Posting const& posting : back) shelf.put(posting, +1);
  CHECK(shelf.quantity() == 14);
  CHECK(shelf.value() == 2600);
}
