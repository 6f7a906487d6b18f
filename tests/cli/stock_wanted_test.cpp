// What a job still needs of its quote.
#include "cli/commands/stock_wanted.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::cli;
using namespace std::chrono_literals;

namespace {

Date const day{2026y / std::chrono::December / 1};
constexpr MaterialId paper{1}, goat{2};

// 20 sheets with 2 spoiled out of a pack of 125; three skins opened for a set, of which 1.5 m2 is consumed.
FrozenQuote quote(Charging charging, SetShares shares) {
  FrozenQuote result;
  result.set_shares = shares;
  result.materials.resize(2);
  result.materials[0].id = paper;
  result.materials[0].sold_by = SoldBy::sheet;
  result.materials[1].id = goat;
  result.materials[1].sold_by = SoldBy::skin;
  result.choices = {{Role::text_paper, paper, Origin::said}, {Role::leather, goat, Origin::said}};
  BillLine sheets;
  sheets.material = paper;
  sheets.net = amount(Count{20'000});
  sheets.spoil = amount(Count{2'000});
  sheets.cutting_loss = amount(Count{0});
  sheets.opened = amount(Count{125'000});
  sheets.charging = charging;
  BillLine skins;
  skins.material = goat;
  skins.net = amount(Area{1'200'000'000'000});
  skins.spoil = amount(Area{0});
  skins.cutting_loss = amount(Area{300'000'000'000});
  skins.opened = amount(Area{1'800'000'000'000});
  skins.units_opened = 3;
  result.bill.lines = {sheets, skins};
  return result;
}

Holding holding(MaterialId material, std::int64_t used, std::int64_t spoiled, std::int64_t kept) {
  Holding result;
  result.material = material;
  result.used = used;
  result.spoiled = spoiled;
  result.kept = kept;
  return result;
}

}  // namespace

TEST_CASE("a job wants what its quote consumes, or opens where it is charged whole") {
  auto const as_used = wanted_of(quote(Charging::as_used, SetShares::nothing), {}, "26-014", day);
  REQUIRE(as_used.size() == 2);
  CHECK(as_used[0].quantity == 22'000);
  CHECK(as_used[0].job == "26-014");
  CHECK(as_used[0].needed_on == day);
  CHECK(as_used[1].quantity == 1'500'000'000'000);
  CHECK(as_used[1].of_one_batch == 0);
  CHECK(wanted_of(quote(Charging::whole, SetShares::nothing), {}, "x", day)[0].quantity == 125'000);
}

TEST_CASE("what a job took, less what it gave back as offcuts, is wanted no more") {
  JobRecord record;
  record.taken = {holding(paper, 10'000, 3'000, 1'000), holding(goat, 1'500'000'000'000, 0, 0)};
  auto const wanted = wanted_of(quote(Charging::as_used, SetShares::nothing), record, "x", day);
  REQUIRE(wanted.size() == 1);  // all the leather is there
  CHECK(wanted[0].quantity == 10'000);
}

TEST_CASE("what a job does without and what the customer brings is not wanted") {
  JobRecord record;
  record.without = {paper};
  FrozenQuote brought = quote(Charging::as_used, SetShares::nothing);
  brought.bill.lines[1].customer_supplied = true;
  CHECK(wanted_of(brought, record, "x", day).empty());
}

TEST_CASE("volumes that match want skins of one batch, as many as are still to come") {
  CHECK(wanted_of(quote(Charging::as_used, SetShares::batch), {}, "x", day)[1].of_one_batch == 3);
  CHECK(wanted_of(quote(Charging::as_used, SetShares::batch), {}, "x", day)[0].of_one_batch == 0);  // paper
  JobRecord record;
  record.taken = {holding(goat, 600'000'000'000, 0, 0)};
  CHECK(wanted_of(quote(Charging::as_used, SetShares::batch), record, "x", day)[1].of_one_batch == 2);
  FrozenQuote one = quote(Charging::as_used, SetShares::batch);
  one.bill.lines[1].units_opened = 1;
  CHECK(wanted_of(one, {}, "x", day)[1].of_one_batch == 0);  // any skin matches itself
  one.set_shares = SetShares::skin;
  CHECK(wanted_of(one, {}, "x", day)[1].of_one_batch == 1);  // but all must come out of this one
}
