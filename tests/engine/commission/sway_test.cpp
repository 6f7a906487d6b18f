// What a change of one input does, by hand and against sums of exact fractions.
#include "engine/commission/sway.h"

#include "quotes.h"
#include "tests/cases.h"

#include <boost/multiprecision/cpp_int.hpp>
#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <map>

using namespace endband;
using namespace endband::testing;
using boost::multiprecision::cpp_rational;

namespace {

BillLine a_piece(std::int64_t id, std::int64_t minor) {
  BillLine line = bill_line(id, Charging::as_used, Part::cover);
  line.net = line.opened = line.charged = pieces(1000);
  line.spoil = line.cutting_loss = line.kept = line.pack_remainder = pieces(0);
  line.uses = {{Item::cover_leather, Part::cover, pieces(1000)}};
  line.unit = {minor, pieces(1000), euro()};
  return line;
}

// Materials 100, ten hours at 20 and overhead of 5 each: 350. At a margin of 30 % that is 500; a die of 85
// stands beside it at cost.
FrozenQuote plain() {
  FrozenQuote quote = quote_without_results();
  quote.bill.lines = {a_piece(1, 100'00)};
  quote.work.lines = {work_line(OperationKind::sew_sections, 10 * seconds_an_hour, Part::sewing)};
  quote.outside = {outside("a die", eur(85'00), true)};
  quote.shop.basis = {eur(20'000'00), eur(0), eur(5'000'00), {1'000 * seconds_an_hour}};
  quote.shop.contingency = 0;
  quote.shop.least_charge = eur(0);
  quote.selling = {.points = {1, 0}, .tax = {}, .deposit = {{40, 100}, 1}};
  quote.delivery = {eur(0), ""};
  return quote;
}

Sway const* find(std::vector<Sway> const& list, SwayOf of) {
  auto const it = std::find_if(list.begin(), list.end(), [&](Sway const& sway) { return sway.of == of; });
  return it == list.end() ? nullptr : &*it;
}

Outlet a_marketplace(Currency currency, Ratio share) {
  Outlet outlet;
  outlet.code = "saltmarket";
  outlet.name = "Saltmarket";
  outlet.kind = OutletKind::marketplace;
  outlet.currency = currency;
  Fee fee;
  fee.name = "of the sale";
  fee.steps = {{{0, currency}, share}};
  fee.fixed = {30, currency};
  outlet.fees = {fee};
  return outlet;
}

}  // namespace

TEST_CASE("a tenth more of each input, by hand") {
  auto const list = sways(plain(), {1, 10}).value();
  struct Expected {
    SwayOf of;
    std::int64_t left, price;
    Ratio margin;
  };
  // Left of 500.00: 150.00, less what is more; price: the raised cost / 0.7, rounded up, less 500.00; what
  // stands at cost is passed on as it is.
  std::vector<Expected> const expected{{SwayOf::hours, -25'00, 35'72, {125'00, 500'00}},
                                       {SwayOf::rate, -20'00, 28'58, {130'00, 500'00}},
                                       {SwayOf::material, -10'00, 14'29, {140'00, 500'00}},
                                       {SwayOf::outside, -8'50, 8'50, {150'00 - 8'50, 500'00 - 8'50}},
                                       {SwayOf::overhead, -5'00, 7'15, {145'00, 500'00}}};
  REQUIRE(list.size() == expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) {
    CAPTURE(sway_name(expected[i].of));
    CHECK(list[i].of == expected[i].of);
    CHECK(list[i].left == eur(expected[i].left));
    CHECK(list[i].price == eur(expected[i].price));
    CHECK(list[i].margin == expected[i].margin);
  }
  CHECK(list[2].material == MaterialId{1});
}

TEST_CASE("a tenth less is told too, and nothing less of nothing") {
  auto const list = sways(plain(), {-1, 10}).value();
  CHECK(find(list, SwayOf::hours)->left == eur(25'00));
  CHECK(find(list, SwayOf::hours)->price == eur(-35'71));  // 325 / 0.7, rounded up, less 500
  CHECK(sways(plain(), 0)->empty());
  CHECK_THROWS_AS(sways(plain(), Ratio(-1)), std::logic_error);
}

TEST_CASE("two lines of one material are raised together, and what the customer brings is not") {
  FrozenQuote quote = plain();
  quote.bill.lines = {a_piece(1, 60'00), a_piece(1, 40'00), a_piece(2, 50'00)};
  quote.bill.lines[2].customer_supplied = true;
  auto const list = sways(quote, {1, 10}).value();
  CHECK(std::count_if(list.begin(), list.end(), [](Sway const& s) { return s.of == SwayOf::material; }) == 1);
  CHECK(find(list, SwayOf::material)->left == eur(-10'00));
}

TEST_CASE("a line's own pay is pay too") {
  FrozenQuote quote = plain();
  quote.work.lines.push_back(work_line(OperationKind::pare_edges, 2 * seconds_an_hour, Part::cover));
  quote.work.lines.back().rate = eur(30'00);
  auto const list = sways(quote, {1, 10}).value();
  CHECK(find(list, SwayOf::rate)->left == eur(-26'00));   // a tenth of 200 + 60
  CHECK(find(list, SwayOf::hours)->left == eur(-32'00));  // and of 12 h x 5
}

TEST_CASE("a fee is raised in its share and its fixed sum") {
  FrozenQuote quote = plain();
  quote.selling.outlet = a_marketplace(euro(), {10, 100});
  Offer const offered = replay(quote).value();
  auto const list = sways(quote, {1, 10}).value();
  Sway const* const fee = find(list, SwayOf::fee);
  REQUIRE(fee != nullptr);
  CHECK(fee->name == "of the sale");
  // 10 % and 0.30 become 11 % and 0.33; each share is rounded by itself.
  std::int64_t const before = (offered.goods.minor * 10 + 50) / 100;
  std::int64_t const after = (offered.goods.minor * 11 + 50) / 100;
  CHECK(fee->left == eur(-(after - before + 3)));
  CHECK(fee->price.minor > -fee->left.minor);
  CHECK(find(list, SwayOf::exchange) == nullptr);
}

TEST_CASE("a currency that buys more of the workshop's leaves more") {
  FrozenQuote quote = plain();
  Currency const dollars = read_currency("USD").value();
  quote.selling.outlet = a_marketplace(dollars, {10, 100});
  quote.selling.outlet->exchange = {{9, 10}, {1, 100}};
  auto const list = sways(quote, {1, 10}).value();
  Sway const* const exchange = find(list, SwayOf::exchange);
  REQUIRE(exchange != nullptr);
  Walk const walk = replay(quote)->walk;
  // The payout x 0.9 x 0.99 becomes x 0.99 x 0.99: a tenth of what was received, but for roundings.
  CHECK(exchange->left.minor >= walk.received.minor / 10 - 2);
  CHECK(exchange->left.minor <= walk.received.minor / 10 + 2);
  CHECK(exchange->left.currency == euro());
}

TEST_CASE("a fee that would take all is refused") {
  FrozenQuote quote = plain();
  quote.selling.outlet = a_marketplace(euro(), {30, 100});
  auto const list = sways(quote, {5, 2});
  REQUIRE_FALSE(list.has_value());
  CHECK(list.error().front().code == FaultCode::bad_goal);
  CHECK(list.error().front().found == "of the sale");
}

TEST_CASE("a quote whose goal cannot be met has its fault") {
  FrozenQuote quote = plain();
  quote.goal = MarginGoal{{11, 10}};
  CHECK(sways(quote, {1, 10}).error().front().code == FaultCode::bad_goal);
}

TEST_CASE("a cost beyond money is told") {
  FrozenQuote quote = plain();
  quote.outside.front().price = eur(9'000'000'000'000'000'000);
  CHECK(sways(quote, {1, 10}).error().front().code == FaultCode::too_large);
}

namespace {

std::int64_t half_away(cpp_rational const& value) {
  boost::multiprecision::cpp_int const twice = numerator(value) * 2 + denominator(value);
  return static_cast<std::int64_t>(twice / (denominator(value) * 2));  // of what is not negative
}

cpp_rational of(Ratio ratio) { return {ratio.num(), ratio.den()}; }

struct Raised {
  std::map<std::int64_t, cpp_rational> material = {};
  cpp_rational hours = 1, rate = 1, overhead = 1, outside = 1;
};

// The cost of a quote without allowances, each line rounded once.
std::int64_t cost_of_all(FrozenQuote const& quote, Raised const& raised) {
  std::int64_t sum = 0;
  for (BillLine const& line : quote.bill.lines) {
    auto const it = raised.material.find(line.material.value);
    cpp_rational const factor = it == raised.material.end() ? cpp_rational(1) : it->second;
    sum += half_away(cpp_rational(line.charged.n) * line.unit.minor / line.unit.pack.n * factor);
  }
  RateBasis const& basis = quote.shop.basis;
  cpp_rational const pay =
      cpp_rational(basis.pay_wanted.minor + basis.charges_on_pay.minor) / basis.hours_charged.n;
  cpp_rational seconds = 0;
  for (WorkLine const& line : quote.work.lines) {
    seconds += of(line.mean_seconds) * raised.hours;
    sum += half_away(of(line.mean_seconds) * raised.hours * pay * raised.rate);
  }
  sum += half_away(seconds * basis.overhead.minor / basis.hours_charged.n * raised.overhead);
  for (Outside const& work : quote.outside) sum += half_away(cpp_rational(work.price.minor) * raised.outside);
  return sum;
}

FrozenQuote any_quote() {
  FrozenQuote quote = plain();
  quote.bill.lines.clear();
  for (int i = 0; i < 4; ++i) {
    BillLine line = a_piece(1 + i % 3, *rc::gen::inRange<std::int64_t>(1, 900'00));
    line.unit.pack.n = *rc::gen::inRange<std::int64_t>(1, 90'000);
    quote.bill.lines.push_back(line);
  }
  quote.work.lines.clear();
  for (int i = 0; i < 4; ++i) {
    WorkLine line = work_line(OperationKind::sew_sections, 1, Part::sewing);
    line.mean_seconds = {*rc::gen::inRange<std::int64_t>(1, 200'000), *rc::gen::inRange<std::int64_t>(1, 7)};
    quote.work.lines.push_back(line);
  }
  quote.outside = {outside("a die", eur(*rc::gen::inRange<std::int64_t>(0, 200'00)), true),
                   outside("edge gilding", eur(*rc::gen::inRange<std::int64_t>(0, 200'00)), false)};
  quote.shop.basis = {eur(*rc::gen::inRange<std::int64_t>(1, 40'000'00)),
                      eur(*rc::gen::inRange<std::int64_t>(0, 9'000'00)),
                      eur(*rc::gen::inRange<std::int64_t>(0, 9'000'00)),
                      {*rc::gen::inRange<std::int64_t>(3'600, 4'000'000)}};
  return quote;
}

Ratio any_change() {
  return {*rc::gen::inRange<std::int64_t>(1, 60), *rc::gen::inRange<std::int64_t>(60, 120)};
}

}  // namespace

TEST_CASE("what is left changes by what the cost changes, to the minor unit") {
  CHECK(endband::testing::check_one_in(10, [] {
    FrozenQuote const quote = any_quote();
    Ratio const change = any_change();
    cpp_rational const factor = of(change) + 1;
    auto const list = sways(quote, change).value();
    std::int64_t const before = cost_of_all(quote, {});
    auto const expect = [&](SwayOf input, Raised const& raised, std::int64_t material = 0) {
      auto const it = std::find_if(list.begin(), list.end(), [&](Sway const& sway) {
        return sway.of == input && sway.material.value == material;
      });
      std::int64_t const less = cost_of_all(quote, raised) - before;
      RC_ASSERT((it == list.end() ? 0 : -it->left.minor) == less);
    };
    for (std::int64_t material = 1; material <= 3; ++material)
      expect(SwayOf::material, {.material = {{material, factor}}}, material);
    expect(SwayOf::hours, {.hours = factor});
    expect(SwayOf::rate, {.rate = factor});
    expect(SwayOf::overhead, {.overhead = factor});
    expect(SwayOf::outside, {.outside = factor});
  }));
}

TEST_CASE("raising what costs never leaves more, wherever it is sold") {
  CHECK(rc::check([] {
    FrozenQuote quote = any_quote();
    for (BillLine& line : quote.bill.lines) line.ruin_chance = {*rc::gen::inRange<std::int64_t>(0, 20), 100};
    for (Outside& work : quote.outside) work.redo = {*rc::gen::inRange<std::int64_t>(0, 20), 100};
    quote.shop.contingency = {*rc::gen::inRange<std::int64_t>(0, 15), 100};
    quote.delivery.carriage = eur(*rc::gen::inRange<std::int64_t>(0, 20'00));
    quote.selling.tax = {
        *rc::gen::element(TaxMode::none, TaxMode::added, TaxMode::included), {19, 100}, "VAT"};
    quote.goal = MarginGoal{{*rc::gen::inRange<std::int64_t>(0, 30), 100}};
    bool const away = *rc::gen::arbitrary<bool>();
    bool const sold_there = *rc::gen::arbitrary<bool>();
    Currency const currency = away ? read_currency("USD").value() : euro();
    if (sold_there) {
      quote.selling.outlet = a_marketplace(currency, {*rc::gen::inRange<std::int64_t>(0, 20), 100});
      Fee payment = quote.selling.outlet->fees.front();
      payment.name = "of the payment";
      payment.base = FeeBase::paid;
      payment.most = Money{20'00, currency};
      quote.selling.outlet->fees.push_back(payment);
      if (away) quote.selling.outlet->exchange = {{9, 10}, {1, 100}};
    }
    auto const list = sways(quote, any_change());
    RC_CLASSIFY(list.has_value(), "priced");
    RC_CLASSIFY(sold_there, "with fees");
    if (!list) return;
    Money last = eur(0);
    for (std::size_t i = 0; i < list->size(); ++i) {
      Sway const& sway = list->at(i);
      Money const size = sway.left.minor < 0 ? -sway.left : sway.left;
      RC_ASSERT((i == 0 || size <= last));  // the largest first
      last = size;
      if (sway.of == SwayOf::exchange || sway.of == SwayOf::carriage) continue;
      RC_ASSERT(sway.left.minor <= 0);
    }
  }));
}

TEST_CASE("every input has a name of its own") {
  std::map<std::string_view, int> names;
  for (int i = 0; i < 8; ++i) ++names[sway_name(static_cast<SwayOf>(i))];
  CHECK(names.size() == 8);
  CHECK(names.contains("exchange"));
}
