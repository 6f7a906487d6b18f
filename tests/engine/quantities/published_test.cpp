// Leaf and coverage against published figures; the source stands at each.
#include "tests/engine/quantities/parts.h"

#include <doctest/doctest.h>

using namespace endband;
using goods::mm;
using goods::whole;

namespace {

constexpr double square_metre = 1e12;  // square micrometres
constexpr std::int64_t square_foot = 92'903'040'000;
constexpr double us_gallon_ul = 3'785'411.784;  // 231 cubic inches of 25.4 mm

// Leaves for so many strips of so wide.
Amount leaves(std::int64_t count, Length width, Length side) {
  Structure book;
  book.strips = {parts::strips(Item::leaf_lines, Part::lines, 8, count, width, side)};
  return parts::only_need(book, goods::all()).net;
}

// Microlitres for an area at so many microlitres a square metre.
std::int64_t volume(Area area, std::int64_t spread_ul_m2) {
  Material size = goods::size();
  size.properties.spread_ul_m2 = spread_ul_m2;
  Structure book;
  book.spreads = {parts::spread(Item::leaf_size, Part::lines, 6, area)};
  return parts::only_need(book, {size}).net.n;
}

}  // namespace

// A.S. Handover, "Gold & Metal Leaf", 10 Feb 2021: 25 leaves of 80 x 80 mm cover 0.16 m2 without waste or
// overlap.
TEST_CASE("a European book of gold covers 0.160 square metres") {
  CHECK(25 * static_cast<double>(area(mm(80), mm(80)).n) / square_metre == doctest::Approx(0.160));
  CHECK(leaves(25, mm(80), mm(80)) == amount(whole(25)));
}

// Same source: imitation leaf of 140 x 140 mm in books of 25.
TEST_CASE("a book of imitation leaf covers 0.490 square metres") {
  CHECK(25 * static_cast<double>(area(mm(140), mm(140)).n) / square_metre == doctest::Approx(0.490));
  CHECK(leaves(25, mm(140), mm(140)) == amount(whole(25)));
}

// Derived from the 80 mm leaf: 16 strips of 5 mm make 1.28 m of line, a book 32 m gross.
TEST_CASE("a book of gold gives 32 metres of line of 5 mm") {
  std::int64_t const strips = 32'000 / 80;
  CHECK(leaves(strips, mm(5), mm(80)) == amount(whole(25)));
  CHECK(leaves(strips + 1, mm(5), mm(80)) == amount(whole(26)));
}

// thegildedimage.com, "All about gold leaf": a pack of 500 leaves of 3 3/8 in is 3.67 m2.
TEST_CASE("a pack of American gold is 3.67 square metres") {
  Length const side{85'725};
  CHECK(500 * static_cast<double>(area(side, side).n) / square_metre == doctest::Approx(3.67).epsilon(0.002));
  CHECK(500 * static_cast<double>(area(side, side).n) / static_cast<double>(square_foot) ==
        doctest::Approx(39.55).epsilon(0.0003));
}

// goldenleafproducts.com, slow oil size: 700 sq ft a US gallon, that is 17.18 m2 a litre.
TEST_CASE("slow oil size at its published coverage takes a gallon for 700 square feet") {
  std::int64_t const spread = 58'207;  // 1 l / 17.18 m2
  CHECK(static_cast<double>(volume(Area{700 * square_foot}, spread)) ==
        doctest::Approx(us_gallon_ul).epsilon(0.0005));
  CHECK(static_cast<double>(volume(Area{17'180'000'000'000}, spread)) ==
        doctest::Approx(1e6).epsilon(0.0005));
}

// Rust-Oleum technical data GDH-866, 2015: 400 to 600 sq ft a US gallon and coat, 9.8 to 14.7 m2 a litre.
TEST_CASE("varnish at its published coverage takes a gallon for 400 to 600 square feet") {
  CHECK(static_cast<double>(volume(Area{400 * square_foot}, 102'041)) ==
        doctest::Approx(us_gallon_ul).epsilon(0.003));
  CHECK(static_cast<double>(volume(Area{600 * square_foot}, 68'027)) ==
        doctest::Approx(us_gallon_ul).epsilon(0.003));
}

// Mulco/SICO, "Calculating quantities", 2007: 19 sq ft a litre, 71.8 sq ft for a can of 3.78 l.
TEST_CASE("a can of contact adhesive covers 71.8 square feet") {
  auto const spread = static_cast<std::int64_t>(1e6 / (19 * 0.09290304));
  std::int64_t const area = 718 * square_foot / 10;
  CHECK(static_cast<double>(volume(Area{area}, spread)) == doctest::Approx(3.78e6).epsilon(0.001));
}
