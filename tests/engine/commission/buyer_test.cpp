#include "quotes.h"

#include <doctest/doctest.h>

#include <set>
#include <string>
#include <vector>

using namespace endband::testing;
using endband::BuyerQuote;
using endband::FrozenQuote;
using endband::Money;
using endband::Ratio;
using endband::WarningCode;

namespace {

// Every number and word that a BuyerQuote holds.
struct Held {
  std::set<std::int64_t> numbers;
  std::vector<std::string> words;
};

Held held_by(BuyerQuote const& buyer) {
  auto const& [title, binding, on, height, width, thickness, ways, box_alone, pages, sections, supports,
               registers, corners, clasps, materials, notices, lines, goods_shown, carriage_shown, tax, total,
               deposit, balance, tax_mode, tax_name, delivery_words, tax_rate, copies, set_shares, volumes,
               copy_prices, repairs, custody, starts, ready_by, proof, discount_shown, discount_reason,
               tax_of_lines, taxed, options, made_to] =
      buyer;  // a new field does not compile until it is looked at here
  Held held;
  held.numbers = {height.n,
                  width.n,
                  thickness.n,
                  pages,
                  sections,
                  supports,
                  copies,
                  static_cast<std::int64_t>(set_shares),
                  static_cast<std::int64_t>(box_alone),
                  registers,
                  corners,
                  clasps,
                  tax_rate.num(),
                  tax_rate.den(),
                  on.time_since_epoch().count(),
                  static_cast<std::int64_t>(tax_mode)};
  for (Money const& money : {goods_shown, carriage_shown, tax, total, deposit, balance, discount_shown})
    held.numbers.insert(money.minor);
  for (auto const& line : lines) held.numbers.insert(line.shown.minor);
  for (WarningCode const notice : notices) held.numbers.insert(static_cast<std::int64_t>(notice));
  for (auto const& price : copy_prices) held.numbers.insert({price.copies, price.shown.minor});
  for (auto const& day : {starts, ready_by})
    if (day) held.numbers.insert(day->time_since_epoch().count());
  held.numbers.insert(proof ? 1 : 0);
  if (repairs) held.numbers.insert({repairs->low.minor, repairs->high.minor, repairs->ceiling.minor});
  for (auto const& left : custody) held.numbers.insert(left.declared ? left.declared->minor : 0);
  for (auto const& volume : volumes)
    held.numbers.insert(
        {volume.height.n, volume.width.n, volume.thickness.n, volume.pages, volume.sections, volume.mass.n});
  for (std::size_t i = 0; i < endband::way_count; ++i)
    if (ways.has(static_cast<endband::Way>(i))) held.numbers.insert(static_cast<std::int64_t>(i));
  for (auto const& line : tax_of_lines) {
    held.numbers.insert({line.rate.num(), line.rate.den()});
    held.words.push_back(line.name);
  }
  for (auto const& rate : taxed)
    held.numbers.insert({rate.rate.num(), rate.rate.den(), rate.goods_shown.minor, rate.carriage_shown.minor,
                         rate.tax.minor});
  for (auto const& option : options) {
    held.numbers.insert(option.shown.minor);
    held.words.push_back(option.words);
    held.words.push_back(option.either);
  }
  if (made_to) held.words.push_back(made_to->because);
  held.words.insert(held.words.end(), {title, binding, tax_name, delivery_words, discount_reason});
  for (auto const& volume : volumes) held.words.push_back(volume.title);
  for (auto const& left : custody) {
    held.words.push_back(left.what);
    held.words.push_back(left.condition);
  }
  for (auto const& material : materials) held.words.push_back(material.words);
  return held;
}

constexpr std::int64_t sentinel = 7'770'000'000;

// Every cost, hour, rate, share and supplier of the quote becomes a number or a word that stands nowhere
// else.
std::set<std::int64_t> plant_sentinels(FrozenQuote& quote) {
  std::set<std::int64_t> planted;
  auto const plant = [&](std::int64_t& number) {
    number = sentinel + static_cast<std::int64_t>(planted.size());
    planted.insert(number);
  };
  auto const plant_ratio = [&](Ratio& ratio) {
    std::int64_t number = 0;
    plant(number);
    ratio = Ratio(number);
  };
  for (Money* money :
       {&quote.shop.basis.pay_wanted, &quote.shop.basis.charges_on_pay, &quote.shop.basis.overhead,
        &quote.shop.least_charge, &quote.shop.least_hourly, &quote.sheet.materials, &quote.sheet.labour,
        &quote.sheet.overhead, &quote.sheet.outside, &quote.sheet.allowances, &quote.sheet.earning,
        &quote.sheet.standing, &quote.sheet.total, &quote.sheet.outlay, &quote.offer.left, &quote.offer.goods,
        &quote.offer.carriage, &quote.delivery.carriage})
    plant(money->minor);
  for (auto* rung : {&quote.offer.ladder.cash_floor, &quote.offer.ladder.walk_away,
                     &quote.offer.ladder.full_cost, &quote.offer.ladder.target, &quote.offer.ladder.asked})
    for (Money* money : {&rung->price, &rung->left, &rung->hourly}) plant(money->minor);
  for (auto& share : quote.sheet.part_shares) plant(share.minor);
  for (auto& line : quote.sheet.lines) plant(line.amount.minor);
  for (auto& line : quote.offer.lines) plant(line.net.minor);
  for (auto& outside : quote.outside)
    for (std::int64_t* number : {&outside.price.minor, &outside.each.minor, &outside.quantity.n,
                                 &outside.least_charge.minor, &outside.carriage.minor, &outside.lead.n})
      plant(*number);
  for (auto& price : quote.copy_prices) {
    plant(price.cost.minor);
    plant_ratio(price.seconds);
  }
  for (auto& line : quote.bill.lines)
    for (std::int64_t* number :
         {&line.unit.minor, &line.charged.n, &line.opened.n, &line.net.n, &line.price_version})
      plant(*number);
  for (auto& line : quote.work.lines) {
    plant_ratio(line.mean_seconds);
    line.rate = eur(0);
    plant(line.rate->minor);
  }
  quote.shop.simulated_contingency = eur(0);
  plant(quote.shop.simulated_contingency->minor);
  plant_ratio(quote.shop.overtime_seconds);
  plant_ratio(quote.shop.overtime_share);
  plant(quote.shop.basis.hours_charged.n);
  plant(quote.selling.points.step);
  for (Ratio* ratio :
       {&quote.sheet.seconds, &quote.shop.contingency, &quote.offer.margin, &quote.selling.deposit.share})
    plant_ratio(*ratio);
  return planted;
}

}  // namespace

TEST_CASE("no cost, hour, rate or share of a quote reaches its buyer") {
  FrozenQuote made = quote();
  made.copy_prices = {{1, eur(704'00), made.sheet.total, made.sheet.seconds},
                      {2, eur(1'200'00), eur(800'00), 20'000}};
  std::set<std::int64_t> const planted = plant_sentinels(made);
  CHECK(planted.size() > 80);
  for (std::int64_t const number : held_by(endband::for_buyer(made)).numbers) {
    CAPTURE(number);
    CHECK(planted.count(number) == 0);
  }
}

TEST_CASE("no supplier, code, name or working word of a quote reaches its buyer") {
  FrozenQuote made = quote();
  std::string const secret = "not for the buyer";
  for (auto& row : made.materials) {
    row.code = row.name = secret;
    row.price = endband::PackPrice{};
    row.price->supplier = secret;
  }
  for (auto& line : made.work.lines) line.words = secret;
  for (auto& outside : made.outside) outside.words = outside.supplier = secret;
  made.description = made.model_name = secret;
  for (std::string const& words : held_by(endband::for_buyer(made)).words)
    CHECK(words.find(secret) == std::string::npos);
}

TEST_CASE("a buyer reads the book, its materials, the lines and what is to pay") {
  FrozenQuote const made = quote();
  BuyerQuote const buyer = endband::for_buyer(made);
  CHECK(buyer.title == "The Book of Salt");
  CHECK(buyer.pages == 300);
  CHECK(buyer.sections == 24);
  CHECK(buyer.supports == 4);
  CHECK(buyer.registers == 1);
  CHECK(buyer.corners == 0);
  CHECK(buyer.height.n == 258'000);
  CHECK(buyer.width.n == 186'001);
  CHECK(buyer.thickness.n == 47'123);
  REQUIRE(buyer.materials.size() == 1);
  CHECK(buyer.materials[0].words == "green goatskin");
  CHECK(buyer.materials[0].role == endband::Role::leather);
  CHECK(buyer.tax_mode == endband::TaxMode::included);
  CHECK(buyer.tax_rate == Ratio(19, 100));
  CHECK(buyer.delivery_words == "insured post");
}

TEST_CASE("the buyer's lines add up to what is to pay") {
  BuyerQuote const buyer = endband::for_buyer(quote());
  Money goods = eur(0);
  for (auto const& line : buyer.lines) goods += line.shown;
  CHECK(goods == buyer.goods_shown);
  CHECK(goods + buyer.carriage_shown == buyer.total);
  CHECK(buyer.deposit + buyer.balance == buyer.total);
}

TEST_CASE("a buyer is told once of leaf that tarnishes, of restricted goods and of what cannot be replaced") {
  FrozenQuote made = quote();
  for (WarningCode const code :
       {WarningCode::grain_across, WarningCode::leaf_tarnishes, WarningCode::leaf_tarnishes,
        WarningCode::swell_too_great, WarningCode::restricted_material,
        WarningCode::customer_piece_cannot_be_replaced})
    made.warnings.push_back({code, 0, 0, 0, {}});
  std::vector<WarningCode> const expected{WarningCode::leaf_tarnishes, WarningCode::restricted_material,
                                          WarningCode::customer_piece_cannot_be_replaced};
  CHECK(endband::for_buyer(made).notices == expected);
}

TEST_CASE("a buyer reads the day of which one is surest, and what starts the clock") {
  FrozenQuote made = quote();
  auto const nothing = endband::for_buyer(made);
  CHECK_FALSE(nothing.ready_by.has_value());
  CHECK_FALSE(nothing.starts.has_value());
  endband::Date const starts = std::chrono::sys_days{std::chrono::year{2026} / 11 / 30};
  auto const days = [&](int n) { return starts + std::chrono::days(n); };
  made.promise = endband::Promise{starts, days(40), days(10), days(12), days(14), days(17)};
  auto const buyer = endband::for_buyer(made);
  CHECK(buyer.starts == starts);
  CHECK(buyer.ready_by == days(17));
  made.work.lines.clear();
  CHECK_FALSE(endband::for_buyer(made).proof);
  made.work.lines.emplace_back().kind = endband::OperationKind::draw_proof;
  CHECK(endband::for_buyer(made).proof);
}
