// Carriage services as their users write them down.
#include "disturbed.h"
#include "engine/pricing/terms_text.h"
#include "told.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <string>

using namespace endband;
using endband::testing::told;
using endband::testing::Told;

namespace {

Currency euro() { return read_currency("EUR").value(); }
Money eur(std::int64_t minor) { return {minor, euro()}; }
Mass kg(std::string const& number) { return read_mass(number + " kg").value(); }

Read<CarriageService> read(std::string const& text) { return read_carriage(text, "van.toml", "van", euro()); }
// The lines below the first two; the third is the first of them.
Read<CarriageService> van(std::string const& rest) { return read("endband = 1\nname = \"Van\"\n" + rest); }

CarriageService sample(std::string const& name) {
  auto const path = std::filesystem::path(ENDBAND_SOURCE_DIR) / "sample_data/carriage" / (name + ".toml");
  return read_carriage(testing::text_of(path), name, name, euro()).value();
}

std::string zone(std::string const& name, std::string const& to) {
  return "[[zones]]\nname = \"" + name + "\"\nto = \"" + to + "\"\n";
}
std::string price(std::string const& of, std::string const& up_to, std::string const& sum = "5") {
  return "[[prices]]\nzone = \"" + of + "\"\nup_to = \"" + up_to + "\"\nprice = " + sum + "\n";
}
std::string const home = zone("home", "DE") + price("home", "2 kg");  // seven lines

}  // namespace

TEST_CASE("the example of a carriage service is right as it stands") {
  auto const service = read(std::string(carriage_example()));
  CHECK(told(service) == Told{});
  REQUIRE(service);
  CHECK(service->code == "van");
  CHECK(service->divisor == Ratio(5000));
  CHECK(service->sides == SideRounding::nearest);
  CHECK(service->step == kg("0.5"));
  CHECK(service->longest == read_length("120 cm").value());
  CHECK(service->cover == eur(50'00));
  CHECK(service->excess == eur(10'00));
  REQUIRE(service->zones.size() == 2);
  CHECK(service->zones[0].countries == std::vector<std::string>{"AT", "DE"});
  CHECK(service->zones[0].bands.size() == 2);
  CHECK(service->zones[0].bands[1].up_to == kg("10"));
  CHECK(service->zones[0].bands[1].price == eur(9'40));
  CHECK(service->zones[1].countries == std::vector<std::string>{"*"});
  REQUIRE(service->insurance.size() == 1);
  CHECK(service->insurance[0].up_to == eur(500'00));
  CHECK(service->insurance[0].price == eur(3'00));
}

// A book that is sent: 1.9 kg in a carton of 31 x 24 x 12 cm counts 1.9 kg, 8,928 / 5,000 = 1.7856 kg being
// less.
TEST_CASE("every sample of a carriage service reads, and carries a book") {
  auto const paths = testing::samples("carriage");
  CHECK(paths.size() >= 2);
  for (auto const& path : paths) {
    CAPTURE(path);
    auto const service = read_carriage(testing::text_of(path), path.filename(), path.stem(), euro());
    CHECK(told(service) == Told{});
  }
  Consignment const book{kg("1.9"), {Length{310'000}, Length{240'000}, Length{120'000}}};
  Carriage const post = carriage_of(sample("wend"), book, "IE", eur(620'00)).value();
  CHECK(post.counted == kg("2"));
  CHECK(post.price == eur(17'10));
  CHECK(post.insurance == eur(5'00));
  Carriage const courier = carriage_of(sample("heron"), book, "US", eur(620'00)).value();
  CHECK(courier.price == eur(34'00));
  CHECK(courier.insurance == eur(8'00));
  CHECK(carriage_of(sample("wend"), book, "US", eur(0)).value().price == eur(38'00));
  CHECK_FALSE(carriage_of(sample("heron"), book, "JP", eur(0)));
}

TEST_CASE("what a carriage service does not say is nothing") {
  auto const service = van(home);
  REQUIRE(service);
  CHECK(service->divisor == Ratio(0));
  CHECK(service->sides == SideRounding::exact);
  CHECK(service->step == Mass{});
  CHECK_FALSE(service->longest);
  CHECK(service->cover == eur(0));
  CHECK(service->insurance.empty());
}

TEST_CASE("each rounding of sides is the enumerator of its name") {
  for (SideRounding const rounding : {SideRounding::exact, SideRounding::nearest, SideRounding::up})
    CHECK(van("divisor = 5000\nsides = \"" + std::string(side_rounding_name(rounding)) + "\"\n" + home)
              ->sides == rounding);
}

TEST_CASE("a divisor may be any exact number") {
  CHECK(van("divisor = \"5021.7\"\n" + home)->divisor == Ratio(50'217, 10));
  CHECK(told(van("divisor = \"5,000\"\n" + home)) == Told{"3:11 ambiguous-number divisor: 5000 or 5.000"});
  CHECK(told(van("divisor = 0\n" + home)) == Told{"3:11 out-of-range divisor: from 100 to 100000"});
  CHECK(told(van("sides = \"up\"\n" + home)) == Told{"3:9 contradiction sides: divisor = ..., or no sides"});
}

TEST_CASE("countries are parted by blanks or commas") {
  CHECK(van(zone("home", "DE,AT  NL , BE") + price("home", "1 kg"))->zones[0].countries ==
        std::vector<std::string>{"DE", "AT", "NL", "BE"});
}

TEST_CASE("masses are read in the units of price lists") {
  CHECK(van(zone("home", "DE") + price("home", "500 g") + price("home", "2 kg") + price("home", "5 lb"))
            ->zones[0]
            .bands[2]
            .up_to == Mass{2'267'962});
  CHECK(told(van(zone("home", "DE") + "[[prices]]\nzone = \"home\"\nup_to = 2\nprice = 5")) ==
        Told{"8:9 missing-unit prices[1].up_to: \"2 g\""});
}

TEST_CASE("a service without zones, a zone without prices and prices of no zone are told") {
  CHECK(told(van("")) == Told{"1:1 missing-key zones: [[zones]], one or more, and their [[prices]]"});
  CHECK(told(van(home + zone("far", "*"))) ==
        Told{"11:8 contradiction zones[2].name: [[prices]] with zone = \"far\""});
  CHECK(told(van(home + price("hom", "3 kg"))) ==
        Told{"11:8 unknown-code prices[2].zone: one of the [[zones]]: home?home"});
  CHECK(told(van(home + "[[prices]]\n")) ==
        Told{"10:1 missing-key prices[2].zone: zone = ..., the zone",
             "10:1 missing-key prices[2].up_to: up_to = ..., the heaviest parcel of this price",
             "10:1 missing-key prices[2].price: price = ..., its price without tax"});
  CHECK(told(van("[[zones]]\n")) == Told{"3:1 missing-key zones[1].name: name = ..., a code for the zone",
                                         "3:1 missing-key zones[1].to: to = ..., its countries by their two "
                                         "letters, or * for everywhere else"});
  CHECK(told(van(home + zone("home", "AT"))) == Told{"11:8 contradiction zones[2].name: a name that no other "
                                                     "zone has, as prices name their zone by it"});
}

TEST_CASE("bands that do not rise are told") {
  CHECK(
      told(van(home + price("home", "2 kg"))) ==
      Told{
          "12:9 contradiction prices[2].up_to: more than \"2000 g\", up to which the price before it holds"});
  CHECK(told(van(home + "[[insurance]]\nup_to = 0\nprice = 1")) ==
        Told{"11:9 contradiction insurance[1].up_to: more than 0.00, which is the cover"});
  CHECK(told(van("cover = 50\n" + home +
                 "[[insurance]]\nup_to = 100\nprice = 1\n[[insurance]]\nup_to = \"99.99\"\nprice = 2")) ==
        Told{"15:9 contradiction insurance[2].up_to: more than 100.00, up to which the band before it goes"});
}

TEST_CASE("each insurance is above the one before it, not the first") {
  auto const insurance = [](std::string const& up_to) {
    return "[[insurance]]\nup_to = " + up_to + "\nprice = 1\n";
  };
  CHECK(told(van(home + insurance("100") + insurance("300") + insurance("500"))) == Told{});
  CHECK(told(van(home + insurance("100") + insurance("300") + insurance("200"))) ==
        Told{"17:9 contradiction insurance[3].up_to: more than 300.00, up to which the band before it goes"});
}

TEST_CASE("a country stands in one zone, and once") {
  CHECK(told(van(home + zone("far", "AT DE *") + price("far", "1 kg"))) ==
        Told{"12:6 contradiction zones[2].to: each country in one zone; this one is in zone \"home\""});
  CHECK(told(van(zone("home", "DE DE") + price("home", "1 kg"))) ==
        Told{"5:6 contradiction zones[1].to: each country once"});
  CHECK(told(van(zone("a", "*") + zone("b", "*") + price("a", "1 kg") + price("b", "1 kg"))) ==
        Told{"8:6 contradiction zones[2].to: each country in one zone; this one is in zone \"a\""});
  CHECK(told(van(zone("home", "de; D1") + price("home", "1 kg"))) ==
        Told{"5:6 bad-value zones[1].to: a country by its two capital letters, such as DE, or * for "
             "everywhere else",
             "5:6 bad-value zones[1].to: a country by its two capital letters, such as DE, or * for "
             "everywhere else"});
  CHECK(told(van(zone("home", " , ") + price("home", "1 kg"))) ==
        Told{"5:6 bad-value zones[1].to: countries by their two letters, such as \"AT DE\", or \"*\""});
}

TEST_CASE("what is wrong with a zone's name is not told again of its prices") {
  CHECK(told(van("[[zones]]\nname = \"Home!\"\nto = \"DE\"\n" + price("home", "2 kg"))) ==
        Told{"4:8 bad-value zones[1].name: a code of small letters, digits and '-', such as linen-18-3"});
  CHECK(told(van("zones = 3\n" + price("home", "2 kg"))).size() == 1);
  CHECK(told(van("prices = 3\n" + zone("home", "DE"))).size() == 1);
  CHECK(told(van(zone("home", "DE") + price("home", "2 stone"))) ==
        Told{"8:9 wrong-unit prices[1].up_to: a mass such as 50 g"});
}

TEST_CASE("a fault names the country that it is about") {
  auto const service = van(home + zone("far", "AT DE") + price("far", "1 kg"));
  REQUIRE_FALSE(service);
  CHECK(service.error().front().found == "\"DE\"");
}

TEST_CASE("a disturbed service is read, or every fault has its place and what would be right") {
  CHECK(rc::check([] {
    std::string const text = testing::disturbed(carriage_example());
    auto const service = read(text);
    if (!service) testing::assert_told_well(service.error(), text);
  }));
}
