// The range of repairs, at 36.00 an hour and no other cost: a price is its hours.
#include "engine/commission/order.h"
#include "quotes.h"

#include <doctest/doctest.h>

using namespace endband::testing;
using endband::Bill;
using endband::Component;
using endband::Money;
using endband::Offer;
using endband::OperationKind;
using endband::Part;
using endband::Ratio;
using endband::RepairRange;
using endband::Work;

namespace {

struct Bench {
  Bill bill;
  Work work;
  std::vector<endband::Outside> outside;
  endband::ShopRules shop{.currency = euro(),
                          .basis = {eur(36'000'00), eur(0), eur(0), {1'000 * seconds_an_hour}},
                          .contingency = {},
                          .least_charge = eur(0),
                          .least_hourly = eur(0)};
  endband::Delivery delivery{eur(0), ""};
  endband::SellingRules selling{};
  endband::Goal goal = endband::MarkupGoal{0};

  void add(Part part, std::int64_t low, std::int64_t mean, std::int64_t high) {
    endband::WorkLine line = work_line(OperationKind::mend_leaves, mean, part);
    line.low_seconds = Ratio(low);
    line.high_seconds = Ratio(high);
    work.lines.push_back(line);
  }
  Offer offered() const {
    return offer(cost(bill, work, outside, shop), delivery, selling, goal, shop).value();
  }
  std::optional<RepairRange> range(Ratio ceiling) const {
    return repair_range({bill, work, outside, shop, delivery, selling, goal}, offered(), ceiling).value();
  }
};

}  // namespace

TEST_CASE(
    "repairs lie between their low and their high times, and stop a share over what they are quoted at") {
  Bench bench;
  bench.add(Part::repairs, 3'600, 7'200, 14'400);
  RepairRange const range = bench.range(Ratio(1, 5)).value();
  CHECK(range.low == eur(36'00));
  CHECK(range.likely == eur(72'00));
  CHECK(range.high == eur(144'00));
  CHECK(range.ceiling == eur(86'40));
  CHECK(range.ceiling_share == Ratio(1, 5));
}

TEST_CASE("the likely price is the line of the paper, and the ceiling a price that people like") {
  Bench bench;
  bench.selling.points = {1000, 100};  // 9.00, 19.00, ...
  bench.add(Part::repairs, 3'600, 7'200, 14'400);
  RepairRange const range = bench.range(Ratio(1, 5)).value();
  CHECK(range.likely == eur(79'00));
  CHECK(range.ceiling == eur(99'00));  // 94.80
  CHECK(range.likely == bench.offered().lines.at(0).shown);
  CHECK(bench.offered().lines.at(0).component == Component::repairs);
}

TEST_CASE("the times of other work are no part of the range") {
  Bench bench;
  bench.add(Part::repairs, 3'600, 3'600, 3'600);
  bench.add(Part::cover, 1, 36'000, 360'000);
  RepairRange const range = bench.range(Ratio(0)).value();
  CHECK(range.low == eur(36'00));
  CHECK(range.likely == eur(36'00));
  CHECK(range.high == eur(36'00));
  CHECK(range.ceiling == eur(36'00));
}

TEST_CASE("a book of which nothing is repaired has no range") {
  Bench bench;
  bench.add(Part::cover, 3'600, 7'200, 14'400);
  CHECK_FALSE(bench.range(Ratio(1, 5)).has_value());
}
