// From needs to cut requests, and from plans back to the bill.
#include "tests/engine/bill/uses.h"

using namespace endband;

namespace {

constexpr CutRules rules{};

BillLine settled_by_plan(Material const& material, std::vector<Need> needs, CutRules const& with = rules) {
  Catalogue const catalogue = goods::catalogue({material});
  PlanTable plans;
  for (CutRequest const& request : requests({needs}, catalogue, with)) {
    plans.emplace(plan_key(request, with.work), plan_to_buy(request, {with.work, {}}));
  }
  Read<Bill> const bill = settle({std::move(needs)}, {}, catalogue, plans, with);
  REQUIRE(bill.has_value());
  REQUIRE(bill->lines.size() == 1);
  return bill->lines.front();
}

Need boards(Material const& material, std::int64_t count, std::int64_t height_mm, std::int64_t width_mm) {
  return uses::cut(Item::boards, Part::boards, material, {uses::piece(count, height_mm, width_mm)});
}

Need lengths(Material const& material, std::int64_t count, std::int64_t each_mm) {
  Need need = uses::of(Item::registers, Part::registers, material, count * each_mm * 1000,
                       count * each_mm * 1000, HowFound::by_length);
  need.runs.push_back(
      {Item::registers, Part::registers, material.id, count, goods::mm(each_mm), goods::mm(each_mm)});
  return need;
}

Material ribbon(std::int64_t pack_mm) {
  Material row = goods::material(9, "ribbon-moss", MaterialKind::ribbon, SoldBy::length);
  row.properties.width = goods::mm(6);
  row.price = goods::price(amount(goods::mm(pack_mm)), 2100);
  return row;
}

}  // namespace

TEST_CASE("two pieces of a sheet take their own area, and the rest is kept where both sides are worth it") {
  // 500 x 700: two of 300 x 200 side by side leave 100 x 300 beside them and 500 x 400 above, or 500 x 400
  // and 100 x 300.
  BillLine const line = settled_by_plan(goods::paper(), {boards(goods::paper(), 2, 300, 200)});
  CHECK(line.how == HowFound::by_plan);
  CHECK(line.opened.n == 1000);
  CHECK(line.net.n == 343);   // 120,000 of 350,000 mm2, rounded up
  CHECK(line.kept.n == 657);  // 100 x 300 and 500 x 400, rounded down
  CHECK(line.cutting_loss.n == 0);
  CHECK(line.plan_cost == line.plan_bound);
}

TEST_CASE("an offcut that is too narrow is cut away") {
  // 430 of 500 mm across: 70 x 700 is less than 80 mm wide.
  BillLine const line = settled_by_plan(goods::paper(), {boards(goods::paper(), 1, 700, 430)});
  CHECK(line.kept.n == 0);
  CHECK(line.cutting_loss.n == 1000 - 860);
  CutRules narrow = rules;
  narrow.least_kept = goods::mm(70);
  CHECK(settled_by_plan(goods::paper(), {boards(goods::paper(), 1, 700, 430)}, narrow).kept.n == 140);
}

TEST_CASE("a kerf is lost in board and not in paper") {
  Material board = goods::paper();
  board.kind = MaterialKind::board;
  CutRules sawn = rules;
  sawn.kerf = goods::mm(2);
  CHECK(settled_by_plan(board, {boards(board, 2, 700, 250)}).opened.n == 1000);
  CHECK(settled_by_plan(board, {boards(board, 2, 700, 250)}, sawn).opened.n == 2000);
  CHECK(settled_by_plan(goods::paper(), {boards(goods::paper(), 2, 700, 250)}, sawn).opened.n == 1000);
}

TEST_CASE("pieces off a roll take the length torn off, whatever lies beside them") {
  BillLine const line = settled_by_plan(goods::mull(), {boards(goods::mull(), 3, 200, 400)});
  CHECK(line.how == HowFound::by_plan);
  CHECK(line.net.n == 240'000);         // 3 x 200 x 400 mm2 over 1,000 mm of width
  CHECK(line.consumed().n == 400'000);  // two rows
}

TEST_CASE("a cover from a skin nobody has measured takes its area over the usable share, on a guess") {
  BillLine const line = settled_by_plan(goods::skin(), {boards(goods::skin(), 1, 300, 400)});
  CHECK(line.how == HowFound::by_plan);
  CHECK(line.plan_guess);
  CHECK(line.units_opened == 1);
  CHECK(line.consumed().n == 176'470'588'236);  // 120,000 mm2 / 0.68, rounded up
}

TEST_CASE("two covers of one skin that hold together only by themselves open two") {
  Need both = boards(goods::skin(), 2, 700, 470);
  CHECK(settled_by_plan(goods::skin(), {both}).units_opened == 2);
}

TEST_CASE("ribbons come off whole lengths where a pack is one, and by the metre where it is a metre") {
  // Of 1.5 m: 4 of 0.4 m need two; 1.2 m of the first are cut and 0.3 m kept.
  BillLine const packs = settled_by_plan(ribbon(1500), {lengths(ribbon(1500), 4, 400)});
  CHECK(packs.how == HowFound::by_plan);
  CHECK(packs.consumed().n == 1'600'000);
  CHECK(packs.opened.n == 3'000'000);
  // What is left of 1.25 m after three is 50 mm, and lost.
  CHECK(settled_by_plan(ribbon(1250), {lengths(ribbon(1250), 3, 400)}).consumed().n == 1'250'000);
  BillLine const metre = settled_by_plan(ribbon(1000), {lengths(ribbon(1000), 4, 1200)});
  CHECK(metre.consumed().n == 4'800'000);
  CHECK(metre.opened.n == 5'000'000);
}

TEST_CASE("without a plan, or with one that found no way, the line is found by yield and says so") {
  Need const need = boards(goods::paper(), 2, 300, 200);
  CHECK(uses::settled(goods::paper(), {need}).how == HowFound::by_yield);
  Catalogue const catalogue = goods::catalogue({goods::paper()});
  CutRequest const request = requests({{need}}, catalogue, rules).at(0);
  PlanTable plans;
  PlanFacts none;
  none.outcome = cutting::Outcome::not_found;
  plans.emplace(plan_key(request, rules.work), none);
  CHECK(settle({{need}}, {}, catalogue, plans, rules).value().lines.front().how == HowFound::by_yield);
}

TEST_CASE("a key holds every number of its request") {
  Material const paper = goods::paper();
  Catalogue const catalogue = goods::catalogue({paper});
  auto const key = [&](Need const& need, CutRules const& with) {
    return plan_key(requests({{need}}, catalogue, with).at(0), with.work);
  };
  PlanKey const same = key(boards(paper, 2, 300, 200), rules);
  CHECK(key(boards(paper, 2, 300, 200), rules) == same);
  CHECK(key(boards(paper, 3, 300, 200), rules) != same);
  CHECK(key(boards(paper, 2, 301, 200), rules) != same);
  CHECK(key(boards(paper, 2, 300, 201), rules) != same);
  CutRules other = rules;
  other.work += 1;
  CHECK(key(boards(paper, 2, 300, 200), other) != same);
  other = rules;
  other.least_kept = goods::mm(81);
  CHECK(key(boards(paper, 2, 300, 200), other) != same);
}

TEST_CASE("a plan kept of a skin is not used where as much of it is no longer usable, or paid for") {
  Material const skin = goods::skin();
  auto const planned = [](Material const& material) {
    return settled_by_plan(material, {boards(material, 1, 300, 400)}).consumed().n;
  };
  auto const key = [](Material const& material) {
    return plan_key(requests({{boards(material, 1, 300, 400)}}, goods::catalogue({material}), rules).at(0),
                    rules.work);
  };
  Material less = skin;
  less.properties.usable_share = Ratio(1, 2);
  CHECK(planned(less) > planned(skin));
  CHECK(key(less) != key(skin));
  Material smaller = skin;
  smaller.price->pack.n -= 1'000'000'000;
  CHECK(key(smaller) != key(skin));
  CHECK(key(goods::skin()) == key(skin));
}

TEST_CASE("what lies on the shelf is cut before anything new is bought") {
  Material const paper = goods::paper();
  Need const need = boards(paper, 2, 300, 200);
  // An offcut of 310 x 410 for 0.20, a sheet for 0.64; new sheets at 0.70. In thousandths of a cent.
  std::vector<ShelfPiece> const shelf{{.lot = 7,
                                       .material = paper.id,
                                       .quantity = 363,
                                       .cost = 20'000,
                                       .height = goods::mm(310),
                                       .width = goods::mm(410)},
                                      {.lot = 8, .material = paper.id, .quantity = 1000, .cost = 64'000}};
  auto const list = requests_shelf_first({&need, 1}, paper, rules, shelf, 70'000);
  REQUIRE(list.size() == 1);
  auto const answer = std::get<cutting::Answer<cutting::CutSheet>>(plan(list.front(), {rules.work, {}}));
  REQUIRE(answer.used.size() == 1);
  CHECK(list.front().stock.at(static_cast<std::size_t>(answer.used.front().sheet)).lot == 7);
}
