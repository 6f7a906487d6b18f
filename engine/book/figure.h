// The figures of a book: every dimension, count and share that the structure calculator knows, one value
// each. A figure is given (said, model, workshop, practice, catalogue) or computed by the one rule that names
// it. Lengths are double millimetres here and nowhere after; pieces leave the book as exact micrometres.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string_view>

namespace endband {

enum class Unit : std::uint8_t { mm, mm2, count, share, degree, gram, gram_m2, yes_no, tex, kg_m3 };

enum class Part : std::uint8_t {
  text_block,
  sewing,
  endpapers,
  spine,
  boards,
  endbands,
  registers,
  underlays,
  cover,
  lines,
  lettering,
  corners,
  clasps,
  strap,
  stone,
  whole_book,
  packing,
  office,
  extras,
  guards,  // these stand last: a stored share of the cost is known by its part's place
  edges,
  false_bands,
  insets,
  furniture,
  tie,
  box,
  repairs
};
inline constexpr std::size_t part_count = static_cast<std::size_t>(Part::repairs) + 1;
std::string_view part_name(Part part);

// clang-format off
enum class FigureId : std::uint16_t {
  // text block
  leaf_height, leaf_width, pages_wanted, folds, sheets, sheets_per_section, sections, last_section_sheets, leaves,
  pages, leaf_caliper, leaf_grammage, compression, creep, head_tail_trim, fore_edge_trim, section_thickness, sheet_height,
  sheet_width, grain_head_to_tail, block_given, block_density, block_thickness, block_mass,
  // guards, edges
  mounted_thickness, guard_caliper, guard_width, guards_a_leaf, guards, guard_thickness, edges_done, edge_length,
  edges_area,
  // endpapers
  endpapers_each_end, pastedowns, free_endpaper_leaves, endpaper_caliper, endpaper_grammage, endpaper_thickness, tip_width, joint_reach,
  // sewing
  sewn_sections, thread_passes, thread_layers, thread_tex, thread_density, thread_thickness, swell_kept, swell, kettle_setback, supports, support_thickness,
  support_width, support_turns, support_path, stations, link_length, knot_tail, stitch_allowance, thread_length, needle_length, needle_waste, needlefuls, thread_taken, slip_length,
  frame_allowance, cord_each, cord_length, holes_a_support, holes, wax_pickup,
  // spine
  spine_width, round_angle, shoulder, chord, spine_radius, arc, rise, swell_wanted, swell_least, swell_low,
  swell_most, angle_it_takes, thread_least, thread_most, bands, panels, band_width, panel_height, panel_clearance,
  lining_layers, paper_lining_layers, mull_reach, mull_setback, mull_height, mull_width, hollow_width, false_bands,
  false_band_width, stiffener_thickness, spine_piece_width, back_depth,
  // boards
  board_thickness, board_density, square, setback, boards, board_height, board_width, holes_a_slip, lacing_holes,
  // cover
  leather_bought, leather_pared, leather_density, turn_in, joint, leather_stretch, band_path, band_growth,
  underlay_growth, underlay_growth_across, cover_height, cover_width, pare_length, cover_area,
  covering_thickness, side_thickness, side_density, spine_reach_share, spine_reach, side_lap, corner_leather, corner_cut, covering_corners, corners_area, corner_edges,
  spine_cover_width, side_height, side_width, sides_area, sides_mass, corners_mass, cover_flap, wrapper_holes,
  // endbands
  endbands, endband_colours, cores_an_endband, second_core_thickness, wrap_path, core_thickness, core_trim, core_length, silk_tex, silk_density, silk_thickness,
  silk_packing, wraps, tie_downs, tie_length, silk_length,
  // registers
  registers, register_anchor, register_tail, register_diagonal, register_length,
  // corners, clasps, strap, stone
  corners, corner_leg, rivets_a_corner, clasps, rivets_a_clasp, straps, strap_width, strap_fixing, strap_reach,
  strap_tail, strap_overlap, strap_wraps_round, strap_length, strap_rivet_spacing, strap_rivet_end, strap_rivets,
  furniture_rivets, rivets, stones, stone_height, stone_width, ties, tie_turns, tie_tail, tie_width, tie_band,
  // lines and lettering
  leaf_lap, letters, letter_lines, impressions, letter_height, letter_pitch, letter_layers,
  // box
  box_clearance, box_board_thickness, box_cloth_thickness, box_lining_thickness, box_turn_in, box_square, box_joint,
  box_inner_height, box_inner_width, box_inner_depth,
  slipcase_back_height, slipcase_back_width, slipcase_side_height, slipcase_side_width, slipcase_strip_length,
  slipcase_strip_width, slipcase_side_cloth_width, slipcase_lining_width, slipcase_lining_length,
  inner_tray_wall, inner_tray_height, inner_tray_width, inner_tray_end_wall, inner_tray_cloth_length,
  inner_tray_cloth_width, inner_tray_lining_height, inner_tray_lining_width,
  outer_tray_wall, outer_tray_height, outer_tray_width, outer_tray_end_wall, outer_tray_cloth_length,
  outer_tray_cloth_width, outer_tray_lining_height, outer_tray_lining_width,
  box_case_board_height, box_case_board_width, box_case_spine_width, box_case_cloth_height, box_case_cloth_width,
  box_case_lining_height, box_case_lining_width,
  box_height, box_width, box_depth, box_mass,
  // whole book
  copies,
  boards_mass, cover_mass, endpapers_mass, fittings_mass, sundries_mass, book_mass, padding_density, closed_height,
  closed_width, closed_thickness, padding_thickness, parcel_height, parcel_width, parcel_thickness, carton_height,
  carton_width, carton_depth, carton_wall, packing_mass, packed_height, packed_width, packed_thickness, packed_mass,
};
// clang-format on
inline constexpr std::size_t figure_count = static_cast<std::size_t>(FigureId::packed_mass) + 1;

// Where a value comes from, strongest first; `none`: not known, because its part is absent.
enum class Origin : std::uint8_t { said, model, workshop, practice, catalogue, learned, computed, none };
std::string_view origin_name(Origin origin);

struct Figure {
  double value = 0;
  Origin origin = Origin::none;
};

class Figures {
 public:
  bool has(FigureId id) const { return at_[index(id)].origin != Origin::none; }
  double value(FigureId id) const;  // throws std::logic_error when the figure is not known
  double value_or(FigureId id, double otherwise) const { return has(id) ? at_[index(id)].value : otherwise; }
  Figure const& operator[](FigureId id) const { return at_[index(id)]; }
  void set(FigureId id, double value, Origin origin) { at_[index(id)] = {value, origin}; }
  static constexpr std::size_t index(FigureId id) { return static_cast<std::size_t>(id); }

 private:
  std::array<Figure, figure_count> at_{};
};

struct FigureRow {
  FigureId id;
  std::string_view name;    // "spine-width": stable, in JSON
  std::string_view words;   // "spine before rounding"
  std::string_view symbol;  // "B"; may be empty
  Unit unit;
  Part part;
};
FigureRow const& figure_row(FigureId id);

}  // namespace endband
