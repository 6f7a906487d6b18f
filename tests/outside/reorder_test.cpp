// Reorder points, safety stocks and order sizes on published cases. Tables of the normal distribution are
// read to two decimals: where a book takes z from one, the service level here is the one at which z is just
// that.
#include "engine/stock/to_buy.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace endband;

namespace {

constexpr double z_is_1_65 = 0.9505285319663519;  // the books' 95 %
constexpr double z_is_1_28 = 0.8997274320455581;  // the books' 90 %
doctest::Approx near(double value) { return doctest::Approx(value).epsilon(1e-6); }

}  // namespace

// Heizer and Render, Operations Management, the case of the needles (as at scribd.com/document/714381472):
// 1,000 a year, 10 an order, 0.50 a unit and year, 250 days: 200; five orders, 50 days apart; 50 + 50 a year.
TEST_CASE("needles are ordered by two hundreds, five times a year") {
  double const size = order_size(1000, 10, 0.50);
  CHECK(size == near(200));
  CHECK(1000 / size == near(5));
  CHECK(250 / (1000 / size) == near(50));
  CHECK(1000 / size * 10 + size / 2 * 0.50 == near(100));
}

// Stevenson, Operations Management, chapter 12, example 7 (as at coursehero.com/file/6687801).
TEST_CASE("two a day and a week's wait: 27 are ordered when 14 are left") {
  CHECK(order_size(730, 1, 2) == doctest::Approx(27.02).epsilon(1e-4));
  CHECK(reorder_point({2, 0, 7, 0}, 0.95) == near(14));
}

// wizedu.com, question 9647: printed 166.6, then 167.
TEST_CASE("ten thousand in 300 days and five days' wait: order at 167") {
  CHECK(std::ceil(reorder_point({10'000.0 / 300, 0, 5, 0}, 0.95)) == 167);
}

// The case of the I-75 carpet store (figures as at homeworksource.com/p/1008133 and cs.unca.edu/~manns); the
// answer was worked out here.
TEST_CASE("carpet is ordered by two thousand yards") { CHECK(order_size(10'000, 150, 0.75) == near(2000)); }

// Taylor, Introduction to Management Science, section 16 (figures as at flylib.com/books/en/3.287.1.225/1):
// 30 a day with a deviation of 5, ten days, 95 %, z 1.65. 326.1 from memory; worked out here to 326.09.
TEST_CASE("carpet is ordered when 326.1 yards are left, 26.1 of them for safety") {
  UseStatistics const carpet{30, 5, 10, 0};
  CHECK(safety_stock(carpet, z_is_1_65) == doctest::Approx(26.0888).epsilon(1e-5));
  CHECK(reorder_point(carpet, z_is_1_65) == doctest::Approx(326.0888).epsilon(1e-6));
  // By the exact z of 95 %, 1.644854.
  CHECK(reorder_point(carpet, 0.95) == doctest::Approx(326.0074).epsilon(1e-6));
}

// wizedu.com, question 8099: 70 a day, four days, a deviation of 15 over all of them: 7.5 of a day. 24.75,
// taken as 25.
TEST_CASE("seventy a day and four days' wait: order at 305, 25 of them for safety") {
  UseStatistics const use{70, 7.5, 4, 0};
  CHECK(safety_stock(use, z_is_1_65) == near(24.75));
  CHECK(std::ceil(safety_stock(use, z_is_1_65)) == 25);
  CHECK(std::ceil(reorder_point(use, z_is_1_65)) == 305);
  CHECK(std::ceil(reorder_point(use, 0.95)) == 305);
}

// Heizer and Render, chapter 12, page 543 (as at fdocuments.net/document/copia-56072dfca4b34): 60 a week, six
// weeks with a deviation of two, 90 %, z 1.28. A week is the day here.
TEST_CASE("a wait that varies: order at 514, 153.6 of them for safety") {
  UseStatistics const use{60, 0, 6, 2};
  CHECK(safety_stock(use, z_is_1_28) == near(153.6));
  CHECK(reorder_point(use, z_is_1_28) == near(513.6));
  CHECK(std::ceil(reorder_point(use, 0.90)) == 514);
}

// csr.engine.ac.nz/encuentra/14280353: keeping costs 25 % of 10 a year.
TEST_CASE("a thousand a year at 150 an order: 346") {
  CHECK(order_size(1000, 150, 2.50) == doctest::Approx(346.41).epsilon(1e-5));
}
