// What holds between the figures of a book.
#include "engine/book/resolve.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace endband {
namespace {

using enum FigureId;

void clash(Resolving& to, std::size_t index, std::string expected) {
  Hit const& hit = to.layers[index];
  Where const where = hit ? hit.entry->where : Where{to.layers.source(), 0, 0, std::string(path_of(index))};
  std::string found = hit ? value_text(key_table::rows[index].row.type, hit.entry->value) : std::string();
  to.fault(FaultCode::contradiction, where, std::move(found), std::move(expected));
}

constexpr double thickest_block_mm = key_table::rows[key("text.thickness")].row.most;

double caliper_of(Resolving const& to, Role role) {
  Chosen const& chosen = to.spec.chosen(role);
  if (chosen.origin == Origin::none) return 0;
  auto const caliper = to.catalogue.at(chosen.material).properties.caliper;
  return caliper ? static_cast<double>(caliper->n) / 1'000'000 : 0;
}

// Pages, folds and paper may each be in range and make a block that no press takes.
void check_block(Resolving& to) {
  Figures const& given = to.spec.given;
  if (given.has(block_thickness) || !given.has(folds)) return;
  double const leaves_a_sheet = std::exp2(given.value(folds));
  double const made =
      given.has(sheets) ? given.value(sheets) * leaves_a_sheet : given.value(pages_wanted) / 2;
  double const thickness = made * given.value_or(leaf_caliper, caliper_of(to, Role::text_paper));
  if (thickness <= thickest_block_mm) return;
  std::size_t index = key("text.sections");
  for (std::size_t const other : {key("text.sheets"), key("pages")})
    if (to.layers[other]) index = other;
  Hit const& hit = to.layers[index];
  to.fault(FaultCode::out_of_range, hit.entry->where, fmt::format("{:g} mm of leaves", thickness),
           fmt::format("a block of at most {:g} mm: fewer leaves, or thinner ones", thickest_block_mm));
}

void check_lines(Resolving& to, double height, double width) {
  double const narrower = std::min(height, width);
  for (Lines const& lines : to.spec.lines) {
    double const taken = 2 * (lines.inset_mm + (lines.count - 1) * 2 * lines.width_mm);
    if (lines.layout == LineLayout::frame && taken >= narrower)
      to.fault(FaultCode::contradiction, lines.where, fmt::format("frames set in by {:g} mm", taken / 2),
               fmt::format("less than half of the board, {:g} mm", narrower / 2));
  }
}

// A box alone has no boards of a book to frame and no bands to run along.
void check_lines_of_a_box(Resolving& to) {
  for (Lines const& lines : to.spec.lines)
    if (lines.layout != LineLayout::length)
      to.fault(FaultCode::contradiction, lines.where,
               lines.layout == LineLayout::frame ? "layout = \"frame\"" : "layout = \"bands\"",
               "layout = \"length\" and the length of a line, on a box alone");
}

// As far as what is given shows it; a measured band width or thread is part of it.
void check_bands(Resolving& to, double height) {
  Figures const& given = to.spec.given;
  if (!given.has(supports) || !to.spec.ways.has(Way::raised_cords)) return;
  double const band = given.value_or(band_width, caliper_of(to, Role::cord));
  double const bands = given.value(supports) * band;
  if (bands >= height)
    clash(to, key("sewing.supports"),
          fmt::format("bands that leave panels: these take {:g} of {:g} mm", bands, height));
}

}  // namespace

void check_together(Resolving& to) {
  if (!to.parts.has(Part::text_block)) return check_lines_of_a_box(to);
  Figures const& given = to.spec.given;
  double const height = given.value(leaf_height);
  double const width = given.value(leaf_width);
  if (2 * given.value_or(kettle_setback, 0) >= height)
    clash(to, key("sewing.kettle_setback"), fmt::format("less than half of the height, {:g} mm", height / 2));
  if (given.value_or(setback, 0) >= width)
    clash(to, key("boards.setback"), fmt::format("less than the width, {:g} mm", width));
  if (given.has(needle_length) && given.value_or(needle_waste, 0) >= given.value(needle_length))
    clash(to, key("sewing.needle_waste"),
          fmt::format("less than a needleful, {:g} mm", given.value(needle_length)));
  double const edge = given.value_or(square, 0);
  check_block(to);
  check_lines(to, height + 2 * edge, width + edge - given.value_or(setback, 0));
  check_bands(to, height);
  check_covering(to);
  if (to.faults.empty()) check_limits(to);
}

}  // namespace endband
