// Quantities and lines of a parcel as they are typed, and what past use suggests.
#include "cli/commands/stock_line.h"

#include "cli/commands/stock_use.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::cli;
using namespace std::chrono_literals;

namespace {

Material material(SoldBy sold_by, Amount pack) {
  Material result;
  result.code = "x-1";
  result.sold_by = sold_by;
  result.price.emplace().pack = pack;
  return result;
}
Material const paper = [] {
  Material result = material(SoldBy::sheet, amount(Count{125'000}));
  result.properties.sheet = SheetSize{{900'000}, {640'000}};
  return result;
}();
Material const goat = material(SoldBy::skin, amount(Area{600'000'000'000}));
Material const thread = material(SoldBy::length, amount(Length{100'000'000}));
Material const leaf = [] {
  Material result = material(SoldBy::leaf_book, amount(Count{25'000}));
  result.properties.leaves_a_book = 20;
  return result;
}();

Amount amount_of(Material const& of, std::string_view text) {
  auto const read = read_quantity_of(of, text, Least::something);
  REQUIRE(read.has_value());
  return read->amount;
}
Fault refusal(Material const& of, std::string_view text, Least least = Least::something) {
  auto const read = read_quantity_of(of, text, least);
  REQUIRE_FALSE(read.has_value());
  REQUIRE(read.error().size() == 1);
  return read.error().front();
}

}  // namespace

TEST_CASE("a quantity is said in the material's own units") {
  CHECK(amount_of(paper, "12 sheets") == amount(Count{12'000}));
  CHECK(amount_of(paper, " 12.5 sheets ") == amount(Count{12'500}));
  CHECK(amount_of(goat, "0.61 m2") == amount(Area{610'000'000'000}));
  CHECK(amount_of(goat, "6 sq ft") == amount(Area{557'418'240'000}));
  CHECK(amount_of(thread, "42 m") == amount(Length{42'000'000}));
  CHECK(amount_of(material(SoldBy::weight, {}), "250 g") == amount(Mass{250'000}));
  CHECK(amount_of(material(SoldBy::volume, {}), "1 l") == amount(Volume{1'000'000}));
}

TEST_CASE("packs are those of the price in force, in whatever they are called") {
  CHECK(amount_of(paper, "2 packs") == amount(Count{250'000}));
  CHECK(amount_of(paper, "1 pack") == amount(Count{125'000}));
  CHECK(amount_of(thread, "1/2 roll") == amount(Length{50'000'000}));
  CHECK(amount_of(material(SoldBy::pad, amount(Count{100'000})), "3 pads") == amount(Count{300'000}));
  CHECK(amount_of(leaf, "2 packs") == amount(Count{50'000}));
  CHECK(amount_of(leaf, "2 books") == amount(Count{40'000}));  // as many leaves as a book of it has
  Material unpriced = paper;
  unpriced.price.reset();
  CHECK(refusal(unpriced, "2 packs").code == FaultCode::no_price);
}

TEST_CASE("a piece of a size is its part of the sheet, or its area of a skin, and keeps its size") {
  auto const part = read_quantity_of(paper, "450 x 320 mm", Least::something);
  REQUIRE(part.has_value());
  CHECK(part->amount == amount(Count{250}));  // a quarter of 900 x 640
  CHECK(part->height == Length{450'000});
  CHECK(part->width == Length{320'000});
  CHECK(amount_of(goat, "300 x 200 mm") == amount(Area{60'000'000'000}));
  CHECK(refusal(paper, "1000 x 320 mm").code == FaultCode::does_not_fit);
  CHECK(refusal(thread, "300 x 200 mm").code == FaultCode::wrong_unit);
}

TEST_CASE("another unit is one fault that says what would be right") {
  CHECK(refusal(paper, "3 m2").code == FaultCode::wrong_unit);
  CHECK(refusal(paper, "3 m2").expected.find("12 sheets") != std::string::npos);
  CHECK(refusal(paper, "3 m2").expected.find("2 packs") != std::string::npos);
  CHECK(refusal(paper, "12").code == FaultCode::missing_unit);
  CHECK(refusal(paper, "2 skins").code == FaultCode::wrong_unit);
  CHECK(refusal(paper, "2 pads").code == FaultCode::wrong_unit);
  CHECK(refusal(paper, "2 furlongs").code == FaultCode::wrong_unit);
  CHECK(refusal(goat, "2 skins").expected.find("0.61 m2") != std::string::npos);
  CHECK(refusal(thread, "12 sheets").expected.find("3 m") != std::string::npos);
  CHECK(refusal(thread, "1,234 m").code == FaultCode::ambiguous_number);
}

TEST_CASE("nothing is a quantity where one counts, and less than nothing never is") {
  CHECK(refusal(paper, "0 sheets").code == FaultCode::out_of_range);
  CHECK(refusal(paper, "-3 sheets").code == FaultCode::out_of_range);
  CHECK(refusal(paper, "-3 sheets", Least::nothing).code == FaultCode::out_of_range);
  CHECK(refusal(paper, "-1 pack", Least::nothing).code == FaultCode::out_of_range);
  CHECK(read_quantity_of(paper, "0", Least::nothing)->amount == amount(Count{0}));
  CHECK(read_quantity_of(goat, "0 m2", Least::nothing)->amount == amount(Area{0}));
}

TEST_CASE(
    "a line is a code, a quantity of as many words as it takes, and a price with or without its currency") {
  auto const parts = [](std::string_view line, Priced priced) {
    auto const read = split_line(line, priced);
    REQUIRE(read.has_value());
    return std::vector<std::string>{read->code, read->quantity, read->price};
  };
  using Parts = std::vector<std::string>;
  CHECK(parts("goat-moss-08 0.61 m2 66.00", Priced::yes) == Parts{"goat-moss-08", "0.61 m2", "66.00"});
  CHECK(parts("  linen-18-3   2 packs\t12.40 ", Priced::yes) == Parts{"linen-18-3", "2 packs", "12.40"});
  CHECK(parts("calf 6 sq ft 91.00 GBP", Priced::yes) == Parts{"calf", "6 sq ft", "91.00 GBP"});
  CHECK(parts("board 300 x 200 mm 1,20", Priced::yes) == Parts{"board", "300 x 200 mm", "1,20"});
  CHECK(parts("board 10sheets 34", Priced::yes) == Parts{"board", "10sheets", "34"});
  CHECK(parts("clasp 4 pieces", Priced::no) == Parts{"clasp", "4 pieces", ""});
}

TEST_CASE("a line that lacks a part is refused, not guessed") {
  for (std::string_view line :
       {"", " ", "board", "board 34.00", "board 10 sheets", "goat 0.61 m2", "board 10 sheets GBP"})
    CHECK_FALSE(split_line(line, Priced::yes).has_value());
  CHECK_FALSE(split_line("clasp", Priced::no).has_value());
}

namespace {

Date const today{2026y / std::chrono::November / 30};

db::MovementRow row(std::int64_t id, int days_ago, std::int64_t quantity, MovementKind kind) {
  db::MovementRow result;
  result.id = id;
  result.on = today - std::chrono::days(days_ago);
  result.code = "x-1";
  result.kind = kind;
  result.quantity = quantity;
  return result;
}

}  // namespace

TEST_CASE("use is counted over all days since the material first moved, with those on which none was used") {
  // Received ten days ago, ten days counting today: 4 and 2 sheets used on two of them, 1 given back.
  std::vector<db::MovementRow> rows{
      row(1, 9, 100'000, MovementKind::received), row(2, 5, -4'000, MovementKind::used),
      row(3, 2, -3'000, MovementKind::cut_away), row(4, 2, 1'000, MovementKind::used),
      row(5, 1, -50'000, MovementKind::scrapped)};
  auto const uses = uses_of(rows, today, 12);
  REQUIRE(uses.contains("x-1"));
  PastUse const& use = uses.at("x-1");
  CHECK(use.days == 10);
  CHECK(use.days_used == 2);
  CHECK(use.used == 6'000);
  CHECK(use.a_day() == doctest::Approx(600));
  // Days of 4, 2 and eight of 0: the sum of squares 20 less 10 x 0.36, over 9, is 1.8222; its root 1.34990.
  CHECK(use.deviation() == 1'350);
}

TEST_CASE("what was taken back, what came before the stretch and what is still to come is no use of it") {
  std::vector<db::MovementRow> rows{
      row(1, 400, 100'000, MovementKind::received), row(2, 390, -9'000, MovementKind::used),
      row(3, 20, -5'000, MovementKind::used),       row(4, 10, 5'000, MovementKind::used),
      row(5, 4, -2'000, MovementKind::used),        row(6, -3, -7'000, MovementKind::used)};
  rows[3].undoes = 3;
  auto const uses = uses_of(rows, today, 12);
  CHECK(uses.at("x-1").days == 365);
  CHECK(uses.at("x-1").days_used == 1);
  CHECK(uses.at("x-1").used == 2'000);
  CHECK(uses_of(std::vector{row(1, 4, 9'000, MovementKind::received)}, today, 12).empty());
}

TEST_CASE("a suggestion is in what people count, and absent where it would be a guess") {
  auto const eur = read_currency("EUR").value();
  Material of = paper;
  of.price->price = of.price->said = {46'00, eur};
  of.price->carriage = {0, eur};
  PastUse use;
  use.days = 100;
  use.days_used = 40;
  use.used = 200'000;          // 2 sheets a day
  use.sum_of_squares = 796e6;  // (796 - 100 x 4) / 99 = 4: a deviation of 2 sheets
  Supply supply;
  SuggestRules rules{
      .sure = Ratio(19, 20), .order_cost = Money{600, eur}, .holding_share = Ratio(1, 5), .buying = {}};
  CHECK_FALSE(
      suggestion(of, supply, use, rules).reorder_at.has_value());  // nobody said how long an order takes
  supply.lead_days = 9;
  // 2 x 9 + 1.644854 x 2 x 3 = 27.87 sheets, so 28.
  CHECK(suggestion(of, supply, use, rules).reorder_at == 28'000);
  // sqrt(2 x 730 x 6.00 / (0.2 x 0.368)) = 345 sheets: three packs of 125.
  CHECK(suggestion(of, supply, use, rules).order_size == 375'000);
  rules.holding_share.reset();
  CHECK_FALSE(suggestion(of, supply, use, rules).order_size.has_value());
  use.days_used = 2;
  CHECK_FALSE(suggestion(of, supply, use, rules).reorder_at.has_value());
}
