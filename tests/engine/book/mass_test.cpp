// What the plain book and the book of everything weigh, worked by hand.
#include "tests/engine/book/whole_books.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::tests;
using enum FigureId;
using doctest::Approx;

TEST_CASE_FIXTURE(Everything, "a book weighs what all its parts weigh") {
  Structure const book = made();
  Figures const& f = book.figures;
  CHECK(f.value(block_mass) == Approx(150 * 0.25 * 0.18 * 90));
  CHECK(f.value(boards_mass) == Approx(2 * 258 * 184 * 3 * 1050e-6));
  CHECK(f.value(cover_mass) == Approx(f.value(cover_area) * 0.8 * 750e-6));
  // Four corners of 9 g, two clasps of 38, a buckle of 22, a stone of 11, 19 rivets of 1 g, and the strap.
  double const strap_g = f.value(strap_length) * 25 * 1.0 * 750e-6;
  CHECK(f.value(fittings_mass) == Approx(36 + 76 + 22 + 11 + 19 + strap_g).epsilon(1e-5));
  double const sum = f.value(block_mass) + f.value(endpapers_mass) + f.value(boards_mass) +
                     f.value(cover_mass) + f.value(fittings_mass) + f.value(sundries_mass);
  CHECK(static_cast<double>(book.mass.n) / 1000 == Approx(sum).epsilon(1e-5));
}

TEST_CASE_FIXTURE(Plain, "an adhesive weighs what it leaves when it is dry") {
  double const before = made().figures.value(sundries_mass);
  material(catalogue, "paste").properties.solids = Ratio(1);  // 45 g/m2, of which 12 % dried away
  double const m2 = (2 * made().figures.value(cover_area) + 2 * 3 * 250 + 2 * 250 * 180) * 1e-6;
  CHECK(made().figures.value(sundries_mass) - before == Approx(m2 * 45 * 0.12));
  material(catalogue, "paste").properties.solids.reset();
  CHECK(made().figures.value(sundries_mass) == Approx(before - m2 * 45 * 0.88));
}

TEST_CASE_FIXTURE(Plain, "cords weigh by their thickness and density, ribbons by their width and grammage") {
  auto const lighter_by = [this](std::string_view code, auto&& lose_mass) {
    double const before = made().figures.value(sundries_mass);
    Material const kept = material(catalogue, code);
    lose_mass(material(catalogue, code).properties);
    double const after = made().figures.value(sundries_mass);
    material(catalogue, code) = kept;
    return before - after;
  };
  Figures const f = made().figures;
  CHECK(lighter_by("cord-5", [](Properties& of) { of.density_kg_m3.reset(); }) ==
        Approx(5 * f.value(cord_each) * M_PI * 2.5 * 2.5 * 700e-6));
  CHECK(lighter_by("ribbon", [](Properties& of) { of.grammage_mg.reset(); }) ==
        Approx(f.value(register_length) * 6 * 160e-6));
  CHECK(lighter_by("linen", [](Properties& of) { of.grammage_mg.reset(); }) ==
        Approx(6 * (f.value(panel_height) - 1) * f.value(arc) * 140e-6).epsilon(1e-3));
}

TEST_CASE_FIXTURE(Everything, "contact adhesive weighs on both faces") {
  fixtures::choose(spec, Role::corner_adhesive, catalogue, "contact");
  double const before = made().figures.value(sundries_mass);
  material(catalogue, "contact").properties.solids.reset();
  double const held_m2 = 4 * (32 * 32 + 2 * 32 * 3) * 1e-6;
  CHECK(before - made().figures.value(sundries_mass) == Approx(held_m2 * 2 * 150 * 0.5));
}
