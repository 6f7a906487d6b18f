#include "engine/quantities/quantities.h"

#include "tests/engine/quantities/parts.h"

#include <doctest/doctest.h>

#include <stdexcept>

using namespace endband;
using goods::mm;
using goods::whole;

namespace {

constexpr Area square_metre{1'000'000'000'000};

}  // namespace

TEST_CASE("needs stand by material, and the uses of one in the order of the book") {
  Structure book;
  book.things = {parts::things(Item::extra, Part::extras, 1, amount(whole(2))),
                 parts::things(Item::corners, Part::corners, 7, amount(whole(4)))};
  book.pieces = {parts::piece(Item::endpaper_sheets, Part::endpapers, 1, 4, mm(328), mm(230)),
                 parts::piece(Item::cover_leather, Part::cover, 2, 1, mm(267), mm(389)),
                 parts::piece(Item::text_sheets, Part::text_block, 1, 75, mm(328), mm(230))};
  Needs const needs = quantities(book, {}, goods::catalogue(goods::all()));
  REQUIRE(needs.needs.size() == 5);
  CHECK(needs.needs[0].item == Item::text_sheets);
  CHECK(needs.needs[1].item == Item::endpaper_sheets);
  CHECK(needs.needs[2].item == Item::extra);
  CHECK(needs.needs[3].item == Item::cover_leather);
  CHECK(needs.needs[4].item == Item::corners);
  CHECK(needs.needs[2].material == MaterialId{1});
  CHECK(needs.needs[3].material == MaterialId{2});
}

TEST_CASE("pieces stay pieces, and their net is their area") {
  Structure book;
  book.pieces = {parts::piece(Item::underlay_cards, Part::underlays, 1, 2, mm(100), mm(50)),
                 parts::piece(Item::underlay_cards, Part::underlays, 1, 1, mm(30), mm(30), Grain::any)};
  Need const need = parts::only_need(book, goods::all());
  CHECK(need.how == HowFound::by_yield);
  REQUIRE(need.pieces.size() == 2);
  CHECK(need.pieces[0].count == 2);
  CHECK(need.pieces[1].grain == Grain::any);
  CHECK(need.net == amount(Area{10'900'000'000}));
  CHECK(need.taken == need.net);
}

TEST_CASE("how pieces are found follows from how their material is sold") {
  auto const how = [](std::int64_t material) {
    Structure book;
    book.pieces = {parts::piece(Item::extra, Part::extras, material, 1, mm(10), mm(10))};
    return parts::only_need(book, goods::all()).how;
  };
  CHECK(how(1) == HowFound::by_yield);
  CHECK(how(2) == HowFound::by_usable_rectangle);
  CHECK(how(3) == HowFound::by_yield);
}

// Thread of 9.14 m in nine needlefuls takes 9 x 0.13 m more.
TEST_CASE("a run keeps what is in the book and what it takes apart") {
  Structure book;
  book.runs = {parts::run(Item::sewing_thread, Part::sewing, 4, 1, mm(9'140), mm(10'310))};
  Need const need = parts::only_need(book, goods::all());
  CHECK(need.how == HowFound::by_length);
  CHECK(need.net == amount(mm(9'140)));
  CHECK(need.taken == amount(mm(10'310)));
}

TEST_CASE("equal runs are counted, and several of one use are summed") {
  Structure book;
  book.runs = {parts::run(Item::cords, Part::sewing, 4, 5, mm(150), mm(300)),
               parts::run(Item::cords, Part::sewing, 4, 1, mm(20), mm(20))};
  Need const need = parts::only_need(book, goods::all());
  CHECK(need.net == amount(mm(770)));
  CHECK(need.taken == amount(mm(1'520)));
}

// 18/3: 3 x 453.59237 g / (18 x 300 x 0.9144 m) = 0.275585 g a metre.
TEST_CASE("thread sold by weight is taken by its tex, rounded up to a milligram") {
  Material skein = goods::thread();
  skein.sold_by = SoldBy::weight;
  Structure book;
  book.runs = {parts::run(Item::sewing_thread, Part::sewing, 4, 1, mm(10'000), mm(12'000))};
  Need const need = parts::only_need(book, {skein});
  CHECK(need.net == amount(Mass{2'756}));
  CHECK(need.taken == amount(Mass{3'308}));  // 12 x 275.585 = 3307.02
}

// 140 g/m2.
TEST_CASE("a spread takes its adhesive for each coat and face, rounded up once a use") {
  auto const glue = [](std::vector<Spread> spreads) {
    Structure book;
    book.spreads = std::move(spreads);
    return parts::only_need(book, goods::all()).net;
  };
  CHECK(glue({parts::spread(Item::spine_glue, Part::spine, 5, square_metre)}) == amount(Mass{140'000}));
  CHECK(glue({parts::spread(Item::spine_glue, Part::spine, 5, square_metre, 2)}) == amount(Mass{280'000}));
  CHECK(glue({parts::spread(Item::spine_glue, Part::spine, 5, square_metre, 1, 2)}) == amount(Mass{280'000}));
  Area const thirteen_cm2{1'300'000'000};  // 182 mg
  CHECK(glue({parts::spread(Item::spine_glue, Part::spine, 5, thirteen_cm2)}) == amount(Mass{182}));
  CHECK(glue({parts::spread(Item::spine_glue, Part::spine, 5, Area{1})}) == amount(Mass{1}));
  CHECK(glue({parts::spread(Item::spine_glue, Part::spine, 5, Area{1}),
              parts::spread(Item::spine_glue, Part::spine, 5, Area{1})}) == amount(Mass{1}));
}

TEST_CASE("a size sold by volume is taken by volume") {
  Structure book;
  book.spreads = {parts::spread(Item::leaf_size, Part::lines, 6, Area{50'000'000'000})};
  Need const need = parts::only_need(book, goods::all());
  CHECK(need.how == HowFound::by_spread);
  CHECK(need.net == amount(Volume{3'000}));
}

TEST_CASE("strips of one width share leaves within a use, and strips of another do not") {
  auto const leaves = [](std::vector<Strips> rows) {
    Structure book;
    book.strips = std::move(rows);
    return parts::only_need(book, goods::all()).net;
  };
  auto const strips = [](std::int64_t count, std::int64_t width) {
    return parts::strips(Item::leaf_lines, Part::lines, 8, count, mm(width), mm(80));
  };
  CHECK(leaves({strips(8, 10)}) == amount(whole(1)));
  CHECK(leaves({strips(9, 10)}) == amount(whole(2)));
  CHECK(leaves({strips(4, 10), strips(4, 10)}) == amount(whole(1)));
  CHECK(leaves({strips(4, 10), strips(4, 11), strips(5, 10)}) == amount(whole(3)));
  CHECK(leaves({strips(3, 80)}) == amount(whole(3)));
}

TEST_CASE("a strip wider than a leaf is laid of several leaves") {
  Structure book;
  book.strips = {parts::strips(Item::leaf_lines, Part::lines, 8, 3, mm(81), mm(80))};
  CHECK(parts::only_need(book, goods::all()).net == amount(whole(6)));
}

TEST_CASE("things are counted as they are, and extras are as said") {
  Structure book;
  book.things = {parts::things(Item::corners, Part::corners, 7, amount(whole(4)))};
  Need need = parts::only_need(book, goods::all());
  CHECK(need.how == HowFound::counted);
  CHECK(need.net == amount(whole(4)));
  book.things = {parts::things(Item::extra, Part::extras, 5, amount(Mass{2'000}))};
  need = parts::only_need(book, goods::all());
  CHECK(need.how == HowFound::as_said);
  CHECK(need.taken == amount(Mass{2'000}));
}

TEST_CASE("what the customer brings is marked, and counted like the rest") {
  Structure book;
  book.pieces = {parts::piece(Item::cover_leather, Part::cover, 2, 1, mm(267), mm(389))};
  book.things = {parts::things(Item::corners, Part::corners, 7, amount(whole(4)))};
  BookSpec spec;
  spec.customer_supplies = {MaterialId{7}};
  Needs const needs = quantities(book, spec, goods::catalogue(goods::all()));
  REQUIRE(needs.needs.size() == 2);
  CHECK_FALSE(needs.needs[0].customer_supplied);
  CHECK(needs.needs[1].customer_supplied);
  CHECK(needs.needs[1].net == amount(whole(4)));
}

TEST_CASE("a book without anything needs nothing") {
  CHECK(quantities({}, {}, goods::catalogue(goods::all())).needs.empty());
}

TEST_CASE("a use that its material cannot be counted in is a broken contract") {
  auto const refused = [](Structure const& book) {
    CHECK_THROWS_AS(static_cast<void>(quantities(book, {}, goods::catalogue(goods::all()))),
                    std::logic_error);
  };
  Structure book;
  book.spreads = {parts::spread(Item::spine_glue, Part::spine, 4, square_metre)};
  refused(book);  // thread is not spread
  book = {};
  book.runs = {parts::run(Item::sewing_thread, Part::sewing, 5, 1, mm(10), mm(10))};
  refused(book);  // nor is glue run
  book.runs = {parts::run(Item::sewing_thread, Part::sewing, 4, 1, mm(10), mm(9))};
  refused(book);  // takes less than it holds
  book = {};
  book.pieces = {parts::piece(Item::extra, Part::extras, 4, 1, mm(10), mm(10))};
  refused(book);  // thread has no width
  book.pieces = {parts::piece(Item::extra, Part::extras, 7, 1, mm(10), mm(10))};
  refused(book);  // a corner is not cut
  book = {};
  book.strips = {parts::strips(Item::leaf_lines, Part::lines, 1, 3, mm(10), mm(80))};
  refused(book);  // paper is no leaf
  book = {};
  book.things = {parts::things(Item::extra, Part::extras, 5, amount(whole(1)))};
  refused(book);  // one of glue
}
