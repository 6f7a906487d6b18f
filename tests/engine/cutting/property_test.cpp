// Yields against a search that tries every place on a grid.
#include "engine/cutting/yield.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <bitset>
#include <vector>

using namespace endband;

namespace {

constexpr int side = 6;  // cells of the grid; a sheet is at most side x side
using Cells = std::bitset<side * side>;

struct Grid {
  int across, along;
};

Cells rectangle(int x, int y, int across, int along) {
  Cells cells;
  for (int i = 0; i < across; ++i)
    for (int k = 0; k < along; ++k) {
      int const cell = (y + k) * side + x + i;
      cells.set(static_cast<std::size_t>(cell));
    }
  return cells;
}

// Whether pieces from `next` on can be laid into the units, each somewhere, by trying all places.
bool can_lie(std::vector<Piece> const& pieces, std::size_t next, Grid grid, std::vector<Cells>& units) {
  if (next == pieces.size()) return true;
  Piece const& piece = pieces[next];
  for (int turned = 0; turned < 2; ++turned) {
    if (piece.grain == (turned == 0 ? Grain::along_width : Grain::along_height)) continue;
    int const across = static_cast<int>(turned == 0 ? piece.width.n : piece.height.n);
    int const along = static_cast<int>(turned == 0 ? piece.height.n : piece.width.n);
    for (Cells& unit : units)
      for (int y = 0; y + along <= grid.along; ++y)
        for (int x = 0; x + across <= grid.across; ++x) {
          Cells const cells = rectangle(x, y, across, along);
          if ((unit & cells).any()) continue;
          unit |= cells;
          if (can_lie(pieces, next + 1, grid, units)) return true;
          unit &= ~cells;
        }
  }
  return false;
}

bool hold(std::size_t units, std::vector<Piece> const& sizes, Grid grid) {
  std::vector<Piece> singles;
  for (Piece const& size : sizes)
    for (std::int64_t i = 0; i < size.count; ++i) singles.push_back(size);
  std::sort(singles.begin(), singles.end(),
            [](Piece const& a, Piece const& b) { return area(b.height, b.width) < area(a.height, a.width); });
  std::vector<Cells> empty(units);
  return can_lie(singles, 0, grid, empty);
}

Grid any_grid() { return {*rc::gen::inRange(3, side + 1), *rc::gen::inRange(3, side + 1)}; }

std::vector<Piece> any_pieces(int sizes, std::int64_t most, std::int64_t largest) {
  std::vector<Piece> pieces(static_cast<std::size_t>(sizes));
  for (Piece& piece : pieces) {
    piece.count = *rc::gen::inRange<std::int64_t>(1, most + 1);
    piece.height = {*rc::gen::inRange<std::int64_t>(1, largest + 1)};
    piece.width = {*rc::gen::inRange<std::int64_t>(1, largest + 1)};
    piece.grain = *rc::gen::element(Grain::any, Grain::along_height, Grain::along_width);
  }
  return pieces;
}

SheetSize sheet_of(Grid grid) { return {Length{grid.across}, Length{grid.along}}; }

}  // namespace

TEST_CASE("what is said to come from so many sheets or skins does lie in them") {
  CHECK(rc::check([] {
    Grid const grid = any_grid();
    auto const pieces = any_pieces(*rc::gen::inRange(1, 4), 2, 4);
    auto const sheets = sheets_for(sheet_of(grid), pieces);
    auto const skins = skins_for(Length{grid.along}, Length{grid.across}, pieces);
    RC_ASSERT(sheets.has_value() == skins.has_value());
    bool const each_fits = std::all_of(pieces.begin(), pieces.end(), [&](Piece piece) {
      piece.count = 1;
      return hold(1, {piece}, grid);
    });
    RC_ASSERT(sheets.has_value() == each_fits);
    if (!sheets) return;
    RC_ASSERT(hold(static_cast<std::size_t>(sheets->sheets), pieces, grid));
    RC_ASSERT(hold(static_cast<std::size_t>(skins->skins), pieces, grid));
  }));
}

TEST_CASE("sheets hold the pieces' area and are no more than each size takes alone") {
  CHECK(rc::check([] {
    SheetSize const sheet{Length{*rc::gen::inRange<std::int64_t>(200, 1001)},
                          Length{*rc::gen::inRange<std::int64_t>(200, 1001)}};
    auto const pieces = any_pieces(*rc::gen::inRange(1, 6), 60, 200);
    auto const yield = sheets_for(sheet, pieces);
    RC_ASSERT(yield.has_value());
    std::int64_t alone = 0;
    for (Piece const& piece : pieces) {
      auto const one = sheets_for(sheet, {&piece, 1});
      std::int64_t const a_sheet = pieces_a_sheet(sheet, piece.height, piece.width, piece.grain);
      RC_ASSERT(one->sheets == (piece.count + a_sheet - 1) / a_sheet);
      alone += one->sheets;
    }
    RC_ASSERT(yield->sheets >= 1);
    RC_ASSERT(yield->sheets <= alone);
    RC_ASSERT(yield->share <= Count{1000} * yield->sheets);
    RC_ASSERT(yield->used.n <= yield->sheets * sheet.first.n * sheet.second.n);
    RC_ASSERT(yield->used.n * 1000 <= yield->share.n * sheet.first.n * sheet.second.n);
  }));
}

TEST_CASE("one size never takes fewer sheets, skins or length as its count grows") {
  CHECK(rc::check([] {
    auto pieces = any_pieces(1, 200, 200);
    SheetSize const sheet{Length{500}, Length{700}};
    auto const before = sheets_for(sheet, pieces);
    auto const skins = skins_for(Length{500}, Length{700}, pieces);
    auto const roll = roll_for(Length{300}, pieces);
    pieces[0].count += *rc::gen::inRange<std::int64_t>(0, 50);
    RC_ASSERT(sheets_for(sheet, pieces)->sheets >= before->sheets);
    RC_ASSERT(sheets_for(sheet, pieces)->share >= before->share);
    RC_ASSERT(skins_for(Length{500}, Length{700}, pieces)->skins >= skins->skins);
    RC_ASSERT(roll_for(Length{300}, pieces)->length >= roll->length);
  }));
}

TEST_CASE("the length of a roll holds the area of what is cut from it") {
  CHECK(rc::check([] {
    auto const pieces = any_pieces(*rc::gen::inRange(1, 5), 50, 300);
    auto const roll = roll_for(Length{400}, pieces);
    RC_ASSERT(roll.has_value());
    RC_ASSERT(roll->used.n <= roll->length.n * 400);
  }));
}
