// The table of operations, and the names of what drives them.
#include "engine/book/operation.h"

#include <algorithm>
#include <array>

namespace endband {
namespace {

using enum OperationKind;

// clang-format off
constexpr std::array rows{
    OperationRow{cut_sheets, "cut-sheets", "cut the paper to sheets", Driver::sheet, Part::text_block, false},
    OperationRow{fold_sheets, "fold-sheets", "fold the sheets", Driver::sheet, Part::text_block, false},
    OperationRow{press_sections, "press-sections", "gather the sections and press them", Driver::book, Part::text_block, false},
    OperationRow{pierce_stations, "pierce-stations", "pierce the sewing holes", Driver::section, Part::sewing, false},
    OperationRow{make_endpapers, "make-endpapers", "cut, fold and tip on the endpapers", Driver::book, Part::endpapers, false},
    OperationRow{set_up_frame, "set-up-frame", "set up the sewing frame", Driver::support, Part::sewing, false},
    OperationRow{wax_thread, "wax-thread", "cut and wax a needleful of thread", Driver::needleful, Part::sewing, false},
    OperationRow{sew_sections, "sew-sections", "sew the sections on the supports", Driver::section, Part::sewing, false},
    OperationRow{glue_spine, "glue-spine", "glue up the spine", Driver::book, Part::spine, false},
    OperationRow{trim_edges, "trim-edges", "trim the edges", Driver::book, Part::text_block, false},
    OperationRow{round_spine, "round-spine", "round the spine", Driver::book, Part::spine, false},
    OperationRow{back_spine, "back-spine", "back the spine", Driver::book, Part::spine, false},
    OperationRow{line_panels, "line-panels", "line the panels of the spine", Driver::panel, Part::spine, false},
    OperationRow{cut_boards, "cut-boards", "cut the boards to size", Driver::board, Part::boards, true},
    OperationRow{shape_boards, "shape-boards", "shape the edges of the boards", Driver::board, Part::boards, true},
    OperationRow{drill_lacing, "drill-lacing", "make the lacing holes", Driver::hole, Part::boards, true},
    OperationRow{lace_boards, "lace-boards", "lace the boards on", Driver::support, Part::boards, true},
    OperationRow{sew_endbands, "sew-endbands", "sew the endbands", Driver::endband_wrap, Part::endbands, false},
    OperationRow{fix_registers, "fix-registers", "glue in the registers", Driver::registers, Part::registers, false},
    OperationRow{laminate_underlays, "laminate-underlays", "cut and laminate the underlays", Driver::piece, Part::underlays, false},
    OperationRow{cut_leather, "cut-leather", "cut the leather", Driver::piece, Part::cover, true},
    OperationRow{pare_edges, "pare-edges", "pare the edges of the leather", Driver::metre_of_edge, Part::cover, true},
    OperationRow{thin_leather, "thin-leather", "thin the leather all over", Driver::dm2_of_leather, Part::cover, true},
    OperationRow{dye_leather, "dye-leather", "dye the leather", Driver::dm2_of_leather, Part::cover, true},
    OperationRow{mix_paste, "mix-paste", "mix the paste", Driver::mixture, Part::cover, false},
    OperationRow{cover_book, "cover-book", "cover the book", Driver::book, Part::cover, true},
    OperationRow{set_bands, "set-bands", "work the leather round the bands", Driver::band, Part::cover, true},
    OperationRow{turn_corners, "turn-corners", "turn in the corners", Driver::corner, Part::cover, true},
    OperationRow{put_down_endpapers, "put-down-endpapers", "put down the pastedowns", Driver::board, Part::endpapers, false},
    OperationRow{dress_leather, "dress-leather", "dress the leather", Driver::dm2_of_leather, Part::cover, true},
    OperationRow{blind_lines, "blind-lines", "tool the blind lines", Driver::metre_of_line, Part::lines, false},
    OperationRow{size_lines, "size-lines", "lay the gilding size", Driver::metre_of_line, Part::lines, false},
    OperationRow{lay_leaf, "lay-leaf", "lay the metal leaf", Driver::metre_of_line, Part::lines, false},
    OperationRow{varnish_leaf, "varnish-leaf", "varnish the metal leaf", Driver::metre_of_line, Part::lines, false},
    OperationRow{letter_title, "letter-title", "letter the title", Driver::letter, Part::lettering, false},
    OperationRow{fit_corners, "fit-corners", "fit the corners", Driver::corner, Part::corners, false},
    OperationRow{fit_clasps, "fit-clasps", "fit the clasps", Driver::clasp, Part::clasps, false},
    OperationRow{set_rivets, "set-rivets", "set the rivets", Driver::rivet, Part::whole_book, false},
    OperationRow{make_strap, "make-strap", "make the strap and fix it", Driver::strap, Part::strap, true},
    OperationRow{fit_buckle, "fit-buckle", "fit the buckle", Driver::strap, Part::strap, false},
    OperationRow{set_stone, "set-stone", "set the stone", Driver::stone, Part::stone, true},
    OperationRow{final_press, "final-press", "press the finished book", Driver::book, Part::whole_book, false},
    OperationRow{answer_enquiry, "answer-enquiry", "answer the enquiry and quote", Driver::enquiry, Part::office, false},
    OperationRow{draw_proof, "draw-proof", "draw a proof and have it approved", Driver::approval, Part::office, false},
    OperationRow{photograph, "photograph", "photograph the book", Driver::book, Part::office, false},
    OperationRow{order_materials, "order-materials", "order the materials", Driver::purchase, Part::office, false},
    OperationRow{pack_parcel, "pack-parcel", "pack the parcel", Driver::parcel, Part::packing, false},
    OperationRow{post_parcel, "post-parcel", "take the parcel to the post", Driver::parcel, Part::packing, false},
    OperationRow{keep_accounts, "keep-accounts", "enter the sale in the accounts", Driver::payment, Part::office, false},
    OperationRow{extra_work, "extra-work", "extra work", Driver::book, Part::extras, false},
};
// clang-format on

constexpr bool rows_follow_their_kinds() {
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (static_cast<std::size_t>(rows[i].kind) != i) return false;
  return rows.size() == operation_count;
}
static_assert(rows_follow_their_kinds());

constexpr std::array<std::string_view, 29> driver_names{
    "book",           "sheet",          "section",  "support",       "hole",
    "needleful",      "band",           "panel",    "board",         "wrap of an endband",
    "register",       "corner",         "rivet",    "clasp",         "strap",
    "stone",          "letter",         "piece",    "metre of line", "metre of edge",
    "dm2 of leather", "dm2 of surface", "mixture",  "bench session", "enquiry",
    "approval",       "parcel",         "purchase", "payment"};
static_assert(driver_names.size() == static_cast<std::size_t>(Driver::payment) + 1);

}  // namespace

std::string_view driver_name(Driver driver) { return driver_names.at(static_cast<std::size_t>(driver)); }

std::span<OperationRow const> operation_table() { return rows; }

OperationRow const& operation_row(OperationKind kind) { return rows.at(static_cast<std::size_t>(kind)); }

std::optional<OperationKind> operation_named(std::string_view name) {
  auto const row =
      std::find_if(rows.begin(), rows.end(), [&](OperationRow const& r) { return r.name == name; });
  if (row == rows.end()) return std::nullopt;
  return row->kind;
}

}  // namespace endband
