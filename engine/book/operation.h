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
  payment
};
std::string_view driver_name(Driver driver);

// clang-format off
enum class OperationKind : std::uint8_t {
  // the text block
  cut_sheets, fold_sheets, press_sections, pierce_stations, make_endpapers, set_up_frame, wax_thread, sew_sections,
  glue_spine, trim_edges,
  // spine and boards
  round_spine, back_spine, line_panels, cut_boards, shape_boards, drill_lacing, lace_boards,
  // endbands and registers
  sew_endbands, fix_registers,
  // covering
  laminate_underlays, cut_leather, pare_edges, thin_leather, dye_leather, mix_paste, cover_book, set_bands,
  turn_corners, put_down_endpapers, dress_leather,
  // finishing
  blind_lines, size_lines, lay_leaf, varnish_leaf, letter_title,
  // furniture
  fit_corners, fit_clasps, set_rivets, make_strap, fit_buckle, set_stone,
  final_press,
  // beside the bench
  answer_enquiry, draw_proof, photograph, order_materials, pack_parcel, post_parcel, keep_accounts,
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
