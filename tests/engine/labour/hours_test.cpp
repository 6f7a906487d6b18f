#include "engine/labour/hours.h"

#include "work.h"

#include <doctest/doctest.h>

#include <cmath>
#include <stdexcept>

using namespace endband::testing;
using doctest::Approx;
using endband::Hours;
using endband::OperationKind;
using endband::Part;
using endband::Ratio;
using endband::Work;
using endband::WorkLine;

namespace {

constexpr std::int64_t hour = 3600;

// Six, eight or sixteen hours: 9 on average; variance (9 - 6) (16 - 9) / 7 = 3 h2.
WorkLine line(Part part = Part::cover) {
  WorkLine line;
  line.kind = OperationKind::cover_book;
  line.part = part;
  line.mean_seconds = 9 * hour;
  line.low_seconds = 6 * hour;
  line.high_seconds = 16 * hour;
  return line;
}

constexpr double hour2 = static_cast<double>(hour * hour);

}  // namespace

TEST_CASE("a line has the mean of its price and the variance of beta-PERT about it") {
  Hours const hours = endband::hours_of(line());
  CHECK(hours.mean == Ratio(9 * hour));
  CHECK(hours.variance == Approx(3 * hour2));
  CHECK(endband::points_of(line()).likely == Approx(8 * hour));
}

TEST_CASE("lines add up to the hours of a part and of the book, each by itself") {
  Work const work{{line(), line(Part::boards), line()}};
  CHECK(endband::hours_of(work, Part::cover).mean == Ratio(18 * hour));
  CHECK(endband::hours_of(work, Part::cover).variance == Approx(6 * hour2));
  CHECK(endband::hours_of(work).mean == work.mean_seconds());
  CHECK(endband::hours_of(work).deviation() == Approx(3.0 * hour));
  CHECK(endband::hours_of(work, Part::stone).variance == 0);
}

TEST_CASE("the quantiles of a sum are those of a normal distribution, and never less than nothing") {
  Hours const hours{9 * hour, 4 * hour2};
  CHECK(hours.quantile(0.5) == Approx(9.0 * hour));
  CHECK(hours.quantile(0.95) == Approx((9 + 2 * 1.644854) * hour).epsilon(1e-6));  // z of every table
  CHECK(hours.quantile(0.05) == Approx((9 - 2 * 1.644854) * hour).epsilon(1e-6));
  CHECK(hours.chance_within(11 * hour) == Approx(0.8413447).epsilon(1e-6));
  CHECK(Hours{60, 3600}.quantile(0.05) == 0);
  CHECK(Hours{60, 0}.quantile(0.95) == 60);
  CHECK(Hours{60, 0}.chance_within(59) == 0);
  CHECK(Hours{60, 0}.chance_within(60) == 1);
  CHECK_THROWS_AS(hours.quantile(0), std::logic_error);
  CHECK_THROWS_AS(hours.quantile(1), std::logic_error);
}

// Of the shapes 1 and 5 (low = likely) the distribution is 1 - (1 - x)^5, of 5 and 1 it is x^5; of 3 and 3
// half lies on each side.
TEST_CASE("the quantiles of a line are those of its beta distribution") {
  WorkLine of = line();
  of.low_seconds = 0;
  of.high_seconds = 6000;
  of.mean_seconds = 1000;
  CHECK(endband::quantile(of, 0.8) == Approx(6000 * (1 - std::pow(0.2, 0.2))).epsilon(1e-9));
  of.mean_seconds = 5000;
  CHECK(endband::quantile(of, 0.8) == Approx(6000 * std::pow(0.8, 0.2)).epsilon(1e-9));
  of.mean_seconds = 3000;
  CHECK(endband::quantile(of, 0.5) == Approx(3000).epsilon(1e-9));
  of.low_seconds = of.high_seconds = of.mean_seconds;
  CHECK(endband::quantile(of, 0.3) == 3000);
}
