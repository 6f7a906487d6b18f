#include "records.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::testing;

TEST_CASE("materials stand in the order of the quote, then what it did not have") {
  FrozenQuote const agreed = quote();
  JobRecord record = nothing_yet();
  record.taken = {taken(2, 4000, 1'111), taken(9, 70, 222)};
  record.taken[1].dimension = Dimension::mass;
  auto const rows = materials_beside(agreed, record);
  REQUIRE(rows.size() == 4);
  CHECK(rows[0].material == MaterialId{1});
  CHECK(rows[0].quoted == pieces(3750));
  CHECK(rows[0].quoted_cost == eur(4'639));  // 3.75 x 12.37
  CHECK(rows[0].taken == pieces(0));
  CHECK(rows[1].quoted == pieces(4500));  // as charged: whole, less the worth of what is kept
  CHECK(rows[1].taken == pieces(4000));
  CHECK(rows[1].taken_value == eur(1'111));
  CHECK(rows[3].material == MaterialId{9});
  CHECK(rows[3].quoted == Amount{Dimension::mass, 0});
  CHECK(rows[3].quoted_cost == eur(0));
  CHECK(rows[3].taken == Amount{Dimension::mass, 70});
}

TEST_CASE("what the customer supplies was quoted at nothing") {
  FrozenQuote agreed = quote();
  agreed.bill.lines[0].customer_supplied = true;
  CHECK(materials_beside(agreed, nothing_yet())[0].quoted_cost == eur(0));
}

TEST_CASE("offcuts that went back count against what was taken") {
  Holding holding = taken(1, 5000, 900);
  holding.cut_away = 300;
  holding.spoiled = 200;
  holding.kept = 1500;
  CHECK(holding.quantity() == 4000);
}

TEST_CASE("hours told by operation stand beside that operation") {
  FrozenQuote const agreed = quote();
  JobRecord record = nothing_yet();
  record.worked = {at(OperationKind::sew_sections, 10'000), at(OperationKind::draw_proof, 600)};
  auto const rows = work_beside(agreed, record);
  REQUIRE(rows.size() == 3);
  CHECK(rows[0].operation == OperationKind::pare_edges);
  CHECK(rows[0].quoted == Duration{5'400});
  CHECK(rows[0].worked == Duration{0});
  CHECK(rows[1].operation == OperationKind::sew_sections);
  CHECK(rows[1].worked == Duration{10'000});
  CHECK(rows[2].operation == OperationKind::draw_proof);
  CHECK(rows[2].quoted == Duration{0});
  CHECK(rows[2].worked == Duration{600});
}

TEST_CASE("hours told by part stand beside all operations of the part, told one by one or not") {
  FrozenQuote agreed = quote();
  agreed.work.lines.push_back(work_line(OperationKind::cover_book, 3'600, Part::cover));
  JobRecord record = nothing_yet();
  record.worked = {on(Part::cover, 8'000), at(OperationKind::pare_edges, 500),
                   at(OperationKind::dress_leather, 40)};  // a step of the cover that was not quoted
  auto const rows = work_beside(agreed, record);
  REQUIRE(rows.size() == 2);
  CHECK(rows[0].part == Part::cover);
  CHECK_FALSE(rows[0].operation.has_value());
  CHECK(rows[0].quoted == Duration{9'000});
  CHECK(rows[0].worked == Duration{8'540});
  CHECK(rows[1].operation == OperationKind::sew_sections);
}

TEST_CASE("quoted seconds sum to the whole though each is a fraction") {
  FrozenQuote agreed = quote();
  agreed.work.lines.clear();
  for (OperationKind const kind :
       {OperationKind::pare_edges, OperationKind::sew_sections, OperationKind::cover_book}) {
    agreed.work.lines.push_back(work_line(kind, 0, Part::cover));
    agreed.work.lines.back().mean_seconds = Ratio(100, 3);
  }
  std::int64_t sum = 0;
  for (WorkBeside const& row : work_beside(agreed, nothing_yet())) sum += row.quoted.n;
  CHECK(sum == 100);
}
