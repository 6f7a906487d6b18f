// Yields worked by hand; lengths in mm.
#include "engine/cutting/yield.h"

#include <doctest/doctest.h>

#include <stdexcept>
#include <vector>

using namespace endband;

namespace {

Length mm(std::int64_t millimetres) { return {millimetres * 1000}; }
SheetSize sheet(std::int64_t first, std::int64_t along_grain) { return {mm(first), mm(along_grain)}; }
Piece piece(std::int64_t count, std::int64_t height, std::int64_t width, Grain grain = Grain::along_height,
            int group = 0) {
  Piece row{};
  row.count = count;
  row.height = mm(height);
  row.width = mm(width);
  row.grain = grain;
  row.skin_group = group;
  return row;
}
using Pieces = std::vector<Piece>;

}  // namespace

// 700 / 328 = 2 rows along the grain, 500 / 230 = 2 across; turned 700 / 230 = 3 and 500 / 328 = 1.
TEST_CASE("pieces lie in rows and columns with their grain along the sheet's second side") {
  CHECK(pieces_a_sheet(sheet(500, 700), mm(328), mm(230), Grain::along_height) == 4);
  CHECK(pieces_a_sheet(sheet(500, 700), mm(328), mm(230), Grain::along_width) == 3);
  CHECK(pieces_a_sheet(sheet(500, 700), mm(230), mm(328), Grain::along_width) == 4);
  CHECK(pieces_a_sheet(sheet(500, 700), mm(328), mm(230), Grain::any) == 4);
}

TEST_CASE("a piece of the sheet's own size comes out once, one a micrometre longer not at all") {
  CHECK(pieces_a_sheet(sheet(500, 700), mm(700), mm(500), Grain::along_height) == 1);
  CHECK(pieces_a_sheet(sheet(500, 700), mm(700), mm(500), Grain::along_width) == 0);
  CHECK(pieces_a_sheet(sheet(500, 700), Length{700'001}, mm(500), Grain::any) == 0);
}

// ISO 216: each size is the half of the one before it, cut across its longer side.
TEST_CASE("an A1 sheet gives eight A4, whichever way its grain runs") {
  CHECK(pieces_a_sheet(sheet(594, 841), mm(297), mm(210), Grain::any) == 8);
  CHECK(pieces_a_sheet(sheet(841, 594), mm(297), mm(210), Grain::along_height) == 8);
}

TEST_CASE("sheets of one size are counted by the yield") {
  Pieces const folded{piece(75, 328, 230)};
  auto const yield = sheets_for(sheet(500, 700), folded);
  REQUIRE(yield);
  CHECK(yield->sheets == 19);  // 75 / 4 = 18.75
  CHECK(yield->share == Count{18'750});
  CHECK(yield->used == area(mm(328), mm(230)) * 75);
}

TEST_CASE("a share is rounded up to a thousandth of a sheet") {
  Pieces const one_of_three{piece(1, 230, 328, Grain::along_height)};
  auto const yield = sheets_for(sheet(500, 700), one_of_three);
  REQUIRE(yield);
  CHECK(yield->share == Count{334});  // 1 / 3
  CHECK(yield->sheets == 1);
}

// A sheet of 600 x 1000: the large piece leaves 200 x 1000, from which the narrow one comes.
TEST_CASE("a small piece comes out of what a large one leaves, and then costs no sheet of its own") {
  Pieces const both{piece(3, 900, 400), piece(3, 900, 150)};
  auto const yield = sheets_for(sheet(600, 1000), both);
  REQUIRE(yield);
  CHECK(yield->sheets == 3);
  CHECK(yield->share == Count{3000});  // 3 / 1 + 3 / 4 by yield, but no more than is opened
}

TEST_CASE("pieces of several sizes that do not share a sheet take one each") {
  Pieces const both{piece(1, 900, 400), piece(1, 900, 350)};
  auto const yield = sheets_for(sheet(600, 1000), both);
  REQUIRE(yield);
  CHECK(yield->sheets == 2);
}

// One piece fills half of the sheet along one side; two fill the other half only one after the other.
TEST_CASE("shelves may run along either side of a sheet") {
  Pieces const columns{piece(1, 1000, 300), piece(2, 500, 300)};
  CHECK(sheets_for(sheet(600, 1000), columns)->sheets == 1);
  Pieces const rows{piece(1, 500, 600), piece(2, 500, 300)};
  CHECK(sheets_for(sheet(600, 1000), rows)->sheets == 1);
}

// 900 x 450 and 650 x 400 leave 250 x 400 of 900 x 850: a piece of 450 x 200 lies there neither way.
TEST_CASE("a turned piece is never laid higher than its shelf") {
  Pieces const all{piece(1, 450, 900), piece(1, 400, 650), piece(1, 450, 200, Grain::any)};
  CHECK(sheets_for(sheet(900, 850), all)->sheets == 2);
}

TEST_CASE("a piece that does not lie in the sheet gives no yield at all") {
  Pieces const too_long{piece(1, 100, 100), piece(1, 701, 100)};
  CHECK_FALSE(sheets_for(sheet(500, 700), too_long));
  CHECK(sheets_for(sheet(500, 701), too_long));
}

TEST_CASE("no pieces take nothing") {
  CHECK(sheets_for(sheet(500, 700), {})->sheets == 0);
  CHECK(skins_for(mm(720), mm(480), {})->skins == 0);
  CHECK(roll_for(mm(1000), {})->length == Length{});
}

TEST_CASE("a cover and its strap come from the rectangle of one skin") {
  Pieces const cover_and_strap{piece(1, 267, 389), piece(1, 600, 25)};
  CHECK(skins_for(mm(720), mm(480), cover_and_strap)->skins == 1);
}

TEST_CASE("a piece lies along the backbone and is turned only when its grain does not matter") {
  CHECK_FALSE(skins_for(mm(720), mm(480), Pieces{piece(1, 300, 500)}));
  CHECK(skins_for(mm(720), mm(480), Pieces{piece(1, 300, 500, Grain::any)})->skins == 1);
  CHECK(skins_for(mm(720), mm(480), Pieces{piece(1, 300, 500, Grain::along_width)})->skins == 1);
}

// Cover 400 x 460 and strap 700 x 15 fill a skin; the next cover opens another.
TEST_CASE("the pieces of a group come from one skin") {
  Pieces const two_sets{piece(1, 400, 460, Grain::along_height, 1), piece(1, 700, 15, Grain::along_height, 1),
                        piece(1, 400, 460, Grain::along_height, 2),
                        piece(1, 700, 15, Grain::along_height, 2)};
  CHECK(skins_for(mm(720), mm(480), two_sets)->skins == 2);
  Pieces const too_much{piece(2, 400, 460, Grain::along_height, 1)};
  CHECK_FALSE(skins_for(mm(720), mm(480), too_much));
  Pieces const apart{piece(2, 400, 460)};
  CHECK(skins_for(mm(720), mm(480), apart)->skins == 2);
}

TEST_CASE("what belongs to no group fills the skins of those that do") {
  Pieces const all{piece(4, 60, 60, Grain::any), piece(1, 400, 460, Grain::along_height, 1)};
  CHECK(skins_for(mm(720), mm(480), all)->skins == 1);
}

// 1000 / 40 = 25 panels side by side: 30 take two rows of 50 mm.
TEST_CASE("linen off a roll is taken in whole rows across its width") {
  CHECK(roll_for(mm(1000), Pieces{piece(30, 50, 40)})->length == mm(100));
  CHECK(roll_for(mm(1000), Pieces{piece(25, 50, 40)})->length == mm(50));
  CHECK(roll_for(mm(1000), Pieces{piece(30, 50, 40), piece(1, 20, 1000)})->length == mm(120));
}

TEST_CASE("a piece off a roll is turned only when its grain does not matter") {
  CHECK(roll_for(mm(1000), Pieces{piece(1, 900, 20)})->length == mm(900));
  CHECK(roll_for(mm(1000), Pieces{piece(1, 900, 20, Grain::any)})->length == mm(20));
  CHECK(roll_for(mm(1000), Pieces{piece(1, 900, 20, Grain::along_width)})->length == mm(20));
  CHECK(roll_for(mm(1000), Pieces{piece(1, 1200, 20, Grain::any)})->length == mm(1200));
  CHECK_FALSE(roll_for(mm(1000), Pieces{piece(1, 20, 1001)}));
}

TEST_CASE("nothing without extent is cut") {
  CHECK_THROWS_AS(static_cast<void>(pieces_a_sheet(sheet(0, 700), mm(10), mm(10), Grain::any)),
                  std::logic_error);
  CHECK_THROWS_AS(static_cast<void>(sheets_for(sheet(500, 700), Pieces{piece(1, 0, 10)})), std::logic_error);
  CHECK_THROWS_AS(static_cast<void>(skins_for(mm(720), mm(480), Pieces{piece(1, 10, -1)})), std::logic_error);
  CHECK_THROWS_AS(static_cast<void>(roll_for(mm(0), Pieces{piece(1, 10, 10)})), std::logic_error);
  CHECK_THROWS_AS(static_cast<void>(sheets_for(sheet(500, 700), Pieces{piece(-1, 10, 10)})),
                  std::logic_error);
}
