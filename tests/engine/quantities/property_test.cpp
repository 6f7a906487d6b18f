// Needs of random structures.
#include "tests/engine/quantities/parts.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <map>
#include <utility>

using namespace endband;

namespace {

std::int64_t up_to(std::int64_t most) { return *rc::gen::inRange<std::int64_t>(1, most + 1); }
Item any_item() { return static_cast<Item>(*rc::gen::inRange(0, 8)); }
Part any_part() { return static_cast<Part>(*rc::gen::inRange(0, 4)); }

Structure any_structure() {
  Structure book;
  for (auto n = up_to(4); n > 0; --n)
    book.pieces.push_back(parts::piece(any_item(), any_part(), up_to(3), up_to(20), Length{up_to(300'000)},
                                       Length{up_to(300'000)},
                                       *rc::gen::element(Grain::any, Grain::along_height)));
  for (auto n = up_to(4); n > 0; --n) {
    Length const each{up_to(10'000'000)};
    book.runs.push_back(parts::run(any_item(), any_part(), 4, up_to(9), each, each + Length{up_to(500'000)}));
  }
  for (auto n = up_to(4); n > 0; --n)
    book.spreads.push_back(parts::spread(any_item(), any_part(), 4 + up_to(2), Area{up_to(200'000'000'000)},
                                         static_cast<int>(up_to(2)), static_cast<int>(up_to(2))));
  for (auto n = up_to(4); n > 0; --n)
    book.strips.push_back(
        parts::strips(any_item(), any_part(), 8, up_to(50), Length{up_to(90'000)}, goods::mm(80)));
  for (auto n = up_to(4); n > 0; --n)
    book.things.push_back(parts::things(any_item(), any_part(), 7, amount(Count{up_to(20'000)})));
  return book;
}

using Totals = std::map<std::int64_t, std::pair<std::int64_t, std::int64_t>>;  // material -> net, taken
Totals totals(Needs const& needs) {
  Totals sums;
  for (Need const& need : needs.needs) {
    sums[need.material.value].first += need.net.n;
    sums[need.material.value].second += need.taken.n;
  }
  return sums;
}

}  // namespace

TEST_CASE("needs are grouped by material and ordered by the book, and no use stands twice") {
  CHECK(rc::check([] {
    Needs const needs = quantities(any_structure(), {}, goods::catalogue(goods::all()));
    auto const before = [](Need const& a, Need const& b) {
      return std::tuple(a.material, a.part, a.item, a.pieces.empty(), a.how) <
             std::tuple(b.material, b.part, b.item, b.pieces.empty(), b.how);
    };
    RC_ASSERT(std::is_sorted(needs.needs.begin(), needs.needs.end(), before));
    for (std::size_t i = 1; i < needs.needs.size(); ++i)
      RC_ASSERT(before(needs.needs[i - 1], needs.needs[i]));
    for (Need const& need : needs.needs) {
      RC_ASSERT(need.net.n > 0);
      RC_ASSERT(need.taken.n >= need.net.n);
      RC_ASSERT(need.net.dimension == need.taken.dimension);
    }
  }));
}

TEST_CASE("the order in which a structure lists its rows changes nothing that is needed") {
  CHECK(rc::check([] {
    Structure book = any_structure();
    Totals const before = totals(quantities(book, {}, goods::catalogue(goods::all())));
    std::reverse(book.pieces.begin(), book.pieces.end());
    std::reverse(book.runs.begin(), book.runs.end());
    std::reverse(book.spreads.begin(), book.spreads.end());
    std::reverse(book.strips.begin(), book.strips.end());
    std::reverse(book.things.begin(), book.things.end());
    RC_ASSERT(totals(quantities(book, {}, goods::catalogue(goods::all()))) == before);
  }));
}

TEST_CASE("all pieces of a structure are in its needs, and their area is the net") {
  CHECK(rc::check([] {
    Structure const book = any_structure();
    std::int64_t given = 0;
    for (Piece const& piece : book.pieces) given += (area(piece.height, piece.width) * piece.count).n;
    std::int64_t needed = 0;
    std::size_t rows = 0;
    for (Need const& need : quantities(book, {}, goods::catalogue(goods::all())).needs) {
      if (need.pieces.empty()) continue;
      needed += need.net.n;
      rows += need.pieces.size();
    }
    RC_ASSERT(needed == given);
    RC_ASSERT(rows == book.pieces.size());
  }));
}

TEST_CASE("leaves hold the area of their strips") {
  CHECK(rc::check([] {
    std::int64_t const count = up_to(200);
    Length const width{up_to(80'000)};
    Structure book;
    book.strips = {parts::strips(Item::leaf_lines, Part::lines, 8, count, width, goods::mm(80))};
    std::int64_t const leaves = parts::only_need(book, goods::all()).net.n / 1000;
    RC_ASSERT(leaves * 80'000 >= count * width.n);
    RC_ASSERT((leaves - 1) * (80'000 / width.n) < count);  // one leaf fewer would not do
  }));
}
