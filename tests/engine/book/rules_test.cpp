// The formulae, worked by hand.
#include "tests/engine/book/by_rule.h"

#include <doctest/doctest.h>

using namespace endband;
using endband::tests::by_rule;
using endband::tests::figures_from;
using enum FigureId;
using doctest::Approx;

TEST_CASE("24 sections of 4 come from 96 sheets") {  // common practice, no source
  CHECK(by_rule(sections, {{sheets, 96}, {sheets_per_section, 4}}) == 24);
  CHECK(by_rule(sections, {{sheets, 97}, {sheets_per_section, 4}}) == 25);
  CHECK(by_rule(last_section_sheets, {{sheets, 96}, {sheets_per_section, 4}}) == 4);
  CHECK(by_rule(last_section_sheets, {{sheets, 97}, {sheets_per_section, 4}}) == 1);
}

TEST_CASE("pages wanted are rounded up to whole sheets") {
  CHECK(by_rule(sheets, {{pages_wanted, 300}, {folds, 1}}) == 75);
  CHECK(by_rule(sheets, {{pages_wanted, 301}, {folds, 1}}) == 76);
  CHECK(by_rule(pages, {{pages_wanted, 301}, {folds, 1}}) == 304);
  CHECK(by_rule(sheets, {{pages_wanted, 256}, {folds, 2}}) == 32);
  CHECK(by_rule(pages, {{pages_wanted, 250}, {folds, 3}}) == 256);
}

TEST_CASE("eight folios of 0.20 mm creep 2.2 mm, and so do four quartos") {
  double const folios = by_rule(creep, {{sheets_per_section, 8}, {folds, 1}, {leaf_caliper, 0.20}});
  CHECK(folios == Approx(2.199).epsilon(0.0005));
  CHECK(by_rule(creep, {{sheets_per_section, 4}, {folds, 2}, {leaf_caliper, 0.20}}) == folios);
  CHECK(by_rule(creep, {{sheets_per_section, 1}, {folds, 1}, {leaf_caliper, 0.20}}) == 0);
}

TEST_CASE("a sheet before folding holds every leaf with its trims") {
  struct Case {
    double folds_of_it, height, width;
  };
  for (auto const& [f, height, width] : {Case{1, 214, 302}, Case{2, 428, 302}, Case{3, 428, 604}}) {
    Figures const figures = figures_from(
        {{leaf_height, 210}, {leaf_width, 148}, {head_tail_trim, 2}, {fore_edge_trim, 3}, {folds, f}});
    CHECK(figures.value(sheet_height) == height);
    CHECK(figures.value(sheet_width) == width);
  }
}

TEST_CASE("two folded endpapers at each end add six free leaves, one adds two, none adds none") {
  CHECK(by_rule(free_endpaper_leaves, {{endpapers_each_end, 2}}) == 6);
  CHECK(by_rule(free_endpaper_leaves, {{endpapers_each_end, 1}}) == 2);
  CHECK(by_rule(free_endpaper_leaves, {{endpapers_each_end, 0}}) == 0);
}

TEST_CASE("the thickness of a block is its pressed leaves and its free endpapers") {
  CHECK(by_rule(block_thickness, {{leaves, 150},
                                  {leaf_caliper, 0.12},
                                  {compression, 0.97},
                                  {guard_thickness, 0},
                                  {endpaper_thickness, 0.32}}) == Approx(17.78));
}

TEST_CASE("the mass of a block is that of its leaves, however hard it is pressed") {
  for (double const k : {0.9, 0.97, 1.0})
    CHECK(by_rule(block_mass, {{leaves, 150},
                               {leaf_caliper, 0.12},
                               {leaf_grammage, 90},
                               {compression, k},
                               {guard_thickness, 0},
                               {endpaper_thickness, 0.32},
                               {leaf_height, 250},
                               {leaf_width, 180}}) == Approx(150 * 0.250 * 0.180 * 90));
}

TEST_CASE("a book of 24 sections on five cords of 5 mm takes nine needlefuls") {
  Figures const figures = figures_from({{leaf_height, 297},
                                        {kettle_setback, 12},
                                        {supports, 5},
                                        {support_thickness, 5},
                                        {support_turns, 1},
                                        {thread_thickness, 0.6},
                                        {sections, 24},
                                        {stitch_allowance, 20},
                                        {needle_length, 1200},
                                        {needle_waste, 130},
                                        {holes_a_support, 2}});
  CHECK(figures.value(thread_length) / 1000 == Approx(9.14).epsilon(0.0005));
  CHECK(figures.value(needlefuls) == 9);
  CHECK(figures.value(thread_taken) / 1000 == Approx(10.3).epsilon(0.002));
  CHECK(figures.value(holes) == 24 * 12);
}

TEST_CASE("a block of 40 mm with shoulders of 3 mm, rounded to a third of a circle") {
  Figures const figures =
      figures_from({{block_thickness, 40}, {shoulder, 3}, {round_angle, 120}, {swell, 7.2}});
  CHECK(figures.value(chord) == 46);
  CHECK(figures.value(spine_radius) == Approx(26.56).epsilon(0.0005));
  CHECK(figures.value(arc) == Approx(55.62).epsilon(0.0002));
  CHECK(figures.value(rise) == Approx(13.28).epsilon(0.0005));
  CHECK(figures.value(spine_width) == Approx(47.2));
  CHECK(figures.value(swell_wanted) == Approx(15.62).epsilon(0.001));
  CHECK(figures.value(swell_least) == 6);
  CHECK(figures.value(swell_most) == 12);
}

TEST_CASE("the swell that a round wants makes that round") {
  for (double const degrees : {40.0, 84.0, 120.0, 179.0}) {
    Figures figures = figures_from({{block_thickness, 40}, {shoulder, 3}, {round_angle, degrees}});
    figures.set(swell, figures.value(swell_wanted), Origin::said);
    apply_rules(figures, styles().front().usual);
    CHECK(figures.value(angle_it_takes) == Approx(degrees).epsilon(1e-9));
    figures = figures_from({{block_thickness, 40}, {shoulder, 3}, {round_angle, degrees}});
    figures.set(swell, figures.value(swell_low), Origin::said);
    apply_rules(figures, styles().front().usual);
    CHECK(figures.value(angle_it_takes) == Approx(degrees / 2).epsilon(1e-9));
  }
}

TEST_CASE("a spine no wider than its shoulders stand apart takes no round") {
  CHECK(by_rule(angle_it_takes, {{spine_width, 46}, {chord, 46}}) == 0);
  CHECK(by_rule(angle_it_takes, {{spine_width, 40}, {chord, 46}}) == 0);
  CHECK(by_rule(angle_it_takes, {{spine_width, 46.001}, {chord, 46}}) > 0);
}

TEST_CASE("the threads that fit give just the least and the most swell") {
  Figures figures = figures_from(
      {{block_thickness, 40}, {shoulder, 3}, {sections, 24}, {swell_kept, 0.5}, {thread_thickness, 0.6}});
  for (auto const& [thread, wanted] :
       {std::pair{thread_least, swell_least}, std::pair{thread_most, swell_most}})
    CHECK(by_rule(swell, {{sections, 24}, {swell_kept, 0.5}, {thread_thickness, figures.value(thread)}}) ==
          Approx(figures.value(wanted)));
}

TEST_CASE(
    "four cords make four bands, and five panels share what the bands leave") {  // common practice, no source
  Figures const figures =
      figures_from({{supports, 4}, {support_thickness, 5}, {thread_thickness, 0.5}, {leaf_height, 224}});
  CHECK(figures.value(bands) == 4);
  CHECK(figures.value(panels) == 5);
  CHECK(figures.value(band_width) == 6);
  CHECK(figures.value(panel_height) == 40);
}

TEST_CASE("stretch takes up the path over the bands before any leather is added") {
  tests::Given const low{{bands, 5}, {support_thickness, 2}, {leather_stretch, 0.03}, {board_height, 258}};
  CHECK(by_rule(band_path, low) == Approx(5.708).epsilon(0.0005));
  CHECK(by_rule(band_growth, low) == 0);
  tests::Given const high{{bands, 5}, {support_thickness, 5}, {leather_stretch, 0.03}, {board_height, 258}};
  CHECK(by_rule(band_growth, high) == Approx(14.270 - 7.74).epsilon(0.0005));
}

TEST_CASE("leather is used as it is bought unless it is pared") {
  CHECK(by_rule(leather_pared, {{leather_bought, 0.9}}) == 0.9);
  CHECK(by_rule(leather_pared, {{leather_bought, 0.9}, {leather_pared, 0.6}}) == 0.6);
}

TEST_CASE("an endband of 36 mm in silk of 0.3 mm has 120 wraps") {
  Figures const figures = figures_from({{arc, 36},
                                        {silk_thickness, 0.3},
                                        {silk_packing, 1},
                                        {core_thickness, 2},
                                        {core_trim, 20},
                                        {endbands, 2},
                                        {sections, 24},
                                        {tie_length, 30}});
  CHECK(figures.value(core_length) == 76);
  CHECK(figures.value(wraps) == 120);
  CHECK(figures.value(tie_downs) == 4);
  CHECK(figures.value(silk_length) == Approx(2 * (120 * 3.14159265 * 2.3 + 4 * 30)));
}

TEST_CASE("a register stands out 30 mm") {  // common practice, no source
  double const length = by_rule(register_length, {{register_anchor, 40},
                                                  {leaf_height, 210},
                                                  {leaf_width, 148},
                                                  {register_diagonal, 0},
                                                  {register_tail, 30}});
  CHECK(length - 40 - 210 == 30);
}

TEST_CASE("a strap over the fore-edge and one round the book") {
  auto const strap = [](double round_the_book) {
    return by_rule(strap_length, {{strap_wraps_round, round_the_book},
                                  {strap_fixing, 50},
                                  {board_thickness, 3},
                                  {block_thickness, 30},
                                  {strap_reach, 40},
                                  {strap_tail, 60},
                                  {board_width, 151},
                                  {joint, 2},
                                  {arc, 36},
                                  {strap_overlap, 80}});
  };
  CHECK(strap(0) == 50 + 3 + 30 + 3 + 40 + 60);
  CHECK(strap(1) == 2 * (151 + 2) + 36 + 30 + 6 + 80);
}

TEST_CASE("rivets stand at the ends and between, and a short strap has one") {
  auto const in_strap = [](double fixing) {
    return by_rule(strap_rivets, {{strap_fixing, fixing}, {strap_rivet_end, 8}, {strap_rivet_spacing, 20}});
  };
  CHECK(in_strap(50) == 2);  // 34 mm between the ends: one spacing
  CHECK(in_strap(56) == 3);  // 40 mm: two
  CHECK(in_strap(10) == 1);
  CHECK(by_rule(rivets, {{corners, 4},
                         {rivets_a_corner, 2},
                         {clasps, 2},
                         {rivets_a_clasp, 4},
                         {straps, 1},
                         {strap_rivets, 3},
                         {furniture_rivets, 0}}) == 19);
}

TEST_CASE("a closed book stands out by its bands and its round") {
  Figures const figures = figures_from({{board_height, 258},
                                        {board_width, 184},
                                        {setback, 1},
                                        {rise, 8},
                                        {support_thickness, 5},
                                        {leather_pared, 0.8},
                                        {block_thickness, 30},
                                        {board_thickness, 3}});
  CHECK(figures.value(closed_height) == Approx(259.6));
  CHECK(figures.value(closed_width) == Approx(199.6));
  CHECK(figures.value(closed_thickness) == Approx(39.2));
}
