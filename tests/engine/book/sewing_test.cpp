// Every stitch on every support, guards, endpapers and repairs, worked by hand.
#include "engine/book/making.h"
#include "tests/engine/book/by_rule.h"
#include "tests/engine/book/made.h"

#include <doctest/doctest.h>

#include <numbers>

using namespace endband;
using namespace endband::tests;
using endband::fixtures::mm;
using endband::fixtures::say;
using enum FigureId;
using doctest::Approx;

namespace {

constexpr double pi = std::numbers::pi;

// 24 sections of a folio of 297 mm, in thread of 0.6 mm.
Figures sewn(Ways ways, Given more) {
  Figures figures;
  for (auto const& [id, value] : Given{{leaf_height, 297},
                                       {kettle_setback, 12},
                                       {sections, 24},
                                       {thread_thickness, 0.6},
                                       {stitch_allowance, 20}})
    figures.set(id, value, Origin::said);
  for (auto const& [id, value] : more) figures.set(id, value, Origin::said);
  apply_rules(figures, styles().front().usual.replaced_by(ways));
  return figures;
}

// A plain book whose figures are all known, to make one part of.
struct Bench {
  Catalogue catalogue = fixtures::sample_catalogue();
  BookSpec spec = fixtures::sample_spec(catalogue);
  Structure book;

  void ways(Ways of) { spec.ways = spec.ways.replaced_by(of); }
  template <class Part>
  Structure const& make(Part part) {
    book = {};
    book.figures = spec.given;
    Making making(spec, catalogue, book);
    complete(making);
    apply_rules(book.figures, spec.ways);
    part(making);
    return book;
  }
};

}  // namespace

TEST_CASE("thread goes round raised cords, over recessed ones and across tapes") {
  Given const cords{{supports, 5}, {support_thickness, 5}, {support_turns, 1}};
  double const straight = 297 - 24 + 20;
  CHECK(sewn({Way::raised_cords}, cords).value(thread_length) == Approx(24 * (straight + 5 * pi * 5.6)));
  CHECK(sewn({Way::recessed_cords}, cords).value(thread_length) == Approx(24 * (straight + 5 * pi * 2.8)));
  CHECK(sewn({Way::tapes}, {{supports, 3}, {support_width, 15}}).value(thread_length) ==
        Approx(24 * (straight + 45)));
  // Packed, the thread goes round a raised cord more often.
  Given const packed{{supports, 5}, {support_thickness, 5}, {support_turns, 3}};
  CHECK(sewn({Way::raised_cords}, packed).value(thread_length) == Approx(24 * (straight + 15 * pi * 5.6)));
}

TEST_CASE("two on takes a pass of thread for two sections, and swells as much less") {
  Given const cords{{supports, 5}, {support_thickness, 5}, {support_turns, 1}, {swell_kept, 0.5}};
  Figures const one = sewn({Way::all_along}, cords);
  Figures const two = sewn({Way::two_on}, cords);
  CHECK(two.value(thread_passes) == 12);
  CHECK(two.value(thread_length) == Approx(one.value(thread_length) / 2));
  CHECK(one.value(swell) == Approx(24 * 0.6 * 0.5));
  CHECK(two.value(swell) == Approx(12 * 0.6 * 0.5));
  // An odd section has a pass of its own.
  CHECK(by_rule(thread_passes, {{sections, 25}}, {Way::two_on}) == 13);
}

TEST_CASE("sewn endpapers are sections: they take thread, swell and holes") {
  Given const of{{supports, 5},     {support_thickness, 5},  {support_turns, 1},
                 {swell_kept, 0.5}, {endpapers_each_end, 2}, {holes_a_support, 2}};
  Figures const tipped = sewn({Way::single}, of);
  Figures const sewn_in = sewn({Way::sewn}, of);
  CHECK(sewn_in.value(sewn_sections) == 28);
  CHECK(sewn_in.value(thread_length) / 28 == Approx(tipped.value(thread_length) / 24));
  CHECK(sewn_in.value(swell) - tipped.value(swell) == Approx(4 * 0.3));
  CHECK(sewn_in.value(holes) - tipped.value(holes) == 4 * 12);
}

TEST_CASE("a link goes round the stitch below and back: over all passes twice the spine's width") {
  // 24 sections and two boards share a way of 39 mm down and 39 mm back: 3 mm each.
  Figures const figures = sewn({Way::link_stitch, Way::unsupported}, {{spine_width, 39}, {stations, 5}});
  CHECK(figures.value(link_length) == Approx(3 + 0.6 * pi));
  CHECK(figures.value(thread_passes) == 26);  // both boards are sewn on as sections are
  CHECK(figures.value(thread_length) == Approx(26 * (273 + 5 * (3 + 0.6 * pi))));
  CHECK(figures.value(holes) == 26 * 5);
}

TEST_CASE("a spine parted into more sections takes more thread, however thick it is") {
  double before = 0;
  for (double const n : {1, 2, 3, 4, 8}) {
    double const length = by_rule(thread_length,
                                  {{sections, n},
                                   {spine_width, 60},
                                   {stations, 12},
                                   {thread_thickness, 0.2},
                                   {leaf_height, 100},
                                   {kettle_setback, 3}},
                                  {Way::link_stitch, Way::unsupported});
    CHECK(length > before);
    before = length;
  }
}

TEST_CASE("a long stitch goes through the wrapper at every station") {
  Figures const figures = sewn({Way::long_stitch, Way::unsupported}, {{leather_bought, 1.5}, {stations, 4}});
  CHECK(figures.value(thread_length) == Approx(24 * (273 + 4 * 1.5 + 20)));
  CHECK(figures.value(holes) == 96);
}

TEST_CASE("a pamphlet is one section of all its sheets, sewn along its fold and back") {
  Figures const figures = figures_from({{pages_wanted, 32},
                                        {folds, 1},
                                        {leaf_caliper, 0.12},
                                        {leaf_height, 210},
                                        {kettle_setback, 25},
                                        {knot_tail, 60},
                                        {stations, 3},
                                        {thread_thickness, 0.6},
                                        {swell_kept, 0.5}},
                                       {Way::pamphlet, Way::unsupported});
  CHECK(figures.value(sheets_per_section) == 8);
  CHECK(figures.value(sections) == 1);
  CHECK(figures.value(last_section_sheets) == 8);
  CHECK(figures.value(section_thickness) == Approx(16 * 0.12));
  CHECK(figures.value(thread_length) == Approx(2 * 160 + 120));
  CHECK(figures.value(holes) == 3);
  CHECK(figures.value(swell) == 0);
}

TEST_CASE("a section is as thick as its leaves before they are pressed") {
  CHECK(by_rule(section_thickness, {{sheets_per_section, 4}, {folds, 1}, {leaf_caliper, 0.12}}) ==
        Approx(0.96));
  CHECK(by_rule(section_thickness, {{sheets_per_section, 2}, {folds, 3}, {leaf_caliper, 0.1}}) ==
        Approx(1.6));
}

TEST_CASE("guards make up what is mounted, leaf by leaf") {
  Figures const figures = figures_from({{leaves, 32},
                                        {mounted_thickness, 0.6},
                                        {guard_caliper, 0.2},
                                        {leaf_caliper, 0.3},
                                        {compression, 1},
                                        {endpaper_thickness, 0.5}});
  CHECK(figures.value(guards_a_leaf) == 3);  // 0.6 is not a hair more than three times 0.2
  CHECK(figures.value(guards) == 96);
  CHECK(figures.value(guard_thickness) == Approx(19.2));
  CHECK(figures.value(block_thickness) == Approx(32 * 0.3 + 19.2 + 0.5));
  CHECK(by_rule(guards_a_leaf, {{mounted_thickness, 0.61}, {guard_caliper, 0.2}}) == 4);
}

TEST_CASE_FIXTURE(Bench, "guards are strips of the leaf's height, trimmed with it") {
  fixtures::include(spec, {Part::guards});
  fixtures::choose(spec, Role::guard_paper, catalogue, "paper-end");
  say(spec, {{mounted_thickness, 0.3}, {guard_width, 25}});
  make(make_guards);
  Piece const strips = only(book.pieces, Item::guard_strips);
  CHECK(strips.count == 2 * 150);  // of 0.16 mm, two a leaf
  CHECK(strips.height == mm(256));
  CHECK(strips.width == mm(25));
  CHECK(times(book, OperationKind::cut_guards) == 300);
  CHECK(times(book, OperationKind::set_guards) == 300);
}

TEST_CASE_FIXTURE(Bench, "made endpapers are pasted together by a whole leaf, sewn ones by none") {
  say(spec, {{endpapers_each_end, 2}});
  auto const pasted = [this] {
    auto const of = all(make(make_endpapers).spreads, Item::tipping_paste);
    return of.empty() ? 0 : mm2(of.front().area);
  };
  CHECK(pasted() == Approx(4 * 3 * 250));
  ways({Way::made});
  CHECK(pasted() == Approx(2 * 3 * 250 + 2 * 250 * 180));
  ways({Way::sewn});
  CHECK(pasted() == 0);
  CHECK(only(book.pieces, Item::endpaper_sheets).count == 4);
  CHECK(mm2(only(book.spreads, Item::pastedown_paste).area) == Approx(2 * 250 * 180));
}

TEST_CASE_FIXTURE(Bench, "a leather joint is a strip of 30 mm at each board, of the cover's skin") {
  ways({Way::leather_joint});
  fixtures::choose(spec, Role::joint_leather, catalogue, "goat");
  say(spec, {{boards, 2}});
  make(make_endpapers);
  Piece const strips = only(book.pieces, Item::joint_strips);
  CHECK(strips.count == 2);
  CHECK(strips.height == mm(250));
  CHECK(strips.width == mm(30));
  CHECK(strips.skin_group == skin_of_the_cover);
  CHECK(times(book, OperationKind::joint_endpapers) == 2);
}

TEST_CASE_FIXTURE(Bench, "a lined board has no pastedown, and a book without boards none either") {
  make(make_endpapers);
  CHECK(book.figures.value(free_endpaper_leaves) == 2);
  CHECK(times(book, OperationKind::put_down_endpapers) == 2);
  fixtures::choose(spec, Role::board_lining, catalogue, "paper-end");
  make(make_endpapers);
  CHECK(book.figures.value(free_endpaper_leaves) == 4);
  CHECK(all(book.spreads, Item::pastedown_paste).empty());
  CHECK(times(book, OperationKind::put_down_endpapers) == 0);
  CHECK(by_rule(free_endpaper_leaves, {{endpapers_each_end, 1}}, {Way::no_boards}) == 4);
}

TEST_CASE_FIXTURE(Bench, "a frame is set up only where there is something to sew on") {
  make(make_sewing);
  CHECK(times(book, OperationKind::set_up_frame) == 5);
  CHECK(times(book, OperationKind::sew_sections) == 19);

  ways({Way::two_on});
  make(make_sewing);
  CHECK(times(book, OperationKind::sew_sections) == 10);
  CHECK(times(book, OperationKind::pierce_stations) == 19);

  for (auto const& [stitch, kind, count] :
       {std::tuple{Way::link_stitch, OperationKind::link_sections, 19.0},
        std::tuple{Way::long_stitch, OperationKind::long_stitch_sections, 19.0},
        std::tuple{Way::pamphlet, OperationKind::sew_pamphlet, 1.0}}) {
    Bench other;
    other.ways({stitch, Way::unsupported, Way::flat});
    for (FigureId const id : {supports, sheets_per_section}) other.spec.given.set(id, 0, Origin::none);
    say(other.spec, {{stations, 4}, {knot_tail, 60}});
    if (stitch != Way::pamphlet) say(other.spec, {{sheets_per_section, 4}});
    other.make(make_sewing);
    CHECK(times(other.book, kind) == count);
    CHECK(times(other.book, OperationKind::set_up_frame) == 0);
    CHECK(times(other.book, OperationKind::sew_sections) == 0);
    CHECK(all(other.book.runs, Item::cords).empty());
    CHECK(only(other.book.runs, Item::sewing_thread).each.n > 0);
  }
}

TEST_CASE_FIXTURE(Bench, "repairs are work by the leaf, the section or the piece") {
  say(spec, {{block_given, 1}, {block_thickness, 31}, {sections, 26}, {block_density, 700}, {leaves, 160}});
  fixtures::include(spec, {Part::repairs});
  spec.repairs = {
      {.kind = RepairKind::collate,
       .count = {},
       .words = {},
       .low = {},
       .likely = {},
       .high = {},
       .where = {}},
      {.kind = RepairKind::pull, .count = {}, .words = {}, .low = {}, .likely = {}, .high = {}, .where = {}},
      {.kind = RepairKind::clean, .count = 12, .words = {}, .low = {}, .likely = {}, .high = {}, .where = {}},
      {.kind = RepairKind::guard, .count = {}, .words = {}, .low = {}, .likely = {}, .high = {}, .where = {}},
      {.kind = RepairKind::mend, .count = 5, .words = {}, .low = {}, .likely = {}, .high = {}, .where = {}},
      {.kind = RepairKind::reback,
       .count = {},
       .words = {},
       .low = {},
       .likely = {},
       .high = {},
       .where = {}},
      {.kind = RepairKind::other,
       .count = 3,
       .words = "wash a map",
       .low = Duration{60},
       .likely = Duration{90},
       .high = Duration{120},
       .where = {}}};
  make(make_repairs);
  CHECK(times(book, OperationKind::collate_block) == 160);
  CHECK(times(book, OperationKind::pull_block) == 26);
  CHECK(times(book, OperationKind::clean_leaves) == 12);
  CHECK(times(book, OperationKind::guard_folds) == 80);  // two leaves a fold
  CHECK(times(book, OperationKind::mend_leaves) == 5);
  CHECK(times(book, OperationKind::reback_book) == 1);
  CHECK(times(book, OperationKind::other_repair) == 3);
  CHECK(book.operations[6].extra == 6);
  CHECK(times(book, OperationKind::receive_custody) == 1);
}

TEST_CASE_FIXTURE(Bench, "an old block is sewn again at its own pace") {
  spec.repairs = {{.kind = RepairKind::resew,
                   .count = {},
                   .words = {},
                   .low = {},
                   .likely = {},
                   .high = {},
                   .where = {}}};
  make([](Making& making) {
    make_sewing(making);
    make_repairs(making);
  });
  CHECK(times(book, OperationKind::resew_block) == 19);
  CHECK(times(book, OperationKind::sew_sections) == 0);
  CHECK(times(book, OperationKind::set_up_frame) == 5);
}

TEST_CASE_FIXTURE(Bench, "what is left in custody is taken in, and a new book is not") {
  make(make_repairs);
  CHECK(times(book, OperationKind::receive_custody) == 0);
  spec.custody = {{"a map to be bound in", "one tear", {}, {}}};
  make(make_repairs);
  CHECK(times(book, OperationKind::receive_custody) == 1);
}
