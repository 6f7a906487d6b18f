// A box alone, and a book with its box, of materials whose thickness shows in every sum.
#pragma once

#include "tests/engine/book/made.h"

#include <utility>

namespace endband::tests {

inline constexpr double box_t = 2;         // board, mm
inline constexpr double box_cloth = 0.4;   // covering, mm
inline constexpr double box_paper = 0.15;  // lining, mm

inline Catalogue catalogue_with_boxes() {
  using Kind = MaterialKind;
  fixtures::Shelf shelf;
  fixtures::stock_paper_and_boards(shelf);
  fixtures::stock_thread_and_cord(shelf);
  fixtures::stock_liquids(shelf);
  fixtures::stock_fittings(shelf);
  shelf.sheet("board-box", Kind::board, box_t, {fixtures::mm(700), fixtures::mm(1000)})
      .properties.density_kg_m3 = 700;
  Material& buckram = shelf.by_length("buckram", Kind::cloth);
  buckram.properties.caliper = fixtures::thick(box_cloth);
  buckram.properties.width = fixtures::mm(1070);
  buckram.properties.grammage_mg = 320'000;
  shelf.sheet("lining", Kind::paper, box_paper, {fixtures::mm(700), fixtures::mm(1000)})
      .properties.grammage_mg = 120'000;
  return shelf.finish();
}

inline void put_in_box(BookSpec& spec, Way way, Catalogue const& catalogue) {
  using enum FigureId;
  spec.ways = spec.ways.replaced_by({way});
  fixtures::include(spec, {Part::box});
  fixtures::choose(spec, Role::box_board, catalogue, "board-box");
  fixtures::choose(spec, Role::box_cloth, catalogue, "buckram");
  fixtures::choose(spec, Role::box_lining, catalogue, "lining");
  fixtures::choose(spec, Role::box_adhesive, catalogue, "pva");
  fixtures::say(spec, {{box_clearance, 1}, {box_turn_in, 15}, {box_square, 3}});
}

// For a book of 246 x 172 x 38 mm and 900 g.
inline BookSpec box_alone(Way way, Catalogue const& catalogue) {
  using enum FigureId;
  BookSpec spec;
  spec.title = "A box";
  spec.binding = "box";
  spec.ways = style_named("box")->usual;
  fixtures::include(spec, {Part::whole_book, Part::packing, Part::office});
  put_in_box(spec, way, catalogue);
  fixtures::choose(spec, Role::carton, catalogue, "carton");
  fixtures::choose(spec, Role::padding, catalogue, "padding");
  fixtures::say(spec, {{closed_height, 246},
                       {closed_width, 172},
                       {closed_thickness, 38},
                       {book_mass, 900},
                       {padding_thickness, 10}});
  return spec;
}

inline BookSpec book_in_box(Way way, Catalogue const& catalogue) {
  BookSpec spec = fixtures::sample_spec(catalogue);
  put_in_box(spec, way, catalogue);
  return spec;
}

inline double mm_of(Length length) { return static_cast<double>(length.n) / 1000; }

}  // namespace endband::tests
