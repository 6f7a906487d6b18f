// A checker is tested by breaking what it checks: each field of a good quote changed in turn must be named.
#include "quotes.h"

#include <doctest/doctest.h>

#include <string>
#include <vector>

using namespace endband::testing;
using endband::differs;
using endband::FrozenQuote;
using endband::Money;
using endband::Ratio;

namespace {

struct Change {
  std::string named;
  void (*make)(FrozenQuote&);
};

// The quote for three copies, with repairs that take from half an hour to two.
FrozenQuote order() {
  FrozenQuote made = quote();
  endband::WorkLine repair = work_line(endband::OperationKind::mend_leaves, 3'600, endband::Part::repairs);
  repair.low_seconds = 1'800;
  repair.high_seconds = 7'200;
  made.work.lines.push_back(repair);
  made.sheet = cost(made.bill, made.work, made.outside, made.shop);
  made.offer = offer(made.sheet, made.delivery, made.selling, made.goal, made.shop).value();
  made.copies = 3;
  made.copy_prices = {{1, eur(300'00), eur(200'00), 3'600},
                      {3, made.offer.goods_shown, made.sheet.total, made.sheet.seconds},
                      {4, eur(2'000'00), eur(1'500'00), 40'000}};
  made.repairs =
      repair_range({made.bill, made.work, made.outside, made.shop, made.delivery, made.selling, made.goal},
                   made.offer, Ratio(1, 5))
          .value();
  return made;
}

void check_all(std::vector<Change> const& changes, FrozenQuote const& good = quote()) {
  for (Change const& change : changes) {
    FrozenQuote changed = good;
    change.make(changed);
    CHECK(differs(changed) == change.named);
  }
}

void one_more(Money& money) { money.minor += 1; }
void one_less(Money& money) { money.minor -= 1; }
void one_more(endband::Amount& amount) { amount.n += 1; }

}  // namespace

TEST_CASE("a quote as it was made differs in nothing") { CHECK(differs(quote()).empty()); }

TEST_CASE("a changed figure of the offer is named") {
  check_all({
      {"offer.ladder.cash_floor.price", [](FrozenQuote& q) { one_more(q.offer.ladder.cash_floor.price); }},
      {"offer.ladder.cash_floor.left", [](FrozenQuote& q) { one_more(q.offer.ladder.cash_floor.left); }},
      {"offer.ladder.cash_floor.hourly", [](FrozenQuote& q) { one_more(q.offer.ladder.cash_floor.hourly); }},
      {"offer.ladder.walk_away.price", [](FrozenQuote& q) { one_more(q.offer.ladder.walk_away.price); }},
      {"offer.ladder.full_cost.left", [](FrozenQuote& q) { one_more(q.offer.ladder.full_cost.left); }},
      {"offer.ladder.target.hourly", [](FrozenQuote& q) { one_more(q.offer.ladder.target.hourly); }},
      {"offer.ladder.asked.price", [](FrozenQuote& q) { one_less(q.offer.ladder.asked.price); }},
      {"offer.lines", [](FrozenQuote& q) { q.offer.lines.pop_back(); }},
      {"offer.lines[0].component",
       [](FrozenQuote& q) { q.offer.lines[0].component = endband::Component::stone_setting; }},
      {"offer.lines[1].net", [](FrozenQuote& q) { one_more(q.offer.lines[1].net); }},
      {"offer.lines[2].shown", [](FrozenQuote& q) { one_less(q.offer.lines[2].shown); }},
      {"offer.goods", [](FrozenQuote& q) { one_more(q.offer.goods); }},
      {"offer.goods_shown", [](FrozenQuote& q) { one_more(q.offer.goods_shown); }},
      {"offer.carriage", [](FrozenQuote& q) { one_more(q.offer.carriage); }},
      {"offer.carriage_shown", [](FrozenQuote& q) { one_more(q.offer.carriage_shown); }},
      {"offer.tax", [](FrozenQuote& q) { one_more(q.offer.tax); }},
      {"offer.total", [](FrozenQuote& q) { one_less(q.offer.total); }},
      {"offer.deposit", [](FrozenQuote& q) { one_more(q.offer.deposit); }},
      {"offer.balance", [](FrozenQuote& q) { one_more(q.offer.balance); }},
      {"offer.left", [](FrozenQuote& q) { one_more(q.offer.left); }},
      {"offer.margin", [](FrozenQuote& q) { q.offer.margin = q.offer.margin + Ratio(1, 1'000'000); }},
      {"offer.total", [](FrozenQuote& q) { q.offer.total.currency = endband::read_currency("CHF").value(); }},
  });
}

TEST_CASE("a changed figure of the cost sheet is named") {
  check_all({
      {"sheet.lines", [](FrozenQuote& q) { q.sheet.lines.pop_back(); }},
      {"sheet.lines[3].kind", [](FrozenQuote& q) { q.sheet.lines[3].kind = endband::CostKind::ruin; }},
      {"sheet.lines[0].part", [](FrozenQuote& q) { q.sheet.lines[0].part = endband::Part::stone; }},
      {"sheet.lines[4].source", [](FrozenQuote& q) { q.sheet.lines[4].source = 0; }},
      {"sheet.lines[6].at_cost", [](FrozenQuote& q) { q.sheet.lines[6].at_cost = false; }},
      {"sheet.lines[8].amount", [](FrozenQuote& q) { one_more(q.sheet.lines[8].amount); }},
      {"sheet.materials", [](FrozenQuote& q) { one_more(q.sheet.materials); }},
      {"sheet.labour", [](FrozenQuote& q) { one_more(q.sheet.labour); }},
      {"sheet.overhead", [](FrozenQuote& q) { one_more(q.sheet.overhead); }},
      {"sheet.outside", [](FrozenQuote& q) { one_more(q.sheet.outside); }},
      {"sheet.allowances", [](FrozenQuote& q) { one_more(q.sheet.allowances); }},
      {"sheet.earning", [](FrozenQuote& q) { one_more(q.sheet.earning); }},
      {"sheet.standing", [](FrozenQuote& q) { one_more(q.sheet.standing); }},
      {"sheet.total", [](FrozenQuote& q) { one_more(q.sheet.total); }},
      {"sheet.outlay", [](FrozenQuote& q) { one_more(q.sheet.outlay); }},
      {"sheet.seconds", [](FrozenQuote& q) { q.sheet.seconds = q.sheet.seconds + Ratio(1, 6000); }},
      {"sheet.part_shares", [](FrozenQuote& q) { one_more(q.sheet.part_shares[3]); }},
  });
}

TEST_CASE("a part that came after a quote was made costs it nothing") {
  FrozenQuote older = quote();
  older.sheet.part_shares.resize(19);  // the parts of engine rules 1
  CHECK(differs(older) == "");
  one_more(older.sheet.part_shares.back());
  CHECK(differs(older) == "sheet.part_shares");
}

TEST_CASE("a changed row of the order is named") {
  CHECK(differs(order()) == "");
  check_all(
      {
          {"copies[1].shown", [](FrozenQuote& q) { one_more(q.copy_prices[1].shown); }},
          {"copies[1].cost", [](FrozenQuote& q) { one_more(q.copy_prices[1].cost); }},
          {"copies[1].seconds", [](FrozenQuote& q) { q.copy_prices[1].seconds = 1; }},
          {"copies[2].copies", [](FrozenQuote& q) { q.copy_prices[2].copies = 1; }},
          {"repairs.low", [](FrozenQuote& q) { one_more(q.repairs->low); }},
          {"repairs.likely", [](FrozenQuote& q) { one_more(q.repairs->likely); }},
          {"repairs.high", [](FrozenQuote& q) { one_more(q.repairs->high); }},
          {"repairs.ceiling", [](FrozenQuote& q) { one_more(q.repairs->ceiling); }},
          {"repairs", [](FrozenQuote& q) { q.repairs.reset(); }},
      },
      order());
}

TEST_CASE("a changed row of the bill is named, or the first cost that follows from it") {
  check_all({
      {"bill.lines[0].opened", [](FrozenQuote& q) { one_more(q.bill.lines[0].net); }},
      {"bill.lines[0].opened", [](FrozenQuote& q) { one_more(q.bill.lines[0].spoil); }},
      {"bill.lines[1].opened", [](FrozenQuote& q) { one_more(q.bill.lines[1].cutting_loss); }},
      {"bill.lines[1].opened", [](FrozenQuote& q) { one_more(q.bill.lines[1].kept); }},
      {"bill.lines[2].opened", [](FrozenQuote& q) { one_more(q.bill.lines[2].pack_remainder); }},
      {"bill.lines[2].opened", [](FrozenQuote& q) { one_more(q.bill.lines[2].opened); }},
      {"bill.lines[0].charged", [](FrozenQuote& q) { one_more(q.bill.lines[0].charged); }},
      {"bill.lines[1].charged", [](FrozenQuote& q) { one_more(q.bill.lines[1].charged); }},
      {"bill.lines[2].charged", [](FrozenQuote& q) { one_more(q.bill.lines[2].charged); }},
      {"bill.lines[1].charged",
       [](FrozenQuote& q) {
         q.bill.lines[1].kept_worth = {1, 3};
       }},
      {"bill.lines[2].charged",
       [](FrozenQuote& q) { q.bill.lines[2].charging = endband::Charging::as_used; }},
      {"bill.lines[1].net",
       [](FrozenQuote& q) { q.bill.lines[1].kept.dimension = endband::Dimension::mass; }},
      {"sheet.lines[1].amount", [](FrozenQuote& q) { q.bill.lines[1].unit.minor += 1; }},
      {"sheet.lines[1].amount", [](FrozenQuote& q) { one_more(q.bill.lines[1].unit.pack); }},
      {"sheet.lines[0].amount", [](FrozenQuote& q) { q.bill.lines[0].customer_supplied = true; }},
      {"sheet.lines[8].amount",
       [](FrozenQuote& q) {
         q.bill.lines[0].ruin_chance = {2, 100};
       }},
      {"sheet.lines[8].kind", [](FrozenQuote& q) { q.bill.lines[0].ruin_chance = 0; }},
      {"sheet.lines[2].part", [](FrozenQuote& q) { q.bill.lines[2].uses[0].part = endband::Part::boards; }},
      {"sheet.part_shares", [](FrozenQuote& q) { q.bill.lines[2].uses[0].net.n += 100; }},
      {"sheet.lines[2].kind", [](FrozenQuote& q) { q.bill.lines.pop_back(); }},
  });
}

TEST_CASE(
    "a changed row of the work, of outside work or of the rules is named by the first figure that follows") {
  check_all({
      {"sheet.lines[4].amount", [](FrozenQuote& q) { q.work.lines[1].mean_seconds = Ratio(9'100); }},
      {"sheet.lines[3].part", [](FrozenQuote& q) { q.work.lines[0].part = endband::Part::boards; }},
      {"sheet.lines[8].amount",
       [](FrozenQuote& q) { q.work.lines[0].kind = endband::OperationKind::mix_paste; }},
      {"outside[0].price", [](FrozenQuote& q) { one_more(q.outside[0].price); }},
      {"outside[1].price", [](FrozenQuote& q) { one_more(q.outside[1].each); }},
      {"outside[1].price", [](FrozenQuote& q) { q.outside[1].quantity.n = 2000; }},
      {"sheet.lines[8].kind",
       [](FrozenQuote& q) {
         q.outside[0].redo = {1, 10};
       }},
      {"sheet.lines[7].at_cost", [](FrozenQuote& q) { q.outside[1].at_cost = true; }},
      {"sheet.lines[3].amount", [](FrozenQuote& q) { q.shop.basis.pay_wanted.minor += 1000'00; }},
      {"sheet.lines[5].amount", [](FrozenQuote& q) { q.shop.basis.overhead.minor += 1000'00; }},
      {"sheet.lines[9].amount",
       [](FrozenQuote& q) {
         q.shop.contingency = {5, 100};
       }},
      {"offer.ladder.walk_away.price", [](FrozenQuote& q) { one_more(q.shop.least_hourly); }},
      {"offer.ladder.asked.price", [](FrozenQuote& q) { q.shop.least_charge = eur(5'000'00); }},
      {"offer.ladder.target.price",
       [](FrozenQuote& q) {
         q.goal = endband::MarkupGoal{{30, 100}};
       }},
      {"offer.ladder.asked.price", [](FrozenQuote& q) { q.selling.points.below = 200; }},
      {"offer.ladder.asked.price",
       [](FrozenQuote& q) {
         q.selling.tax.rate = {20, 100};
       }},
      {"offer.deposit",
       [](FrozenQuote& q) {
         q.selling.deposit.share = {90, 100};
       }},
      {"offer.carriage", [](FrozenQuote& q) { one_more(q.delivery.carriage); }},
      {"offer", [](FrozenQuote& q) { q.goal = endband::MarginGoal{1}; }},
  });
}
