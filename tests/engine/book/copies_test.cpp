// Copies and volumes of the plain book, counted by hand.
#include "engine/book/copies.h"

#include "tests/fixtures/sample_spec.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <numeric>
#include <stdexcept>

using namespace endband;

namespace {

Catalogue const& catalogue() {
  static Catalogue const made = fixtures::sample_catalogue();
  return made;
}
Structure plain() { return structure(fixtures::sample_spec(catalogue()), catalogue()); }

std::int64_t done(Structure const& book, OperationKind kind) {
  std::int64_t thousandths = 0;
  for (Operation const& operation : book.operations)
    if (operation.kind == kind) thousandths += operation.count.n;
  return thousandths;
}

// Micrometres of a run: in the books, and taken for them.
std::pair<std::int64_t, std::int64_t> length_of(Structure const& book, Item item) {
  std::int64_t net = 0, taken = 0;
  for (Run const& run : book.runs) {
    if (run.item != item) continue;
    net += run.count * run.each.n;
    taken += run.count * run.taken.n;
  }
  return {net, taken};
}

BookSpec set_of_two(SetShares shares = SetShares::nothing) {
  BookSpec spec = fixtures::sample_spec(catalogue());
  SetVolume first, second;
  second.title = "The second";
  second.said.set(FigureId::pages_wanted, 160, Origin::said);
  spec.volumes = {first, second};
  spec.set_shares = shares;
  return spec;
}

}  // namespace

TEST_CASE("one copy is the book itself") {
  Structure const one = times(plain(), 1);
  CHECK(one.pieces.size() == plain().pieces.size());
  CHECK(one.figures.value(FigureId::copies) == 1);
  CHECK(done(one, OperationKind::sew_sections) == done(plain(), OperationKind::sew_sections));
  CHECK_THROWS_AS(times(plain(), 0), std::logic_error);
}

TEST_CASE("what is in a book is in every copy") {
  Structure const one = plain();
  Structure const three = times(one, 3);
  REQUIRE(three.pieces.size() == one.pieces.size());
  for (std::size_t i = 0; i < one.pieces.size(); ++i) {
    CHECK(three.pieces[i].count == 3 * one.pieces[i].count);
    CHECK(three.pieces[i].copies == 3);
  }
  for (std::size_t i = 0; i < one.spreads.size(); ++i)
    CHECK(three.spreads[i].area.n == 3 * one.spreads[i].area.n);
  for (std::size_t i = 0; i < one.things.size(); ++i) CHECK(three.things[i].net.n == 3 * one.things[i].net.n);
  CHECK(length_of(three, Item::sewing_thread).second == 3 * length_of(one, Item::sewing_thread).second);
  CHECK(three.mass == one.mass);
  CHECK(three.closed_height == one.closed_height);
}

TEST_CASE("copies are sewn on one frame, which wastes its cord once") {
  auto const [net, taken] = length_of(plain(), Item::cords);
  auto const [net_of_four, taken_by_four] = length_of(times(plain(), 4), Item::cords);
  CHECK(taken - net == 5 * 150'000);  // five cords, 150 mm each on the frame
  CHECK(net_of_four == 4 * net);
  CHECK(taken_by_four - net_of_four == taken - net);
  CHECK(done(times(plain(), 4), OperationKind::set_up_frame) == done(plain(), OperationKind::set_up_frame));
}

TEST_CASE("paste is mixed and the order is written up once, the bench and the post work for each copy") {
  Structure const one = plain();
  Structure const four = times(one, 4);
  for (OperationKind const kind :
       {OperationKind::mix_paste, OperationKind::answer_enquiry, OperationKind::draw_proof,
        OperationKind::photograph, OperationKind::order_materials, OperationKind::keep_accounts}) {
    CAPTURE(operation_row(kind).name);
    CHECK(done(four, kind) == 1000);
    CHECK(once_an_order(kind));
  }
  for (OperationKind const kind : {OperationKind::sew_sections, OperationKind::cover_book,
                                   OperationKind::pack_parcel, OperationKind::post_parcel}) {
    CAPTURE(operation_row(kind).name);
    CHECK(done(four, kind) == 4 * done(one, kind));
    CHECK_FALSE(once_an_order(kind));
  }
}

TEST_CASE("a volume is the description with what the volume says") {
  BookSpec const set = set_of_two();
  CHECK(volume_of(set, 0).given.value(FigureId::pages_wanted) == 300);
  CHECK(volume_of(set, 1).given.value(FigureId::pages_wanted) == 160);
  CHECK(volume_of(set, 1).title == "The second");
  CHECK(volume_of(set, 0).title == set.title);
  CHECK(volume_of(set, 1).given.value(FigureId::square) == set.given.value(FigureId::square));
}

TEST_CASE("of a volume with pages of its own, sheets and a thickness measured for others do not hold") {
  BookSpec set = set_of_two();
  set.given.set(FigureId::block_thickness, 40, Origin::said);
  set.given.set(FigureId::sheets, 75, Origin::said);
  CHECK(volume_of(set, 0).given.has(FigureId::block_thickness));
  CHECK_FALSE(volume_of(set, 1).given.has(FigureId::block_thickness));
  CHECK_FALSE(volume_of(set, 1).given.has(FigureId::sheets));
  set.volumes[1].said.set(FigureId::block_thickness, 21, Origin::said);
  CHECK(volume_of(set, 1).given.value(FigureId::block_thickness) == 21);
}

TEST_CASE("a set has the pieces of each volume by its number, and one line of work for each operation") {
  std::vector<Structure> const books = volumes_of(set_of_two(), catalogue());
  REQUIRE(books.size() == 2);
  Structure const set = together(books, SetShares::nothing);
  CHECK(set.pieces.size() == books[0].pieces.size() + books[1].pieces.size());
  CHECK(set.pieces.front().volume == 1);
  CHECK(set.pieces.back().volume == 2);
  CHECK(done(set, OperationKind::sew_sections) ==
        done(books[0], OperationKind::sew_sections) + done(books[1], OperationKind::sew_sections));
  CHECK(done(set, OperationKind::answer_enquiry) == 1000);
  CHECK(done(set, OperationKind::mix_paste) == 1000);
  std::vector<OperationKind> kinds;
  for (Operation const& operation : set.operations) kinds.push_back(operation.kind);
  CHECK(std::is_sorted(kinds.begin(), kinds.end()));
  CHECK(std::adjacent_find(kinds.begin(), kinds.end()) == kinds.end());
}

TEST_CASE("the covers of a set come from one skin where it says so, else each from its own") {
  auto const groups = [](SetShares shares) {
    std::vector<int> found;
    for (Piece const& piece : together(volumes_of(set_of_two(), catalogue()), shares).pieces)
      if (piece.item == Item::cover_leather) found.push_back(piece.skin_group);
    return found;
  };
  REQUIRE(groups(SetShares::skin).size() == 2);
  CHECK(groups(SetShares::skin)[0] == groups(SetShares::skin)[1]);
  CHECK(groups(SetShares::nothing)[0] != groups(SetShares::nothing)[1]);
  CHECK(groups(SetShares::batch)[0] != groups(SetShares::batch)[1]);
}
