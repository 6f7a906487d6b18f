// Linen thread numbers, against Etherington and Roberts, "sewing thread" (dt3050), and J. Peachey, "What do
// the sizes of linen thread actually mean?" (jeffpeachey.com, 12 November 2019).
#include "engine/measure/measure.h"

#include <doctest/doctest.h>

using endband::Ratio;
using endband::Rounding;

namespace {

Ratio const grams_per_pound(45'359'237, 100'000);
Ratio const metres_per_yard(9'144, 10'000);

Ratio tex_of(std::string_view number) { return tex(endband::read_thread_number(number).value()); }

// yd/lb = (m/g) x (g/lb) / (m/yd), and m/g = 1000 / tex.
Ratio yards_per_pound(std::string_view number) {
  return Ratio(1000) / tex_of(number) * grams_per_pound / metres_per_yard;
}

std::int64_t thousandths(Ratio value) { return round_product(value, 1000, Rounding::half_away); }

Ratio metres_on_reel(std::string_view number, std::int64_t grams) {
  return Ratio(1000) / tex_of(number) * Ratio(grams);
}

}  // namespace

// E&R: No. 16 has 4,800 yards to the pound, No. 50 15,000.
TEST_CASE("a single yarn has its number times three hundred yards to the pound") {
  CHECK(yards_per_pound("16") == Ratio(4'800));
  CHECK(yards_per_pound("50") == Ratio(15'000));
}

// By E&R's rule for plied thread, 16-4 being four cords of No. 16.
TEST_CASE("eighteen three-cord and twenty-five three-cord") {
  CHECK(yards_per_pound("18/3") == Ratio(1'800));
  CHECK(yards_per_pound("25/3") == Ratio(2'500));
  CHECK(thousandths(tex_of("18/3")) == 275'586);
  CHECK(thousandths(tex_of("25/3")) == 198'422);
  CHECK(round_product(metres_on_reel("18/3", 50), 10, Rounding::half_away) == 1'814);
  CHECK(round_product(metres_on_reel("25/3", 50), 10, Rounding::half_away) == 2'520);
}

// Quoted at the Don Taylor Bookbinder blog, July 2014, where 24/3 is "about 2,000" yards: the rule makes
// 2,400.
TEST_CASE("twenty-four three-cord has 2,400 yards to the pound") {
  CHECK(yards_per_pound("24/3") == Ratio(2'400));
}

// Peachey: NeL counts lengths of 300 yards to the pound, Nm metres to the gram, tex grams to the kilometre. A
// seller's page has the two the wrong way round, "1 NeL = 1.6535 Nm".
TEST_CASE("one lea is 0.604772 metric, not 1.6535") {
  Ratio const metric_of_lea = Ratio(1000) / tex_of("1");
  CHECK(round_product(metric_of_lea, 1'000'000, Rounding::half_away) == 604'772);
  CHECK(round_product(Ratio(1) / metric_of_lea, 100'000, Rounding::half_away) == 165'352);
  CHECK(metric_of_lea < Ratio(1));
  CHECK(round_product(tex_of("1"), 10, Rounding::half_away) == 16'535);
}
