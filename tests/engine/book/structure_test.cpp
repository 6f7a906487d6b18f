// The plain book and the book of everything, part by part, worked by hand.
#include "tests/engine/book/whole_books.h"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <stdexcept>

using namespace endband;
using namespace endband::tests;
using endband::fixtures::mm;
using endband::fixtures::say;
using enum FigureId;
using doctest::Approx;

TEST_CASE_FIXTURE(Plain, "300 pages are 75 folios, cut with their trims and folded") {
  Structure const book = made();
  Piece const sheets_cut = only(book.pieces, Item::text_sheets);
  CHECK(sheets_cut.count == 75);
  CHECK(sheets_cut.height == mm(256));
  CHECK(sheets_cut.width == mm(368));
  CHECK(sheets_cut.trim_height == mm(6));  // 3 mm at head and at tail
  CHECK(sheets_cut.trim_width == mm(8));   // 4 mm of each of its two leaves
  CHECK(sheets_cut.grain == Grain::along_height);
  CHECK(is_material(catalogue, sheets_cut.material, "paper-cream"));
  CHECK(times(book, OperationKind::fold_sheets) == 75);
  CHECK(times(book, OperationKind::trim_edges) == 1);
  CHECK(book.figures.value(grain_head_to_tail) == 1);
}

TEST_CASE_FIXTURE(Plain, "edges that are left uncut are not trimmed") {
  say(spec, {{head_tail_trim, 0}, {fore_edge_trim, 0}});
  Structure const book = made();
  CHECK(times(book, OperationKind::trim_edges) == 0);
  CHECK(only(book.pieces, Item::text_sheets).height == mm(250));
}

TEST_CASE_FIXTURE(Plain, "a folded endpaper at each end is tipped on, and two leaves are pasted down") {
  Structure const book = made();
  Piece const folios = only(book.pieces, Item::endpaper_sheets);
  CHECK(folios.count == 2);
  CHECK(folios.width == mm(2 * 184));
  CHECK(folios.trim_width == mm(8));
  CHECK(mm2(only(book.spreads, Item::tipping_paste).area) == Approx(2 * 3 * 250));
  CHECK(mm2(only(book.spreads, Item::pastedown_paste).area) == Approx(2 * 250 * 180));
  CHECK(times(book, OperationKind::put_down_endpapers) == 2);
}

TEST_CASE_FIXTURE(Plain, "thread and cords are taken with what needlefuls and the frame waste") {
  Structure const book = made();
  Run const thread = only(book.runs, Item::sewing_thread);
  double const d = 2 * std::sqrt(275.5863 / (M_PI * 900));
  double const length = 19 * (250 - 24 + 5 * M_PI * (5 + d) + 20);
  CHECK(static_cast<double>(thread.each.n) / 1000 == Approx(length).epsilon(1e-6));
  CHECK((thread.taken - thread.each) == mm(6 * 130));  // 6.35 m in needlefuls of 1.07 m
  Run const cord = only(book.runs, Item::cords);
  CHECK(cord.count == 5);
  CHECK(cord.taken - cord.each == mm(150));
  CHECK(times(book, OperationKind::sew_sections) == 19);
  CHECK(times(book, OperationKind::wax_thread) == 6);
}

TEST_CASE_FIXTURE(Plain, "thread takes up a tenth of its mass in wax") {
  Amount const net = only(made().things, Item::thread_wax).net;
  CHECK(net.dimension == Dimension::mass);
  CHECK(static_cast<double>(net.n) ==
        Approx(0.1 * 275.586 * 7.1326).epsilon(0.003));  // mg; tex is mg a metre
  material(catalogue, "wax").sold_by = SoldBy::piece;
  material(catalogue, "wax").properties.piece_mass = Mass{20'000};
  CHECK(only(made().things, Item::thread_wax).net ==
        amount(Count{10}));  // 196.6 mg of 20 g, up to a thousandth
  material(catalogue, "wax").properties.piece_mass.reset();
  CHECK(only(made().things, Item::thread_wax).net == amount(Count{1000}));
}

TEST_CASE_FIXTURE(Plain, "every panel has its linings, as wide as the round and a little lower") {
  Structure const book = made();
  double const arc_mm = book.figures.value(arc);
  double const high = (250 - 5 * book.figures.value(band_width)) / 6 - 1;
  Piece const linen = only(book.pieces, Item::panel_linings);
  Piece const paper = only(book.pieces, Item::panel_papers);
  CHECK(linen.count == 6);
  CHECK(paper.count == 12);
  CHECK(linen.height.n == std::ceil(high * 1000));
  CHECK(linen.width.n == std::ceil(arc_mm * 1000));
  CHECK(mm2(only(book.spreads, Item::lining_paste).area) == Approx(18 * high * arc_mm));
  CHECK(times(book, OperationKind::line_panels) == 6);
}

TEST_CASE_FIXTURE(Plain, "boards stand out by their squares and are laced by ten slips") {
  Structure const book = made();
  Piece const cut = only(book.pieces, Item::boards);
  CHECK(cut.count == 2);
  CHECK(cut.height == mm(258));
  CHECK(cut.width == mm(184));
  CHECK(cut.grain == Grain::along_height);
  CHECK(times(book, OperationKind::drill_lacing) == 20);
  CHECK(times(book, OperationKind::lace_boards) == 5);
  CHECK(mm2(only(book.spreads, Item::lacing_glue).area) == Approx(10 * 60 * M_PI * 5));
}

TEST_CASE_FIXTURE(Plain, "two colours of silk share the endbands, and one has them alone") {
  Structure const two = made();
  auto const silks = all(two.runs, Item::endband_silk);
  REQUIRE(silks.size() == 2);
  CHECK(silks[0].each == silks[1].each);
  CHECK(silks[0].material != silks[1].material);
  CHECK(silks[0].taken - silks[0].each == mm(2 * 130));
  CHECK(times(two, OperationKind::sew_endbands) == 2 * two.figures.value(wraps));
  CHECK(only(two.runs, Item::endband_cores).count == 2);

  spec.materials[static_cast<std::size_t>(Role::endband_silk_2)] = {};
  Structure const one = made();
  // 0.83 m of each colour for each endband: one needleful; twice that of one colour alone: two.
  Run const alone = only(one.runs, Item::endband_silk);
  CHECK(alone.taken - alone.each == mm(2 * 130));
  say(spec, {{core_thickness, 4}});
  Run const thicker = only(made().runs, Item::endband_silk);
  CHECK(thicker.taken - thicker.each == mm(2 * 2 * 130));
  CHECK(alone.each.n == Approx(2.0 * static_cast<double>(silks[0].each.n)).epsilon(1e-6));
}

TEST_CASE_FIXTURE(Plain, "the cover goes round the boards and the spine and is turned in") {
  Structure const book = made();
  Piece const cover = only(book.pieces, Item::cover_leather);
  double const growth = 5 * (M_PI / 2 - 1) * 5 - 0.03 * 258;
  CHECK(static_cast<double>(cover.height.n) / 1000 == Approx(258 + 2 * (20 + 3) + growth).epsilon(1e-5));
  CHECK(static_cast<double>(cover.width.n) / 1000 ==
        Approx(2 * 184 + book.figures.value(arc) + 2 * (20 + 3)).epsilon(1e-5));
  CHECK(cover.skin_group == 1);
  Spread const paste = only(book.spreads, Item::cover_paste);
  CHECK(paste.coats == 2);
  CHECK(mm2(paste.area) == Approx(book.figures.value(cover_area)));
  CHECK(times(book, OperationKind::thin_leather) == 0);
  CHECK(times(book, OperationKind::dye_leather) == 0);
  CHECK(times(book, OperationKind::pare_edges) ==
        Approx(book.figures.value(pare_length) / 1000).epsilon(0.001));
}

TEST_CASE_FIXTURE(Plain, "leather that is pared is thinned all over") {
  say(spec, {{leather_pared, 0.8}});
  Structure const book = made();
  CHECK(times(book, OperationKind::thin_leather) ==
        Approx(book.figures.value(cover_area) / 10'000).epsilon(0.0001));
}

TEST_CASE_FIXTURE(Plain,
                  "nothing of a block that the customer gives is bought, and it is sewn by its sections") {
  spec.given = {};
  BookSpec const habits = fixtures::sample_spec(catalogue);
  for (std::size_t i = 0; i < figure_count; ++i) {
    auto const id = static_cast<FigureId>(i);
    bool const of_sheets = id == pages_wanted || id == folds || id == sheets_per_section || id == compression;
    if (!of_sheets && habits.given.has(id))
      spec.given.set(id, habits.given[id].value, habits.given[id].origin);
  }
  spec.materials[static_cast<std::size_t>(Role::text_paper)] = {};
  say(spec, {{block_given, 1}, {block_thickness, 31}, {sections, 26}, {block_density, 700}});
  Structure const book = made();
  CHECK(all(book.pieces, Item::text_sheets).empty());
  for (auto const kind : {OperationKind::cut_sheets, OperationKind::fold_sheets, OperationKind::trim_edges})
    CHECK(times(book, kind) == 0);
  CHECK(times(book, OperationKind::sew_sections) == 26);
  CHECK(book.figures.value(block_thickness) == 31);
  CHECK(book.figures.value(chord) == 37);
  CHECK(book.figures.value(block_mass) == Approx(250 * 180 * (31 - 0.32) * 700e-6));
  CHECK_FALSE(book.figures.has(sheets));

  // Sewn already: nothing to sew, and its swell lies in what was measured.
  fixtures::leave_out(spec, Part::sewing);
  Structure const sewn = made();
  CHECK(times(sewn, OperationKind::sew_sections) == 0);
  CHECK(all(sewn.runs, Item::sewing_thread).empty());
  CHECK(sewn.figures.value(spine_width) == 31);
}

TEST_CASE_FIXTURE(
    Plain, "a measured thickness of a block that is folded here stands, and its paper weighs the same") {
  double const before = made().figures.value(block_mass);
  say(spec, {{block_thickness, 19.5}});
  Structure const book = made();
  CHECK(book.figures.value(chord) == 25.5);
  CHECK(book.figures.value(block_mass) == Approx(before));
}

TEST_CASE_FIXTURE(Everything,
                  "underlays are cut in layers, glued to one another, and covered by more leather") {
  Structure const with = made();
  Piece const cards = only(with.pieces, Item::underlay_cards);
  CHECK(cards.count == 4);  // two panels of two layers
  CHECK(mm2(only(with.spreads, Item::underlay_glue).area) == Approx(4 * 110 * 90));
  CHECK(times(with, OperationKind::laminate_underlays) == 2);
  // One on each board: two walls of 1 mm up the book, four across it.
  CHECK(with.figures.value(underlay_growth) == Approx(2));
  CHECK(with.figures.value(underlay_growth_across) == Approx(4));
  fixtures::leave_out(spec, Part::underlays);
  Structure const without = made();
  CHECK(only(with.pieces, Item::cover_leather).height - only(without.pieces, Item::cover_leather).height ==
        mm(2));
  CHECK(only(with.pieces, Item::cover_leather).width - only(without.pieces, Item::cover_leather).width ==
        mm(4));
}

TEST_CASE_FIXTURE(Everything, "no more underlays are crossed in one line than find room in it") {
  MaterialId const card = catalogue.find("card")->id;
  // Ten a board of 80 x 60 mm: three above one another on 258 mm, three beside on 184 mm.
  spec.underlays = {{.card = card, .height_mm = 80, .width_mm = 60, .layers = 1, .count = 20, .where = {}}};
  Structure const book = made();
  CHECK(book.figures.value(underlay_growth) == Approx(3 * 2 * 0.5));
  CHECK(book.figures.value(underlay_growth_across) == Approx(6 * 2 * 0.5));
}

TEST_CASE_FIXTURE(Everything, "lines run round the boards, along the bands and as long as is said") {
  Structure const book = made();
  // Two blind frames on each board, the second set in by a line and a gap.
  double const outer = 2 * ((258 - 24) + (184 - 24));
  double const inner = 2 * ((258 - 32) + (184 - 32));
  CHECK(times(book, OperationKind::blind_lines) == Approx(2 * (outer + inner) / 1000).epsilon(0.0005));
  double const of_bands = 10 * book.figures.value(arc);
  CHECK(times(book, OperationKind::size_lines) == Approx((of_bands + 690) / 1000).epsilon(0.001));
  CHECK(times(book, OperationKind::lay_leaf) == Approx((of_bands + 2 * 690) / 1000).epsilon(0.001));
  CHECK(times(book, OperationKind::varnish_leaf) == times(book, OperationKind::size_lines));
  CHECK(mm2(only(book.spreads, Item::leaf_size).area) == Approx(of_bands * 2 + 690 * 3 + 9 * 8 * 10));
}

TEST_CASE_FIXTURE(Everything, "leaf is laid in strips that overlap at both sides") {
  Structure const book = made();
  auto const strips = all(book.strips, Item::leaf_lines);
  REQUIRE(strips.size() == 2);
  // Ten runs across a spine of 28.75 mm, two from each strip of 77 mm.
  CHECK(strips[0].strips == 5);
  CHECK(strips[0].width == mm(2 + 6));
  // 345 mm are four strips of 77 mm and 37 mm of another, which serves both lines; in two layers.
  CHECK(strips[1].strips == 2 * 9);
  CHECK(strips[1].width == mm(3 + 6));
  Strips const title = only(book.strips, Item::leaf_letters);
  CHECK(title.strips == 1);  // nine letters of 8 mm
  CHECK(title.width == mm(10 + 6));
  CHECK(title.leaf_side == mm(80));
}

TEST_CASE_FIXTURE(Everything, "a title without layers of leaf is tooled blind") {
  say(spec, {{letter_layers, 0}});
  Structure const book = made();
  CHECK(all(book.strips, Item::leaf_letters).empty());
  CHECK(times(book, OperationKind::letter_title) == 9);
}

TEST_CASE_FIXTURE(Everything, "furniture is counted as listed, with all its rivets") {
  Structure const book = made();
  CHECK(only(book.things, Item::corners).net == amount(Count{4000}));
  CHECK(only(book.things, Item::clasps).net == amount(Count{2000}));
  CHECK(only(book.things, Item::buckle).net == amount(Count{1000}));
  CHECK(only(book.things, Item::stone).net == amount(Count{1000}));
  // Two in each corner, four in each clasp, three in the strap: 60 mm less 8 at both ends, 20 apart.
  CHECK(only(book.things, Item::rivets).net == amount(Count{(8 + 8 + 3) * 1000}));
  CHECK(times(book, OperationKind::set_rivets) == 19);
  CHECK(times(book, OperationKind::cut_leather) == 2);
  CHECK(mm2(only(book.spreads, Item::stone_glue).area) == Approx(30 * 22));
}

TEST_CASE_FIXTURE(Everything,
                  "a strap of the cover's leather comes from the cover's skin, of another from its own") {
  Piece const same = only(made().pieces, Item::strap);
  CHECK(same.skin_group == only(made().pieces, Item::cover_leather).skin_group);
  CHECK(same.width == mm(25));
  fixtures::choose(spec, Role::strap_leather, catalogue, "bridle");
  CHECK(only(made().pieces, Item::strap).skin_group != only(made().pieces, Item::cover_leather).skin_group);
}

TEST_CASE_FIXTURE(Everything, "contact adhesive goes on both faces of a corner, epoxy on one") {
  CHECK(only(made().spreads, Item::corner_glue).faces == 1);
  fixtures::choose(spec, Role::corner_adhesive, catalogue, "contact");
  Spread const contact = only(made().spreads, Item::corner_glue);
  CHECK(contact.faces == 2);
  CHECK(mm2(contact.area) == Approx(4 * (32 * 32 + 2 * 32 * 3)));
}

TEST_CASE_FIXTURE(Everything, "what a description adds comes with the book") {
  spec.extra_work.push_back({"gild the edges", Duration{60}, Duration{120}, Duration{240}, {}});
  Structure const book = made();
  CHECK(only(book.things, Item::extra).net == amount(Count{1000}));
  std::vector<int> rows;
  for (Operation const& operation : book.operations)
    if (operation.kind == OperationKind::extra_work) rows.push_back(operation.extra);
  CHECK(rows == std::vector{0, 1});
}

TEST_CASE_FIXTURE(Everything, "operations stand in the order of the bench, none of them empty") {
  Structure const book = made();
  CHECK(std::is_sorted(book.operations.begin(), book.operations.end(),
                       [](Operation const& a, Operation const& b) { return a.kind < b.kind; }));
  for (Operation const& operation : book.operations) CHECK(operation.count.n > 0);
}

TEST_CASE_FIXTURE(Plain, "an absent part leaves nothing behind") {
  Structure const book = made();
  for (Part const part : {Part::underlays, Part::lines, Part::lettering, Part::corners, Part::clasps,
                          Part::strap, Part::stone, Part::extras}) {
    CAPTURE(part_name(part));
    auto const of = [part](auto const& row) { return row.part == part; };
    CHECK(std::none_of(book.pieces.begin(), book.pieces.end(), of));
    CHECK(std::none_of(book.runs.begin(), book.runs.end(), of));
    CHECK(std::none_of(book.spreads.begin(), book.spreads.end(), of));
    CHECK(std::none_of(book.things.begin(), book.things.end(), of));
    CHECK(std::none_of(book.operations.begin(), book.operations.end(), of));
  }
  CHECK(book.strips.empty());
  CHECK(book.figures.value(rivets) == 0);
  // Practice may know how many corners a book has that has none.
  say(spec, {{corners, 4}, {rivets_a_corner, 2}});
  CHECK(made().figures.value(rivets) == 0);
  CHECK(made().figures.value(corners) == 0);
}

TEST_CASE_FIXTURE(Plain, "padding is taken as it is sold") {
  Structure const book = made();
  double const round = book.figures.value(closed_width) + book.figures.value(closed_thickness);
  CHECK(static_cast<double>(only(book.things, Item::padding).net.n) / 1000 ==
        Approx(4 * round).epsilon(1e-5));
  material(catalogue, "padding").sold_by = SoldBy::volume;
  Amount const loose = only(made().things, Item::padding).net;
  CHECK(loose.dimension == Dimension::volume);
  double const book_mm3 = book.figures.value(closed_height) * book.figures.value(closed_width) *
                          book.figures.value(closed_thickness);
  CHECK(static_cast<double>(loose.n) == Approx(420.0 * 320 * 140 - book_mm3));
  material(catalogue, "padding").sold_by = SoldBy::weight;
  material(catalogue, "padding").properties.density_kg_m3 = 20;
  CHECK(static_cast<double>(only(made().things, Item::padding).net.n) ==
        Approx(static_cast<double>(loose.n) * 0.02));
  material(catalogue, "padding").sold_by = SoldBy::piece;
  CHECK(only(made().things, Item::padding).net == amount(Count{1000}));
}

TEST_CASE_FIXTURE(Plain,
                  "the spine is glued up flat, endbands along their cores, registers by their anchors") {
  say(spec, {{registers, 2}});
  Structure const book = made();
  CHECK(mm2(only(book.spreads, Item::spine_glue).area) == Approx(book.figures.value(spine_width) * 250));
  CHECK(mm2(only(book.spreads, Item::endband_glue).area) == Approx(2 * book.figures.value(arc) * 2));
  CHECK(mm2(only(book.spreads, Item::register_glue).area) == Approx(2 * 40 * 6));
  CHECK(only(book.runs, Item::registers).count == 2);
  CHECK(times(book, OperationKind::fix_registers) == 2);
}

TEST_CASE_FIXTURE(Plain, "what the catalogue says does not displace what was said") {
  say(spec, {{board_thickness, 2.5}, {thread_thickness, 0.7}});
  Structure const book = made();
  CHECK(book.figures.value(shoulder) == 2.5);
  CHECK(book.figures[thread_thickness].origin == Origin::said);
  CHECK(book.figures[leaf_caliper].origin == Origin::catalogue);
  CHECK(book.figures[square].origin == Origin::practice);
  CHECK(book.figures[arc].origin == Origin::computed);
}

TEST_CASE_FIXTURE(
    Plain, "a figure that is no number, a piece over 10 m and one that nobody gave are broken contracts") {
  BookSpec const sound = spec;
  say(spec, {{turn_in, std::numeric_limits<double>::quiet_NaN()}});
  CHECK_THROWS_AS(made(), std::logic_error);
  spec = sound;
  say(spec, {{round_angle, 0}});
  CHECK_THROWS_WITH_AS(made(), "figure is no number: spine-radius", std::logic_error);
  spec = sound;
  say(spec, {{leaf_height, 10'001}});
  CHECK_THROWS_AS(made(), std::logic_error);
  spec = sound;
  spec.given.set(square, 0, Origin::none);
  CHECK_THROWS_AS(made(), std::logic_error);
}
