// The closed list of operations: what hands do to make and sell one book. The step library of a workshop
// gives each its times, wait and caution; the list itself, and what drives each, is the engine's.
#pragma once

#include "engine/book/figure.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

namespace endband {

enum class Driver : std::uint8_t {
  book,
  sheet,
  section,
  support,
  hole,
  needleful,
  band,
  panel,
  board,
  endband_wrap,
  registers,
  corner,
  rivet,
  clasp,
  strap,
  stone,
  letter,
  piece,
  metre_of_line,
  metre_of_edge,
  dm2_of_leather,
  dm2_of_surface,
  mixture,
  bench_session,
  enquiry,
  approval,
  parcel,
  purchase,
  payment,
  edge,
  endband,
  impression,
  leaf
};
std::string_view driver_name(Driver driver);

// clang-format off
enum class OperationKind : std::uint8_t {
  // repairs of a block or a binding that the customer brings
  collate_block, pull_block, clean_leaves, guard_folds, mend_leaves, resew_block, other_repair, reback_book,
  // the text block
  cut_sheets, cut_guards, fold_sheets, press_sections, set_guards, pierce_stations, make_endpapers, set_up_frame,
  wax_thread, sew_sections, link_sections, long_stitch_sections, sew_pamphlet,
  glue_spine, trim_edges, sprinkle_edges, gild_edges,
  // spine and boards
  round_spine, back_spine, line_panels, line_spine, make_hollow, set_false_bands, cut_boards, shape_boards,
  drill_lacing, sew_boards, lace_boards,
  // endbands and registers
  sew_endbands, stick_endbands, fix_registers,
  // covering
  laminate_underlays, let_in_panels, cut_leather, cut_cloth, pare_edges, thin_leather, dye_leather, mix_paste,
  make_case, cover_book, put_on_corners, put_on_sides, cover_boards, line_boards, cut_wrapper, pierce_wrapper,
  set_bands,
  turn_corners, case_in, joint_endpapers, put_down_endpapers, dress_leather,
  // finishing
  blind_lines, size_lines, lay_leaf, varnish_leaf, letter_title, set_type, press_impressions, lay_onlays,
  // furniture
  fit_corners, fit_clasps, fit_furniture, set_rivets, make_strap, fit_buckle, make_ties, set_stone,
  final_press, cut_box_boards, build_box, cover_box, line_box,
  // beside the bench
  answer_enquiry, draw_proof, photograph, order_materials, receive_custody, pack_parcel, post_parcel, keep_accounts,
  // work that a description adds by itself
  extra_work,
};
// clang-format on
inline constexpr std::size_t operation_count = static_cast<std::size_t>(OperationKind::extra_work) + 1;

struct OperationRow {
  OperationKind kind;
  std::string_view name;  // "sew-sections": the code of its step in the library
  std::string_view what;  // "sew the sections on the supports"
  Driver driver;
  Part part;
  bool repeated_if_ruined;  // must be done again when the costly piece of its part is ruined
};
std::span<OperationRow const> operation_table();
OperationRow const& operation_row(OperationKind kind);
std::optional<OperationKind> operation_named(std::string_view name);

}  // namespace endband
