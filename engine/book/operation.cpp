// The table of operations, and the names of what drives them.
#include "engine/book/operation.h"

#include <algorithm>
#include <array>

namespace endband {
namespace {

using enum OperationKind;

// clang-format off
constexpr std::array rows{
    OperationRow{collate_block, "collate-block", "collate the block", Driver::leaf, Part::repairs, false},
    OperationRow{pull_block, "pull-block", "pull the sections apart", Driver::section, Part::repairs, false},
    OperationRow{clean_leaves, "clean-leaves", "clean the leaves", Driver::leaf, Part::repairs, false},
    OperationRow{guard_folds, "guard-folds", "guard the folds", Driver::piece, Part::repairs, false},
    OperationRow{mend_leaves, "mend-leaves", "mend the leaves", Driver::piece, Part::repairs, false},
    OperationRow{resew_block, "resew-block", "sew the block again", Driver::section, Part::repairs, false},
    OperationRow{other_repair, "other-repair", "other repairs", Driver::piece, Part::repairs, false},
    OperationRow{reback_book, "reback-book", "put on a new back", Driver::book, Part::repairs, false},
    OperationRow{cut_sheets, "cut-sheets", "cut the paper to sheets", Driver::sheet, Part::text_block, false},
    OperationRow{cut_guards, "cut-guards", "cut the guards", Driver::piece, Part::guards, false},
    OperationRow{fold_sheets, "fold-sheets", "fold the sheets", Driver::sheet, Part::text_block, false},
    OperationRow{press_sections, "press-sections", "gather the sections and press them", Driver::book, Part::text_block, false},
    OperationRow{set_guards, "set-guards", "set the guards in the sections", Driver::piece, Part::guards, false},
    OperationRow{pierce_stations, "pierce-stations", "pierce the sewing holes", Driver::section, Part::sewing, false},
    OperationRow{make_endpapers, "make-endpapers", "cut, fold and tip on the endpapers", Driver::book, Part::endpapers, false},
    OperationRow{set_up_frame, "set-up-frame", "set up the sewing frame", Driver::support, Part::sewing, false},
    OperationRow{wax_thread, "wax-thread", "cut and wax a needleful of thread", Driver::needleful, Part::sewing, false},
    OperationRow{sew_sections, "sew-sections", "sew the sections on the supports", Driver::section, Part::sewing, false},
    OperationRow{link_sections, "link-sections", "sew the sections with link stitches", Driver::section, Part::sewing, false},
    OperationRow{long_stitch_sections, "long-stitch-sections", "sew the sections through the wrapper", Driver::section, Part::sewing, false},
    OperationRow{sew_pamphlet, "sew-pamphlet", "sew the section through its fold", Driver::book, Part::sewing, false},
    OperationRow{glue_spine, "glue-spine", "glue up the spine", Driver::book, Part::spine, false},
    OperationRow{trim_edges, "trim-edges", "trim the edges", Driver::book, Part::text_block, false},
    OperationRow{sprinkle_edges, "sprinkle-edges", "sprinkle or colour the edges", Driver::edge, Part::edges, false},
    OperationRow{gild_edges, "gild-edges", "gild the edges", Driver::edge, Part::edges, false},
    OperationRow{round_spine, "round-spine", "round the spine", Driver::book, Part::spine, false},
    OperationRow{back_spine, "back-spine", "back the spine", Driver::book, Part::spine, false},
    OperationRow{line_panels, "line-panels", "line the panels of the spine", Driver::panel, Part::spine, false},
    OperationRow{line_spine, "line-spine", "line the spine with mull and paper", Driver::book, Part::spine, false},
    OperationRow{make_hollow, "make-hollow", "make the hollow", Driver::book, Part::spine, false},
    OperationRow{set_false_bands, "set-false-bands", "cut and glue the false bands", Driver::band, Part::false_bands, false},
    OperationRow{cut_boards, "cut-boards", "cut the boards to size", Driver::board, Part::boards, true},
    OperationRow{shape_boards, "shape-boards", "shape the edges of the boards", Driver::board, Part::boards, true},
    OperationRow{drill_lacing, "drill-lacing", "make the lacing holes", Driver::hole, Part::boards, true},
    OperationRow{sew_boards, "sew-boards", "sew the boards on", Driver::board, Part::boards, true},
    OperationRow{lace_boards, "lace-boards", "lace the boards on", Driver::support, Part::boards, true},
    OperationRow{sew_endbands, "sew-endbands", "sew the endbands", Driver::endband_wrap, Part::endbands, false},
    OperationRow{stick_endbands, "stick-endbands", "glue on the made endbands", Driver::endband, Part::endbands, false},
    OperationRow{fix_registers, "fix-registers", "glue in the registers", Driver::registers, Part::registers, false},
    OperationRow{laminate_underlays, "laminate-underlays", "cut and laminate the underlays", Driver::piece, Part::underlays, false},
    OperationRow{let_in_panels, "let-in-panels", "cut the recess and let in the panels", Driver::piece, Part::insets, false},
    OperationRow{cut_leather, "cut-leather", "cut the leather", Driver::piece, Part::cover, true},
    OperationRow{cut_cloth, "cut-cloth", "cut the cloth or paper of the cover", Driver::piece, Part::cover, true},
    OperationRow{pare_edges, "pare-edges", "pare the edges of the leather", Driver::metre_of_edge, Part::cover, true},
    OperationRow{thin_leather, "thin-leather", "thin the leather all over", Driver::dm2_of_leather, Part::cover, true},
    OperationRow{dye_leather, "dye-leather", "dye the leather", Driver::dm2_of_leather, Part::cover, true},
    OperationRow{mix_paste, "mix-paste", "mix the paste", Driver::mixture, Part::cover, false},
    OperationRow{make_case, "make-case", "make the case", Driver::book, Part::cover, true},
    OperationRow{cover_book, "cover-book", "cover the book", Driver::book, Part::cover, true},
    OperationRow{put_on_corners, "put-on-corners", "cover the corners", Driver::corner, Part::cover, true},
    OperationRow{put_on_sides, "put-on-sides", "put on the sides", Driver::board, Part::cover, true},
    OperationRow{cover_boards, "cover-boards", "cover the boards one by one", Driver::board, Part::cover, true},
    OperationRow{line_boards, "line-boards", "line the boards", Driver::board, Part::boards, false},
    OperationRow{cut_wrapper, "cut-wrapper", "cut and fold the wrapper", Driver::book, Part::cover, true},
    OperationRow{pierce_wrapper, "pierce-wrapper", "pierce the wrapper", Driver::hole, Part::cover, true},
    OperationRow{set_bands, "set-bands", "work the leather round the bands", Driver::band, Part::cover, true},
    OperationRow{turn_corners, "turn-corners", "turn in the corners", Driver::corner, Part::cover, true},
    OperationRow{case_in, "case-in", "hang the book in its case", Driver::book, Part::cover, false},
    OperationRow{joint_endpapers, "joint-endpapers", "make the leather joints", Driver::board, Part::endpapers, false},
    OperationRow{put_down_endpapers, "put-down-endpapers", "put down the pastedowns", Driver::board, Part::endpapers, false},
    OperationRow{dress_leather, "dress-leather", "dress the leather", Driver::dm2_of_leather, Part::cover, true},
    OperationRow{blind_lines, "blind-lines", "tool the blind lines", Driver::metre_of_line, Part::lines, false},
    OperationRow{size_lines, "size-lines", "lay the gilding size", Driver::metre_of_line, Part::lines, false},
    OperationRow{lay_leaf, "lay-leaf", "lay the metal leaf", Driver::metre_of_line, Part::lines, false},
    OperationRow{varnish_leaf, "varnish-leaf", "varnish the metal leaf", Driver::metre_of_line, Part::lines, false},
    OperationRow{letter_title, "letter-title", "letter the title", Driver::letter, Part::lettering, false},
    OperationRow{set_type, "set-type", "set the type", Driver::letter, Part::lettering, false},
    OperationRow{press_impressions, "press-impressions", "press the lines of the title", Driver::impression, Part::lettering, false},
    OperationRow{lay_onlays, "lay-onlays", "pare and lay the onlays", Driver::piece, Part::insets, false},
    OperationRow{fit_corners, "fit-corners", "fit the corners", Driver::corner, Part::corners, false},
    OperationRow{fit_clasps, "fit-clasps", "fit the clasps", Driver::clasp, Part::clasps, false},
    OperationRow{fit_furniture, "fit-furniture", "fit the other furniture", Driver::piece, Part::furniture, false},
    OperationRow{set_rivets, "set-rivets", "set the rivets", Driver::rivet, Part::whole_book, false},
    OperationRow{make_strap, "make-strap", "make the strap and fix it", Driver::strap, Part::strap, true},
    OperationRow{fit_buckle, "fit-buckle", "fit the buckle", Driver::strap, Part::strap, false},
    OperationRow{make_ties, "make-ties", "make the ties and fix them", Driver::piece, Part::tie, false},
    OperationRow{set_stone, "set-stone", "set the stone", Driver::stone, Part::stone, true},
    OperationRow{final_press, "final-press", "press the finished book", Driver::book, Part::whole_book, false},
    OperationRow{cut_box_boards, "cut-box-boards", "cut the boards of the box", Driver::piece, Part::box, true},
    OperationRow{build_box, "build-box", "build the box", Driver::piece, Part::box, true},
    OperationRow{cover_box, "cover-box", "cover the box", Driver::piece, Part::box, true},
    OperationRow{line_box, "line-box", "line the box", Driver::piece, Part::box, true},
    OperationRow{answer_enquiry, "answer-enquiry", "answer the enquiry and quote", Driver::enquiry, Part::office, false},
    OperationRow{draw_proof, "draw-proof", "draw a proof and have it approved", Driver::approval, Part::office, false},
    OperationRow{photograph, "photograph", "photograph the book", Driver::book, Part::office, false},
    OperationRow{order_materials, "order-materials", "order the materials", Driver::purchase, Part::office, false},
    OperationRow{receive_custody, "receive-custody", "take in what the customer brings, and give it back", Driver::piece, Part::office, false},
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

constexpr std::array<std::string_view, 33> driver_names{
    "book",           "sheet",          "section",  "support",       "hole",
    "needleful",      "band",           "panel",    "board",         "wrap of an endband",
    "register",       "corner",         "rivet",    "clasp",         "strap",
    "stone",          "letter",         "piece",    "metre of line", "metre of edge",
    "dm2 of leather", "dm2 of surface", "mixture",  "bench session", "enquiry",
    "approval",       "parcel",         "purchase", "payment",       "edge",
    "endband",        "impression",     "leaf"};
static_assert(driver_names.size() == static_cast<std::size_t>(Driver::leaf) + 1);

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
