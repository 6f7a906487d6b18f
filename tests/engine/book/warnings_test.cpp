// Each warning appears when it should, says what is and what would do, and is silent otherwise.
#include "tests/engine/book/made.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::tests;
using endband::fixtures::mm;
using endband::fixtures::say;
using enum FigureId;
using doctest::Approx;

namespace {

// 320 pages in 20 sections and a thinner board: a block that backs, with nothing to warn of.
struct Sound {
  Catalogue catalogue = fixtures::sample_catalogue();
  BookSpec spec = fixtures::sample_spec(catalogue);
  Sound() { say(spec, {{pages_wanted, 320}, {swell_kept, 0.45}, {shoulder, 1.5}, {round_angle, 84}}); }
  Structure made() const { return structure(spec, catalogue); }
  Warning const* of(WarningCode code) {
    last = made();
    return warning(last, code);
  }
  Structure last;
};

}  // namespace

TEST_CASE_FIXTURE(Sound, "a sound book is not warned of") {
  for (Warning const& warning : made().warnings) FAIL_CHECK(warning_name(warning.code));
}

TEST_CASE_FIXTURE(Sound, "a short last section is named with its sheets") {
  say(spec, {{pages_wanted, 308}});
  Warning const* const short_one = of(WarningCode::short_last_section);
  REQUIRE(short_one != nullptr);
  CHECK(short_one->is == 1);
  CHECK(short_one->least == 4);
}

TEST_CASE_FIXTURE(Sound, "creep over the trim is warned of, but not on an uncut edge") {
  say(spec, {{fore_edge_trim, 0.5}});
  Warning const* const creeps = of(WarningCode::creep_over_trim);
  REQUIRE(creeps != nullptr);
  CHECK(creeps->is == 0.5);
  CHECK(creeps->least == Approx(0.5655).epsilon(0.001));  // 3 x 0.12 mm x pi / 2
  say(spec, {{fore_edge_trim, 0}});
  CHECK(of(WarningCode::creep_over_trim) == nullptr);
}

TEST_CASE_FIXTURE(Sound, "sections run from 4 to 8 sheets folded once") {  // common practice, no source
  for (auto const& [s, f, usual] :
       {std::tuple{3.0, 1.0, false}, std::tuple{4.0, 1.0, true}, std::tuple{8.0, 1.0, true},
        std::tuple{9.0, 1.0, false}, std::tuple{2.0, 2.0, true}, std::tuple{1.0, 2.0, false}}) {
    say(spec, {{sheets_per_section, s}, {folds, f}});
    CHECK((of(WarningCode::section_unusual) == nullptr) == usual);
  }
}

TEST_CASE_FIXTURE(Sound, "a spine no wider than the shoulders stand apart will not back") {
  double const s = made().figures.value(swell);
  say(spec, {{shoulder, s / 2 + 0.01}});
  Warning const* const flat = of(WarningCode::will_not_back);
  REQUIRE(flat != nullptr);
  CHECK(flat->is == Approx(s));
  CHECK(flat->least == Approx(s + 0.02));
  CHECK(last.figures.value(angle_it_takes) == 0);
  CHECK(warning(last, WarningCode::swell_too_small) == nullptr);  // said once
  say(spec, {{shoulder, s / 2 - 0.01}});
  CHECK(of(WarningCode::will_not_back) == nullptr);
}

TEST_CASE_FIXTURE(Sound, "swell for less than half the round wanted is too small") {
  double const low = made().figures.value(swell_low);
  say(spec, {{swell, low - 0.01}});
  Warning const* const small = of(WarningCode::swell_too_small);
  REQUIRE(small != nullptr);
  CHECK(small->least == Approx(low));
  CHECK(last.figures.value(angle_it_takes) < 42);
  say(spec, {{swell, low + 0.01}});
  CHECK(of(WarningCode::swell_too_small) == nullptr);
  CHECK(last.figures.value(angle_it_takes) > 42);
}

TEST_CASE_FIXTURE(Sound, "swell of more than 30 % of the block is too great") {
  double const t = made().figures.value(block_thickness);
  say(spec, {{swell, 0.301 * t}});
  Warning const* const great = of(WarningCode::swell_too_great);
  REQUIRE(great != nullptr);
  CHECK(great->most == Approx(0.3 * t));
  say(spec, {{swell, 0.299 * t}});
  CHECK(of(WarningCode::swell_too_great) == nullptr);
}

TEST_CASE_FIXTURE(Sound, "squares are an eighth to three sixteenths of an inch, or once to twice the board") {
  // Boards of 3 mm: from 3 mm to 6 mm.
  for (auto const& [is, usual] :
       {std::pair{2.9, false}, std::pair{3.0, true}, std::pair{6.0, true}, std::pair{6.1, false}}) {
    say(spec, {{square, is}});
    CHECK((of(WarningCode::square_unusual) == nullptr) == usual);
  }
}

TEST_CASE_FIXTURE(Sound, "turn-ins are three quarters of an inch to an inch") {
  for (auto const& [is, usual] :
       {std::pair{19.0, false}, std::pair{19.1, true}, std::pair{25.4, true}, std::pair{26.0, false}}) {
    say(spec, {{turn_in, is}});
    CHECK((of(WarningCode::turn_in_unusual) == nullptr) == usual);
  }
}

TEST_CASE_FIXTURE(Sound, "there are four to seven bands") {
  for (auto const& [is, usual] :
       {std::pair{3.0, false}, std::pair{4.0, true}, std::pair{7.0, true}, std::pair{8.0, false}}) {
    say(spec, {{supports, is}});
    Warning const* const unusual = of(WarningCode::bands_unusual);
    CHECK((unusual == nullptr) == usual);
    if (unusual != nullptr) CHECK(unusual->is == is);
  }
}

TEST_CASE_FIXTURE(Sound, "thin leather is warned of on a heavy book only") {
  say(spec, {{leather_pared, 0.5}});
  REQUIRE(made().mass.n > 1'000'000);
  Warning const* const thin = of(WarningCode::thin_leather);
  REQUIRE(thin != nullptr);
  CHECK(thin->is == 0.5);
  CHECK(thin->least == 0.6);
  say(spec, {{leaf_height, 150}, {leaf_width, 100}});
  REQUIRE(made().mass.n < 1'000'000);
  CHECK(of(WarningCode::thin_leather) == nullptr);
}

TEST_CASE_FIXTURE(Sound, "a register that stands out less than 20 mm is short") {
  say(spec, {{register_length, 40 + 250 + 19}});
  Warning const* const short_one = of(WarningCode::register_short);
  REQUIRE(short_one != nullptr);
  CHECK(short_one->least == 40 + 250 + 20);
  say(spec, {{register_length, 40 + 250 + 20}});
  CHECK(of(WarningCode::register_short) == nullptr);
}

TEST_CASE_FIXTURE(Sound, "a sheet too small for the right grain is turned, and that is warned of") {
  Material& paper = material(catalogue, "paper-cream");
  paper.properties.sheet =
      SheetSize{mm(300), mm(400)};  // the folio is 256 x 368 mm: it fits only across the grain
  Warning const* const across = of(WarningCode::grain_across);
  REQUIRE(across != nullptr);
  CHECK(across->material == paper.id);
  CHECK(only(last.pieces, Item::text_sheets).grain == Grain::along_width);
  CHECK(last.figures.value(grain_head_to_tail) == 0);
  paper.properties.sheet = SheetSize{mm(400), mm(300)};
  CHECK(of(WarningCode::grain_across) == nullptr);
}

TEST_CASE_FIXTURE(Sound, "a piece too large for its sheet either way is left to whoever cuts it") {
  material(catalogue, "paper-cream").properties.sheet = SheetSize{mm(210), mm(297)};
  CHECK(of(WarningCode::grain_across) == nullptr);
  CHECK(only(last.pieces, Item::text_sheets).grain == Grain::along_height);
}

TEST_CASE_FIXTURE(Sound, "contact adhesive that attacks brass is warned of at the corners") {
  spec = fixtures::sample_spec_with_everything(catalogue);
  CHECK(of(WarningCode::not_for_brass) == nullptr);
  fixtures::choose(spec, Role::corner_adhesive, catalogue, "contact");
  Warning const* const brass = of(WarningCode::not_for_brass);
  REQUIRE(brass != nullptr);
  CHECK(is_material(catalogue, brass->material, "contact"));
}

TEST_CASE_FIXTURE(Sound, "leaf that tarnishes and restricted goods are named where they are used") {
  spec = fixtures::sample_spec_with_everything(catalogue);
  CHECK(of(WarningCode::leaf_tarnishes) == nullptr);  // brass leaf stands in the catalogue, gold is used
  fixtures::choose(spec, Role::metal_leaf, catalogue, "leaf-brass");
  Warning const* const brass = of(WarningCode::leaf_tarnishes);
  REQUIRE(brass != nullptr);
  CHECK(is_material(catalogue, brass->material, "leaf-brass"));

  material(catalogue, "bridle").flags.restricted = true;
  CHECK(of(WarningCode::restricted_material) == nullptr);
  fixtures::choose(spec, Role::strap_leather, catalogue, "bridle");
  REQUIRE(of(WarningCode::restricted_material) != nullptr);
}

TEST_CASE_FIXTURE(Sound, "a piece that the customer brings cannot be replaced") {
  spec.customer_supplies = {catalogue.find("goat")->id, catalogue.find("buckle")->id};
  std::vector<MaterialId> named;
  for (Warning const& warning : made().warnings)
    if (warning.code == WarningCode::customer_piece_cannot_be_replaced) named.push_back(warning.material);
  CHECK(named == std::vector{catalogue.find("goat")->id});  // this book has no buckle
}

TEST_CASE_FIXTURE(Sound, "a carton that the book does not fit is named") {
  Material& carton = material(catalogue, "carton");
  carton.properties.height = mm(25);  // however it lies
  carton.properties.width = mm(270);
  carton.properties.depth = mm(210);
  Warning const* const small = of(WarningCode::carton_too_small);
  REQUIRE(small != nullptr);
  CHECK(small->is == 25);
  CHECK(small->least == Approx(last.figures.value(closed_thickness)));
  carton.properties.height = mm(40);
  CHECK(of(WarningCode::carton_too_small) == nullptr);
}
