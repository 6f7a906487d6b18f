// Cost formulas of inventories on published cases: IAS 2, paragraphs 23 to 27. Quantity and value are kept; a
// rounded average never is.
#include "tests/engine/stock/ledger.h"

using namespace endband;
using ledger::value_of;

namespace {

ledger::Shelf shelf(CostFormula formula) { return {formula, {}, {}}; }
constexpr auto fifo = CostFormula::first_in_first_out;
constexpr auto average = CostFormula::moving_average;

}  // namespace

// OpenStax, Principles of Accounting, Volume 1 (Franklin, Graybeal, Cooper), sections 10.1 and 10.3 (m67889,
// m67891): the case used for all methods. 150 at 21; 120 sold; 225 at 27; 180 sold; 210 at 33; 16,155 in all.
TEST_CASE("first in first out: 7,200 sold and 8,955 on hand") {
  auto goods = shelf(fifo);
  goods.receive(150, 3150'00);
  std::int64_t sold = value_of(goods.take(120));
  CHECK(sold == 2520'00);
  goods.receive(225, 6075'00);
  sold += value_of(goods.take(180));
  goods.receive(210, 6930'00);
  CHECK(sold == 7200'00);
  CHECK(goods.quantity() == 285);
  CHECK(goods.value() == 8955'00);
}

// The same section prints 7,253 and 8,902; exact are 7,252.941 and 8,902.059. Its averages, printed 26.29
// and 31.24, are 26.294 and 31.235: 285 x 31.24 would be 8,903.40.
TEST_CASE("moving average: 7,252.94 sold and 8,902.06 on hand, which no rounded average gives") {
  auto goods = shelf(average);
  goods.receive(150, 3150'00);
  std::int64_t sold = value_of(goods.take(120));
  CHECK(sold == 2520'00);
  goods.receive(225, 6075'00);
  CHECK(goods.pool.value == 6705'00);
  CHECK(goods.pool.quantity == 255);
  sold += value_of(goods.take(180));
  goods.receive(210, 6930'00);
  CHECK(sold == 7252'94);
  CHECK(goods.value() == 8902'06);
  CHECK(sold + goods.value() == 16155'00);
}

// The same section: 120 at 21 are sold first, then 20 at 21 and 160 at 27.
TEST_CASE("specific identification: 7,260 sold and 8,895 on hand") {
  auto goods = shelf(fifo);
  goods.receive(150, 3150'00);
  std::int64_t sold = value_of(goods.take_from({goods.lots[0]}, 120));
  goods.receive(225, 6075'00);
  sold += value_of(goods.take_from({goods.lots[0]}, 20));
  sold += value_of(goods.take_from({goods.lots[1]}, 160));
  goods.receive(210, 6930'00);
  CHECK(sold == 7260'00);
  CHECK(goods.value() == 8895'00);
}

// wizedu.com, question 628894: 3,000 at 0.60; 4,000 at 0.74; 4,400 sold; 2,200 at 0.80; 2,100 sold. Its
// averages, 0.68 and 0.735, are exact. First in first out on the same figures was worked out here.
TEST_CASE("a moving average that needs no rounding: 4,535.50 sold and 1,984.50 on hand") {
  auto goods = shelf(average);
  goods.receive(3000, 1800'00);
  goods.receive(4000, 2960'00);
  std::int64_t sold = value_of(goods.take(4400));
  CHECK(sold == 2992'00);
  CHECK(goods.value() == 1768'00);
  goods.receive(2200, 1760'00);
  sold += value_of(goods.take(2100));
  CHECK(sold == 4535'50);
  CHECK(goods.quantity() == 2700);
  CHECK(goods.value() == 1984'50);
}

TEST_CASE("the same first in first out: 4,390 sold and 2,130 on hand") {
  auto goods = shelf(fifo);
  goods.receive(3000, 1800'00);
  goods.receive(4000, 2960'00);
  std::int64_t sold = value_of(goods.take(4400));
  goods.receive(2200, 1760'00);
  sold += value_of(goods.take(2100));
  CHECK(sold == 4390'00);
  CHECK(goods.value() == 2130'00);
}

// instantcertcredit.com, course 5, lesson 318: 500 for 1,200; 300 sold; 100 at 3.50; 250 sold, printed 692.50
// from an average rounded to 2.77, exactly 691.67; 300 at 4.00; printed 1,338, exactly 1,338.33.
TEST_CASE("no drift from an average rounded on the way: 691.67 and not 692.50") {
  auto goods = shelf(average);
  goods.receive(500, 1200'00);
  CHECK(value_of(goods.take(300)) == 720'00);
  goods.receive(100, 350'00);
  CHECK(value_of(goods.take(250)) == 691'67);
  goods.receive(300, 1200'00);
  CHECK(goods.quantity() == 350);
  CHECK(goods.value() == 1338'33);
}

// quizlet.com/634164174 ("Waterway Industries"): 9,200 at 9.71; 6,300 at 10.23; 7,400 sold; 8,200 at 10.69;
// 11,100 sold. On hand printed 53,602; 53,601.78 and the 187,837.22 sold were worked out here.
TEST_CASE("five thousand two hundred on hand are worth 53,601.78") {
  auto goods = shelf(average);
  goods.receive(9200, 89'332'00);
  goods.receive(6300, 64'449'00);
  std::int64_t sold = value_of(goods.take(7400));
  goods.receive(8200, 87'658'00);
  sold += value_of(goods.take(11'100));
  CHECK(goods.quantity() == 5200);
  CHECK(goods.value() == 53'601'78);
  CHECK(sold == 187'837'22);
  CHECK(sold + goods.value() == 241'439'00);
}

// ifrscommunity.com on IAS 2, as copied at wp.cuong.cc: 1,000 at 10; 300 at 9.5; 200 at 9.7; 400 at 9.6;
// 1,400 sold. Its answer was not seen; it was worked out here.
TEST_CASE("five hundred left, first in first out, are worth 4,810") {
  auto goods = shelf(fifo);
  goods.receive(1000, 10'000'00);
  goods.receive(300, 2850'00);
  goods.receive(200, 1940'00);
  goods.receive(400, 3840'00);
  CHECK(value_of(goods.take(1400)) == 13'820'00);
  CHECK(goods.quantity() == 500);
  CHECK(goods.value() == 4810'00);
}

// Kaplan, CIMA F1 Integrated Workbook 2018, page 221: 200, 100 at 18 and 150 at 20 bought, 250 sold, 3,900
// left. The cost of the first 200, which are all sold, was not seen: whatever it is.
TEST_CASE("two hundred left, first in first out, are worth 3,900 whatever the first cost") {
  for (std::int64_t const first : {0, 1, 3400'00, 9'999'99}) {
    auto goods = shelf(fifo);
    goods.receive(200, first);
    goods.receive(100, 1800'00);
    goods.receive(150, 3000'00);
    CHECK(value_of(goods.take(250)) == first + 900'00);
    CHECK(goods.value() == 3900'00);
  }
}

// OpenStax, the same section (m67891), exercise A76: 240 at 100; 160 sold; 520 at 103; 400 sold; 400 at 110;
// 370 sold. The answers were worked out here, the book prints none: 96,260 and 25,300 first in first out.
namespace {

std::int64_t sold_of_a76(ledger::Shelf& goods) {
  goods.receive(240, 24'000'00);
  std::int64_t sold = value_of(goods.take(160));
  goods.receive(520, 53'560'00);
  sold += value_of(goods.take(400));
  goods.receive(400, 44'000'00);
  return sold + value_of(goods.take(370));
}

}  // namespace

TEST_CASE("two hundred and thirty left, first in first out, are worth 25,300") {
  auto goods = shelf(fifo);
  CHECK(sold_of_a76(goods) == 96'260'00);
  CHECK(goods.quantity() == 230);
  CHECK(goods.value() == 25'300'00);
}

// At the average 96,827 1/3 and 24,732 2/3. The last 370 come out of two receipts, 200 for 21,506 2/3 and 170
// for 18,280 2/3, and each posting is rounded: a minor unit more is sold, and that much less is left.
TEST_CASE(
    "two hundred and thirty left, at the average, are worth 24,732.67 less the minor unit that two postings "
    "round up") {
  auto goods = shelf(average);
  std::int64_t const sold = sold_of_a76(goods);
  CHECK(sold == 96'827'34);
  CHECK(goods.value() == 24'732'66);
  CHECK(sold + goods.value() == 121'560'00);
}
