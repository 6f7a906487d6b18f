// Outlets as their owners write them.
#include "disturbed.h"
#include "engine/pricing/terms_text.h"
#include "told.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <string>

using namespace endband;
using endband::testing::told;
using endband::testing::Told;

namespace {

Currency currency(std::string_view code) { return read_currency(code).value(); }
Currency euro() { return currency("EUR"); }
Money eur(std::int64_t minor) { return {minor, euro()}; }
Money usd(std::int64_t minor) { return {minor, currency("USD")}; }
Ratio percent(std::int64_t whole) { return {whole, 100}; }

Read<Outlet> read(std::string const& text, Currency shop = euro()) {
  return read_outlet(text, "fair.toml", "fair", shop);
}
// The lines below the first three; the fourth is the first of them.
Read<Outlet> own(std::string const& rest) {
  return read("endband = 1\nname = \"Fair\"\nkind = \"own\"\n" + rest);
}
Outlet sample(std::string const& name) {
  auto const path = std::filesystem::path(ENDBAND_SOURCE_DIR) / "sample_data/outlets" / (name + ".toml");
  return read_outlet(testing::text_of(path), name, name, euro()).value();
}

std::string const selling = "[[fees]]\nname = \"selling\"\n";  // lines 4 and 5
std::string const listing = "[[fees]]\nname = \"listing\"\nper = \"listing\"\n";

}  // namespace

TEST_CASE("the example of an outlet is right as it stands") {
  auto const outlet = read(std::string(outlet_example()));
  CHECK(told(outlet) == Told{});
  REQUIRE(outlet);
  CHECK(outlet->code == "fair");
  CHECK(outlet->fees.size() == 3);
  CHECK(outlet->fees[1].steps.size() == 2);
  CHECK(outlet->points == PricePoints{5'00, 10});
}

TEST_CASE("every sample of an outlet reads") {
  auto const paths = testing::samples("outlets");
  CHECK(paths.size() >= 5);
  for (auto const& path : paths) {
    CAPTURE(path);
    auto const outlet = read_outlet(testing::text_of(path), path.filename(), path.stem(), euro());
    CHECK(told(outlet) == Told{});
    CHECK(outlet->code == path.stem());
  }
}

TEST_CASE("the samples are of every kind") {
  CHECK(sample("post").kind == OutletKind::own);
  CHECK(sample("mothwing").kind == OutletKind::marketplace);
  CHECK(sample("gallery").kind == OutletKind::sale_or_return);
  CHECK(sample("shop").kind == OutletKind::trade);
  CHECK(sample("shop").discount == percent(35));
  CHECK(sample("shop").paid_after_days == 30);
  CHECK(sample("fair").cash_step == 5);
  CHECK(sample("fair").fees[0].per == FeePer::piece);
  CHECK(sample("fair").fees[0].fixed == eur(6'00));
  CHECK(sample("gallery").fees[0].base == FeeBase::goods_with_tax);
  CHECK(sample("gallery").returns.unsold == percent(25));
  CHECK(sample("gallery").returns.return_carriage == eur(13'80));
}

TEST_CASE("a marketplace in another currency is read to the last fee") {
  Outlet const outlet = sample("mothwing");
  CHECK(outlet.name == "The Mothwing Market");
  CHECK(outlet.currency == currency("USD"));
  CHECK(outlet.exchange.rate == Ratio(1));  // not in the text
  CHECK(outlet.tax_mode == TaxMode::added);
  CHECK(outlet.tax_rate == Ratio(825, 10'000));
  CHECK(outlet.collects_tax);
  CHECK(outlet.points == PricePoints{5'00, 0});
  CHECK(outlet.days_to_sell == 150);
  REQUIRE(outlet.fees.size() == 5);

  Fee const& posted = outlet.fees[0];
  CHECK(posted.per == FeePer::listing);
  CHECK(posted.fixed == usd(35));
  CHECK(posted.every_days == 90);
  CHECK(posted.steps.empty());
  CHECK(posted.kept);

  Fee const& sold = outlet.fees[1];
  CHECK(sold.base == FeeBase::goods_and_carriage);
  CHECK(sold.per == FeePer::order);
  REQUIRE(sold.steps.size() == 2);
  CHECK(sold.steps[0].from == usd(0));
  CHECK(sold.steps[0].share == percent(8));
  CHECK(sold.steps[1].from == usd(400'00));
  CHECK(sold.steps[1].share == percent(3));
  CHECK_FALSE(sold.on_whole);
  CHECK_FALSE(sold.kept);
  CHECK(sold.fixed == usd(0));

  CHECK(outlet.fees[2].most == usd(9'00));
  CHECK_FALSE(outlet.fees[2].least);
  CHECK(outlet.fees[4].least == usd(50));
  CHECK(outlet.fees[4].fixed == usd(40));
  CHECK(outlet.fees[4].payment);

  CHECK(outlet.returns.carriage_back == eur(38'00));  // the workshop's
  CHECK(outlet.returns.handling == Duration{1'800});
  CHECK(outlet.returns.insured == eur(500'00));
}

TEST_CASE("what an outlet does not say is nothing, or the workshop's") {
  auto const outlet = own("");
  REQUIRE(outlet);
  CHECK(outlet->currency == euro());
  CHECK(outlet->fees.empty());
  CHECK(outlet->discount == Ratio(0));
  CHECK_FALSE(outlet->tax_mode);
  CHECK_FALSE(outlet->tax_rate);
  CHECK_FALSE(outlet->points);
  CHECK(outlet->cash_step == 1);
  CHECK(outlet->paid_after_days == 0);
  ReturnTerms nothing;
  nothing.carriage_back = nothing.insured = nothing.excess = nothing.return_carriage = eur(0);
  CHECK(outlet->returns == nothing);
}

TEST_CASE("each choice is the enumerator of its name") {
  for (OutletKind const kind :
       {OutletKind::own, OutletKind::marketplace, OutletKind::sale_or_return, OutletKind::trade}) {
    std::string const name(outlet_kind_name(kind));
    std::string const discount = kind == OutletKind::trade ? "discount = 0.3\n" : "";
    CHECK(read("endband = 1\nname = \"A\"\nkind = \"" + name + "\"\n" + discount)->kind == kind);
  }
  for (FeeBase const base :
       {FeeBase::goods, FeeBase::goods_with_tax, FeeBase::goods_and_carriage, FeeBase::paid})
    CHECK(own(selling + "share = 0.1\nof = \"" + std::string(fee_base_name(base)) + "\"")->fees[0].base ==
          base);
  for (FeePer const per : {FeePer::order, FeePer::piece, FeePer::listing})
    CHECK(own(selling + "fixed = 1\nper = \"" + std::string(fee_per_name(per)) + "\"")->fees[0].per == per);
  for (TaxMode const mode : {TaxMode::none, TaxMode::added, TaxMode::included})
    CHECK(own("tax = \"" + std::string(tax_mode_name(mode)) + "\"")->tax_mode == mode);
}

TEST_CASE("steps on the whole, and steps of a fee without a share of its own") {
  auto const outlet = own(selling + "steps_on = \"whole\"\n" +
                          "[[steps]]\nfee = \"selling\"\nfrom = 0\nshare = \"10 %\"\n"
                          "[[steps]]\nfee = \"selling\"\nfrom = \"100.00\"\nshare = \"8 %\"\n");
  CHECK(told(outlet) == Told{});
  REQUIRE(outlet);
  CHECK(outlet->fees[0].on_whole);
  REQUIRE(outlet->fees[0].steps.size() == 2);
  CHECK(outlet->fees[0].steps[0].from == eur(0));
  CHECK(outlet->fees[0].steps[1].share == percent(8));
}

TEST_CASE("money of tickets is the outlet's, money of returns the workshop's") {
  std::string const text =
      "endband = 1\nname = \"A\"\nkind = \"own\"\ncurrency = \"JPY\"\ncash_step = 10\n"
      "[returns]\ninsured = \"500.50\"\n";
  auto const outlet = read(text);
  REQUIRE(outlet);
  CHECK(outlet->cash_step == 10);
  CHECK(outlet->returns.insured == eur(500'50));
  CHECK(told(read(text, currency("JPY"))) ==
        Told{"7:11 bad-value returns.insured: an amount such as 12, with no decimals"});
  CHECK(told(read(text + "[[fees]]\nname = \"a\"\nfixed = \"0.25\"\n")) ==
        Told{"10:9 bad-value fees[1].fixed: an amount such as 12, with no decimals"});
}

TEST_CASE("a fee that cannot be is told where it stands, with what would be right") {
  CHECK(told(own(selling)) ==
        Told{"4:1 missing-key fees[1].share: share = ..., or fixed = ..., or [[steps]] of this fee"});
  CHECK(told(own("[[fees]]\nshare = 0.1")) ==
        Told{"4:1 missing-key fees[1].name: name = ..., what the fee is called"});
  CHECK(told(own(selling + "share = \"100 %\"")) == Told{"6:9 out-of-range fees[1].share: from 0 % to 99 %"});
  CHECK(told(own(listing)) == Told{"4:1 missing-key fees[1].fixed: fixed = ..., what a listing costs"});
  CHECK(told(own(listing + "share = 0.1")) == Told{"7:9 contradiction fees[1].share: fixed = ..., as a "
                                                   "listing is paid before a sale; or per = \"order\""});
  CHECK(told(own(listing + "fixed = 1\nof = \"paid\"")) ==
        Told{"8:6 contradiction fees[1].of: per = \"order\" and a share, or no of"});
  CHECK(told(own(selling + "share = 0.1\nevery_days = 30")) ==
        Told{"7:14 contradiction fees[1].every_days: per = \"listing\", or no every_days"});
  CHECK(told(own(selling + "fixed = 1\nleast = 1\nmost = 2\nof = \"paid\"")) ==
        Told{"7:9 contradiction fees[1].least: a share, or no least",
             "8:8 contradiction fees[1].most: a share, or no most",
             "9:6 contradiction fees[1].of: a share, or no of"});
  CHECK(told(own(selling + "share = 0.1\nleast = \"2.01\"\nmost = 2")) ==
        Told{"7:9 contradiction fees[1].least: at most 2.00, as most says"});
  CHECK(told(own(selling + "share = 0.1\nleast = 2\nmost = 2")) == Told{});
  CHECK(told(own(selling + "share = 0.1\nsteps_on = \"part\"")) ==
        Told{"7:12 contradiction fees[1].steps_on: [[steps]] of this fee, or no steps_on"});
  CHECK(told(own(selling + "share = 0.1\n" + selling + "share = 0.2")) ==
        Told{"8:8 contradiction fees[2].name: a name that no other fee has, as steps and reports tell fees "
             "by it"});
}

TEST_CASE("steps with holes, steps that fall and steps of nothing are told") {
  auto const step = [](std::string const& fee, std::string const& from) {
    return "[[steps]]\nfee = \"" + fee + "\"\nfrom = " + from + "\nshare = 0.05\n";
  };
  CHECK(told(own(selling + step("selling", "100"))) ==
        Told{"8:8 contradiction steps[1].from: a first step from 0, or share = ... in the fee itself for "
             "what is "
             "below 100.00: the steps have a hole"});
  std::string const sharing = selling + "share = 0.1\n";
  CHECK(told(own(sharing + step("selling", "100") + step("selling", "200"))) == Told{});
  CHECK(told(own(sharing + step("selling", "0"))) ==
        Told{"9:8 contradiction steps[1].from: more than 0.00, from which the step before it holds"});
  CHECK(told(own(sharing + step("selling", "100") + step("selling", "100"))) ==
        Told{"13:8 contradiction steps[2].from: more than 100.00, from which the step before it holds"});
  CHECK(told(own(sharing + step("seling", "100"))) ==
        Told{"8:7 unknown-code steps[1].fee: one of the [[fees]]: selling?selling"});
  CHECK(told(own(step("selling", "100"))) ==
        Told{"5:7 unknown-code steps[1].fee: one of the [[fees]], of which there are none"});
  CHECK(told(own(sharing + "[[steps]]\n")) ==
        Told{"7:1 missing-key steps[1].fee: fee = ..., the name of the fee that steps",
             "7:1 missing-key steps[1].from: from = ..., where the step begins",
             "7:1 missing-key steps[1].share: share = ..., the share from there on"});
  CHECK(told(own(listing + "fixed = 1\n" + step("listing", "0"))) ==
        Told{"11:9 contradiction steps[1].share: fixed = ..., as a listing is paid before a sale; or per = "
             "\"order\""});
}

TEST_CASE("what has no meaning for an outlet is refused") {
  CHECK(told(read("endband = 1")) ==
        Told{"1:1 missing-key name: name = ..., what the outlet is called",
             "1:1 missing-key kind: kind = ..., own: the maker sells; marketplace: the place takes fees; "
             "sale-or-return: the goods lie there; trade: a shop buys them"});
  CHECK(told(own("discount = \"35 %\"")) ==
        Told{"4:12 contradiction discount: kind = \"trade\", or no discount"});
  CHECK(told(read("endband = 1\nname = \"Shop\"\nkind = \"trade\"")) ==
        Told{"1:1 missing-key discount: discount = ..., trade: what the shop takes off the ticket"});
  CHECK(told(own("[returns]\nunsold = 0.1\nreturn_carriage = 3")) ==
        Told{"5:10 contradiction returns.unsold: kind = \"sale-or-return\", or no unsold",
             "6:19 contradiction returns.return_carriage: kind = \"sale-or-return\", or no return_carriage"});
  CHECK(told(own("tax = \"none\"\ntax_rate = 0.2\ntax_collected = true")) ==
        Told{"5:12 contradiction tax_rate: tax = \"added\" or \"included\", or no tax_rate",
             "6:17 contradiction tax_collected: tax = \"added\" or \"included\", or no tax_collected"});
  CHECK(told(own("[returns]\ninsured = 20\nexcess = \"20.01\"")) ==
        Told{"6:10 contradiction returns.excess: at most 20.00, which is what is insured"});
  CHECK(told(own("[returns]\nexcess = 5")) ==
        Told{"5:10 contradiction returns.excess: at most 0.00, which is what is insured"});
}

TEST_CASE("a fault says what stood there, as the text has it") {
  auto const outlet =
      own("discount = 0.35\n[returns]\nexcess = 5\n" + selling + "share = 0.1\nevery_days = 30\n");
  REQUIRE_FALSE(outlet);
  std::vector<std::string> found;
  for (Fault const& fault : outlet.error()) found.push_back(fault.found);
  CHECK(found == Told{"\"35 %\"", "\"5\"", "30"});
}

TEST_CASE("price points and coins that cannot be are told") {
  CHECK(own("price_step = 10\nprice_below = \"0.50\"")->points == PricePoints{10'00, 50});
  CHECK(told(own("price_step = 5\nprice_below = 5")) ==
        Told{"5:15 contradiction price_below: less than 5.00, the step"});
  CHECK(told(own("price_below = 5")) ==
        Told{"4:15 contradiction price_below: price_step beside it, or no price_below"});
  CHECK(told(own("price_step = 0\ncash_step = 0")) ==
        Told{"4:14 out-of-range price_step: more than nothing, or not there at all",
             "5:13 out-of-range cash_step: more than nothing, or not there at all"});
}

TEST_CASE("a currency that nobody has is told once, and not again at every sum") {
  CHECK(told(read("endband = 1\nname = \"A\"\nkind = \"own\"\ncurrency = \"EUT\"\ncash_step = \"0.0001\"\n" +
                  selling + "share = 0.1\n[[steps]]\nfee = \"selling\"\nfrom = 100\nshare = 0.05\n")) ==
        Told{"4:12 bad-value currency: the three capital letters of a currency, such as EUR?EUR"});
}

TEST_CASE("one fault is told once: what follows from it is not") {
  CHECK(told(own(selling +
                 "share = \"a tenth\"\nmost = 1\n[[steps]]\nfee = \"selling\"\nfrom = 100\nshare = 0.05")) ==
        Told{"6:9 bad-value fees[1].share: a share such as \"35 %\""});
  CHECK(told(own(selling + "per = \"listng\"\nfixed = 1\nevery_days = 9")) ==
        Told{"6:7 bad-value fees[1].per: \"order\", \"piece\" or \"listing\"?listing"});
  CHECK(told(own("price_step = \"ten\"\nprice_below = 1")) ==
        Told{"4:14 bad-value price_step: an amount of money such as \"12.50\""});
  CHECK(told(own("[returns]\ninsured = \"much\"\nexcess = 5")) ==
        Told{"5:11 bad-value returns.insured: an amount of money such as \"12.50\""});
  CHECK(told(read("endband = 1\nname = \"A\"\nkind = \"shop\"\ndiscount = 0.3")) ==
        Told{"3:8 bad-value kind: \"own\", \"marketplace\", \"sale-or-return\" or \"trade\""});
  CHECK(told(own("fees = 3\n[[steps]]\nfee = \"a\"\nfrom = 0\nshare = 0.1")).size() == 1);
  CHECK(told(read("endband = 1\nname = nothing")).size() == 1);
}

TEST_CASE("all faults of a text are told at once, in its order") {
  CHECK(told(own("discount = 0.2\ncolour = \"red\"\n" + listing +
                 "share = 0.1\n[[steps]]\nfee = \"other\"\nfrom = 1\n")) ==
        Told{"4:12 contradiction discount: kind = \"trade\", or no discount",
             std::string("5:1 unknown-key colour: the first lines have endband, name, kind, currency, "
                         "discount, tax, tax_rate, tax_collected, cash_step, price_step, price_below, "
                         "paid_after_days, days_to_sell"),
             "9:9 contradiction fees[1].share: fixed = ..., as a listing is paid before a sale; or per = "
             "\"order\"",
             "10:1 missing-key steps[1].share: share = ..., the share from there on",
             "11:7 unknown-code steps[1].fee: one of the [[fees]]: listing"});
}

TEST_CASE("a disturbed outlet is read, or every fault has its place and what would be right") {
  CHECK(rc::check([] {
    std::string const text = testing::disturbed(outlet_example());
    auto const outlet = read(text);
    if (!outlet) testing::assert_told_well(outlet.error(), text);
  }));
}

TEST_CASE("steps are read when they have no hole and rise, and else not") {
  CHECK(rc::check([] {
    bool const own_share = *rc::gen::arbitrary<bool>();
    auto const froms =
        *rc::gen::container<std::vector<int>>(*rc::gen::inRange<std::size_t>(1, 4), rc::gen::inRange(0, 4));
    std::string text = selling + (own_share ? "share = 0.1\n" : "");
    for (int const from : froms)
      text += "[[steps]]\nfee = \"selling\"\nfrom = " + std::to_string(from) + "\nshare = 0.05\n";
    std::vector<int> all = froms;
    if (own_share) all.insert(all.begin(), 0);
    bool const rises = std::adjacent_find(all.begin(), all.end(), std::greater_equal<>()) == all.end();
    auto const outlet = own(text);
    RC_ASSERT(outlet.has_value() == (rises && all.front() == 0));
    if (!outlet) return;
    std::vector<FeeStep> const& steps = outlet->fees[0].steps;
    RC_ASSERT(steps.size() == all.size());
    for (std::size_t i = 0; i < all.size(); ++i) RC_ASSERT(steps[i].from == eur(all[i] * 100));
  }));
}
