// What a parcel costs: which mass counts, which band and which insurance hold it.
#include "engine/pricing/carriage.h"

#include "told.h"

#include <boost/multiprecision/cpp_int.hpp>
#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <optional>

using namespace endband;
using endband::testing::Told;

namespace {

using Whole = boost::multiprecision::cpp_int;
using Exact = boost::multiprecision::cpp_rational;

Money eur(std::int64_t minor) { return {minor, read_currency("EUR").value()}; }
Mass kg(std::string const& number) { return read_mass(number + " kg").value(); }
Mass lb(int pounds) { return read_mass(std::to_string(pounds) + " lb").value(); }
std::array<Length, 3> sides(std::string_view unit, std::array<std::string, 3> const& numbers) {
  std::array<Length, 3> all;
  std::transform(numbers.begin(), numbers.end(), all.begin(), [&](std::string const& number) {
    return read_length(number + ' ' + std::string(unit)).value();
  });
  return all;
}

// Everywhere, up to 30 kg, for the next whole kilogram in euros.
CarriageService by_the_kilogram() {
  CarriageService service;
  service.divisor = 5000;
  service.zones = {{{"*"}, {}}};
  for (int n = 1; n <= 30; ++n)
    service.zones[0].bands.push_back({Mass{n * std::int64_t{1'000'000}}, eur(n * 100)});
  service.cover = service.excess = eur(0);
  return service;
}

// 139 cubic inches to the pound, exactly: 1 in = 2.54 cm, 1 lb = 0.45359237 kg.
Ratio const cubic_inches_139 = Ratio(139) * Ratio(16'387'064, 1'000'000) / Ratio(45'359'237, 100'000'000);

// The same by pounds: as many euros as pounds, each begun one whole.
CarriageService by_the_pound() {
  CarriageService service = by_the_kilogram();
  service.divisor = cubic_inches_139;
  service.zones[0].bands.clear();
  for (int n = 1; n <= 60; ++n) service.zones[0].bands.push_back({lb(n), eur(n * 100)});
  return service;
}

Carriage sent(CarriageService const& service, Consignment const& parcel) {
  return carriage_of(service, parcel, "DE", eur(0)).value();
}

// Hundredths of a pound.
std::int64_t centipounds(Mass mass) {
  return round_product(mass.n, Ratio(10'000, 45'359'237), Rounding::half_away);
}

Told told_of(CarriageService const& service, Consignment const& parcel, std::string_view country,
             Money value) {
  Told all;
  auto const read = carriage_of(service, parcel, country, value);
  if (!read)
    for (Fault const& fault : read.error())
      all.push_back(fault.where.field + ": " + fault.found + ": " + fault.expected);
  return all;
}

Consignment const light{kg("0.1"), sides("cm", {"10", "10", "10"})};

}  // namespace

// DHL Express, goglobal.dhl-usa.com and dhlexpressestonia.ee, volumetric weight: cm3 / 5,000 is kg. The
// parcel of 40 x 30 x 20 cm is 24,000 / 5,000 = 4.8 kg.
TEST_CASE("a parcel of 40 x 30 x 20 cm counts 4.8 kg") {
  Carriage const carriage = sent(by_the_kilogram(), {kg("3.9"), sides("cm", {"40", "30", "20"})});
  CHECK(carriage.volumetric == kg("4.8"));
  CHECK(carriage.counted == kg("4.8"));
  CHECK(carriage.mass == kg("3.9"));
  CHECK(carriage.price == eur(5'00));
}

// UPS, ups.com dim_weight.html: any fraction of a kilogram up to the next whole one; billable is the larger
// of the dimensional and the actual weight.
TEST_CASE("what counts is the larger mass, raised to the step") {
  CarriageService service = by_the_kilogram();
  service.step = kg("1");
  CHECK(sent(service, {kg("3.9"), sides("cm", {"40", "30", "20"})}).counted == kg("5"));
  CHECK(sent(service, {kg("5.000001"), sides("cm", {"40", "30", "20"})}).counted == kg("6"));
  CHECK(sent(service, {kg("5"), sides("cm", {"40", "30", "20"})}).counted == kg("5"));
  CHECK(sent(service, {kg("7.2"), sides("cm", {"40", "30", "20"})}).price == eur(8'00));
  service.step = kg("0.5");
  CHECK(sent(service, {kg("4.1"), sides("cm", {"40", "30", "20"})}).counted == kg("5"));
  CHECK(sent(service, {kg("1.2"), sides("cm", {"10", "10", "10"})}).counted == kg("1.5"));
}

// Published examples of in3 / 139 in pounds: 12 x 12 x 12 in, 12.43 (clevercalculator.com prints 12.4);
// 20 x 15 x 10 in, 21.58, billed 22 lb (pallently.pages.dev); 16 x 12 x 8 in, 11.05 (metricrig.com).
TEST_CASE("parcels in inches and pounds count as published") {
  CarriageService const service = by_the_pound();
  auto const of = [&](std::array<std::string, 3> const& inches) {
    return sent(service, {lb(1), sides("in", inches)});
  };
  CHECK(centipounds(of({"12", "12", "12"}).volumetric) == 12'43);
  CHECK(centipounds(of({"20", "15", "10"}).volumetric) == 21'58);
  CHECK(of({"20", "15", "10"}).price == eur(22'00));
  CHECK(centipounds(of({"16", "12", "8"}).volumetric) == 11'05);
  CHECK(of({"16", "12", "8"}).price == eur(12'00));
}

// 139 x 16.387064 / 0.45359237 = 5,021.7: near 5,000, and not the same.
TEST_CASE("139 cubic inches to the pound are not 5000 cubic centimetres to the kilogram") {
  CHECK(round(cubic_inches_139 * Ratio(10), Rounding::half_away) == 50'217);
  CarriageService metric = by_the_kilogram();
  Consignment const parcel{kg("0.1"), sides("in", {"20", "15", "10"})};
  CHECK(sent(metric, parcel).volumetric.n == 9'832'239);  // 3000 x 16.387064 / 5000 = 9.8322384 kg
  metric.divisor = cubic_inches_139;
  CHECK(sent(metric, parcel).volumetric.n == 9'789'764);  // 3000 / 139 x 0.45359237 = 9.78976338... kg
}

// UPS, ups.com: each side to the nearest whole one, 1.00 to 1.49 to 1 and 1.50 to 1.99 to 2; since 2025 both
// large American carriers raise each side.
TEST_CASE("sides are rounded to whole centimetres as the service says") {
  CarriageService service = by_the_kilogram();
  auto const volumetric = [&](SideRounding rounding, std::array<std::string, 3> const& mm) {
    service.sides = rounding;
    return sent(service, {kg("0.1"), sides("mm", mm)}).volumetric.n;
  };
  std::int64_t const a_cm3 = 200;  // milligrams: 1 kg / 5000
  CHECK(volumetric(SideRounding::nearest, {"14.9", "10", "10"}) == 1 * a_cm3);
  CHECK(volumetric(SideRounding::nearest, {"15", "10", "10"}) == 2 * a_cm3);
  CHECK(volumetric(SideRounding::nearest, {"404", "305", "196"}) == 40 * 31 * 20 * a_cm3);
  CHECK(volumetric(SideRounding::up, {"404", "305", "196"}) == 41 * 31 * 20 * a_cm3);
  CHECK(volumetric(SideRounding::up, {"400", "300", "200.0010"}) == 40 * 30 * 21 * a_cm3);
  CHECK(volumetric(SideRounding::exact, {"404", "305", "196"}) == 4'830'224);    // 24151.12 cm3 / 5000
  CHECK(volumetric(SideRounding::exact, {"10", "10", "10.0010"}) == a_cm3 + 1);  // raised to the milligram
}

TEST_CASE("size does not count without a divisor") {
  CarriageService service = by_the_kilogram();
  service.divisor = 0;
  Carriage const carriage = sent(service, {kg("0.8"), sides("cm", {"90", "90", "90"})});
  CHECK(carriage.volumetric == Mass{});
  CHECK(carriage.counted == kg("0.8"));
  CHECK(sent(service, {kg("0.8"), {}}).price == eur(1'00));
}

TEST_CASE("a country's own zone goes before everywhere else") {
  CarriageService service = by_the_kilogram();
  service.zones.push_back({{"DE", "AT"}, {{kg("2"), eur(4'20)}}});
  auto const price = [&](std::string_view country) {
    return carriage_of(service, light, country, eur(0)).value().price;
  };
  CHECK(price("AT") == eur(4'20));
  CHECK(price("DE") == eur(4'20));
  CHECK(price("NL") == eur(1'00));
  CHECK(price("*") == eur(1'00));
}

TEST_CASE("a value is covered, or insured by the first band that reaches it") {
  CarriageService service = by_the_kilogram();
  service.cover = eur(100'00);
  service.insurance = {{eur(500'00), eur(2'50)}, {eur(1'000'00), eur(5'00)}};
  auto const insured = [&](std::int64_t value) {
    Carriage const carriage = carriage_of(service, light, "DE", eur(value)).value();
    CHECK(carriage.total() == carriage.price + carriage.insurance);
    return std::pair(carriage.insurance, carriage.insured);
  };
  CHECK(insured(0) == std::pair(eur(0), eur(100'00)));
  CHECK(insured(100'00) == std::pair(eur(0), eur(100'00)));
  CHECK(insured(100'01) == std::pair(eur(2'50), eur(100'01)));
  CHECK(insured(500'00) == std::pair(eur(2'50), eur(500'00)));
  CHECK(insured(500'01) == std::pair(eur(5'00), eur(500'01)));
  CHECK(told_of(service, light, "DE", eur(1'000'01)) ==
        Told{"value: 1000.01 EUR: at most 1000.00 EUR, the most that this service insures"});
  service.insurance.clear();
  CHECK(told_of(service, light, "DE", eur(100'01)) ==
        Told{"value: 100.01 EUR: at most 100.00 EUR, the most that this service insures"});
}

TEST_CASE("what cannot be sent is told at once, with what could") {
  CarriageService service = by_the_kilogram();
  service.zones = {{{"DE", "AT"}, {{kg("2"), eur(4'20)}, {kg("2.5"), eur(5'00)}}}};
  service.longest = read_length("60 cm").value();
  CHECK(told_of(service, {kg("2.500001"), light.sides}, "AT", eur(0)) ==
        Told{"mass: 2.500001 kg that count: at most 2.5 kg to AT"});
  CHECK(told_of(service, {kg("2.5"), sides("cm", {"60", "1", "1"})}, "AT", eur(0)) == Told{});
  CHECK(told_of(service, {kg("1"), sides("cm", {"60.01", "1", "1"})}, "AT", eur(0)) ==
        Told{"size: 600.1 mm: at most 600 mm, the longest side that this service takes"});
  CHECK(told_of(service, light, "NL", eur(0)) ==
        Told{"country: NL: a destination of this service, which goes to AT, DE"});
  CHECK(told_of(service, light, "", eur(0)).size() == 1);
  CHECK(told_of(service, {Mass{}, {}}, "NL", eur(1)) ==
        Told{"mass: 0 kg: more than nothing",
             "size: 0 mm: three sides of more than nothing, as this service counts the size",
             "country: NL: a destination of this service, which goes to AT, DE",
             "value: 0.01 EUR: at most 0.00 EUR, the most that this service insures"});
}

TEST_CASE("a parcel that is too heavy by its size alone says so") {
  CarriageService service = by_the_kilogram();
  CHECK(told_of(service, {kg("1"), sides("cm", {"100", "100", "100"})}, "DE", eur(0)) ==
        Told{"mass: 200 kg that count: at most 30 kg to DE"});
}

namespace {

struct Tried {
  CarriageService service;
  Consignment parcel;
};

// Parcels of up to 90 cm and 36 kg, with what lies on and beside a centimetre, a step and a band tried often.
Tried tried() {
  auto const near = [](std::int64_t unit, std::int64_t most) {
    std::int64_t const whole = *rc::gen::inRange<std::int64_t>(1, most / unit) * unit;
    return *rc::gen::weightedOneOf<std::int64_t>({{1, rc::gen::inRange<std::int64_t>(1, most)},
                                                  {1, rc::gen::inRange(whole - 1, whole + 2)},
                                                  {1, rc::gen::just(whole - unit / 2)}});
  };
  Tried made{by_the_kilogram(), {{near(250'000, 36'000'000)}, {}}};
  for (Length& side : made.parcel.sides) side = {near(10'000, 900'000)};
  made.service.divisor =
      *rc::gen::element(Ratio(5000), Ratio(4000), Ratio(6000), cubic_inches_139, Ratio(10'001, 2), Ratio(0));
  made.service.sides = *rc::gen::element(SideRounding::exact, SideRounding::nearest, SideRounding::up);
  made.service.step = {*rc::gen::element<std::int64_t>(0, 1, 500'000, 1'000'000, 453'592)};
  return made;
}

Exact in_cm(Length side, SideRounding rounding) {
  Exact const cm(side.n, 10'000);
  if (rounding == SideRounding::exact) return cm;
  Exact const shifted =
      rounding == SideRounding::nearest ? Exact(cm + Exact(1, 2)) : Exact(cm + Exact(9'999, 10'000));
  return Exact(Whole(numerator(shifted) / denominator(shifted)));
}

// The least whole number of milligrams that is no less.
std::int64_t whole_up(Exact const& mg) {
  Whole const floor = numerator(mg) / denominator(mg);
  return static_cast<std::int64_t>(Exact(floor) == mg ? floor : Whole(floor + 1));
}

Exact volumetric_mg(Tried const& tried) {
  Ratio const divisor = tried.service.divisor;
  if (divisor == Ratio(0)) return 0;
  Exact cm3 = 1;
  for (Length const side : tried.parcel.sides) cm3 *= in_cm(side, tried.service.sides);
  return cm3 * 1'000'000 / Exact(divisor.num(), divisor.den());
}

}  // namespace

TEST_CASE("every parcel counts what exact fractions say, and takes the cheapest band that holds it") {
  CHECK(rc::check([] {
    Tried const made = tried();
    Exact const volumetric = volumetric_mg(made);
    std::int64_t counted = std::max(made.parcel.mass.n, whole_up(volumetric));
    while (made.service.step.n > 1 && counted % made.service.step.n != 0)  // at most one step further
      counted += made.service.step.n - counted % made.service.step.n;
    auto const read = carriage_of(made.service, made.parcel, "DE", eur(0));
    RC_ASSERT(read.has_value() == (counted <= 30'000'000));
    if (!read) return;
    RC_ASSERT(read->volumetric.n == whole_up(volumetric));
    RC_ASSERT(read->counted.n == counted);
    RC_ASSERT(read->price == eur((counted + 999'999) / 1'000'000 * 100));
  }));
}

TEST_CASE("a heavier or larger parcel, or a dearer one, never costs less") {
  CHECK(rc::check([] {
    Tried less = tried();
    less.service.insurance = {{eur(500'00), eur(2'50)}, {eur(1'000'00), eur(5'00)}};
    Consignment more = less.parcel;
    more.mass.n += *rc::gen::inRange(0, 3'000'000);
    more.sides[1].n += *rc::gen::inRange(0, 100'000);
    Money const value = eur(*rc::gen::inRange(0, 900'00));
    Money const dearer = value + eur(*rc::gen::inRange(0, 100'00));
    auto const small = carriage_of(less.service, less.parcel, "DE", value);
    auto const large = carriage_of(less.service, more, "DE", dearer);
    if (!small) RC_ASSERT(!large);
    if (large) RC_ASSERT(small->total() <= large->total());
  }));
}
