// The names and words of items and warnings.
#include "engine/book/structure.h"

#include <array>

namespace endband {
namespace {

struct ItemRow {
  Item item;
  std::string_view name, words;
};

// clang-format off
constexpr std::array item_rows{
    ItemRow{Item::text_sheets, "text-sheets", "paper of the text block"},
    ItemRow{Item::guard_strips, "guard-strips", "guards"},
    ItemRow{Item::endpaper_sheets, "endpaper-sheets", "endpapers"},
    ItemRow{Item::joint_strips, "joint-strips", "leather of the joints"},
    ItemRow{Item::tipping_paste, "tipping-paste", "paste to tip on the endpapers"},
    ItemRow{Item::sewing_thread, "sewing-thread", "sewing thread"},
    ItemRow{Item::thread_wax, "thread-wax", "wax for the thread"},
    ItemRow{Item::cords, "cords", "cords to sew on"},
    ItemRow{Item::tapes, "tapes", "tapes to sew on"},
    ItemRow{Item::spine_glue, "spine-glue", "glue on the spine"},
    ItemRow{Item::panel_linings, "panel-linings", "linings of the panels"},
    ItemRow{Item::panel_papers, "panel-papers", "paper on the panels"},
    ItemRow{Item::spine_linings, "spine-linings", "linings of the spine"},
    ItemRow{Item::mull, "mull", "mull of the spine"},
    ItemRow{Item::spine_papers, "spine-papers", "paper on the spine"},
    ItemRow{Item::hollow, "hollow", "paper of the hollow"},
    ItemRow{Item::stiffener, "stiffener", "spine stiffener"},
    ItemRow{Item::false_bands, "false-bands", "false bands"},
    ItemRow{Item::lining_paste, "lining-paste", "adhesive of the linings"},
    ItemRow{Item::boards, "boards", "boards"},
    ItemRow{Item::board_linings, "board-linings", "linings of the boards"},
    ItemRow{Item::lacing_glue, "lacing-glue", "adhesive of the laced slips"},
    ItemRow{Item::cover_leather, "cover-leather", "covering"},
    ItemRow{Item::cover_sides, "cover-sides", "covering of the sides"},
    ItemRow{Item::cover_corners, "cover-corners", "covering of the corners, two to a piece"},
    ItemRow{Item::cover_paste, "cover-paste", "adhesive of the covering"},
    ItemRow{Item::side_paste, "side-paste", "adhesive of the sides"},
    ItemRow{Item::leather_dye, "leather-dye", "dye of the leather"},
    ItemRow{Item::leather_dressing, "leather-dressing", "dressing of the leather"},
    ItemRow{Item::endband_cores, "endband-cores", "cores of the endbands"},
    ItemRow{Item::endband_silk, "endband-silk", "silk of the endbands"},
    ItemRow{Item::made_endbands, "made-endbands", "made endbands"},
    ItemRow{Item::endband_glue, "endband-glue", "adhesive of the endbands"},
    ItemRow{Item::registers, "registers", "ribbon of the registers"},
    ItemRow{Item::register_glue, "register-glue", "adhesive of the registers"},
    ItemRow{Item::underlay_cards, "underlay-cards", "card of the underlays"},
    ItemRow{Item::underlay_glue, "underlay-glue", "adhesive of the underlays"},
    ItemRow{Item::onlays, "onlays", "onlays"},
    ItemRow{Item::inset_panels, "inset-panels", "panels let in"},
    ItemRow{Item::inset_glue, "inset-glue", "adhesive of the insets"},
    ItemRow{Item::leaf_lines, "leaf-lines", "metal leaf of the lines"},
    ItemRow{Item::leaf_letters, "leaf-letters", "metal leaf of the title"},
    ItemRow{Item::leaf_edges, "leaf-edges", "metal leaf of the edges"},
    ItemRow{Item::leaf_size, "leaf-size", "size under the leaf"},
    ItemRow{Item::leaf_varnish, "leaf-varnish", "varnish over the leaf"},
    ItemRow{Item::edge_colour, "edge-colour", "colour of the edges"},
    ItemRow{Item::corners, "corners", "corners"},
    ItemRow{Item::corner_glue, "corner-glue", "adhesive of the corners"},
    ItemRow{Item::clasps, "clasps", "clasps"},
    ItemRow{Item::rivets, "rivets", "rivets"},
    ItemRow{Item::furniture, "furniture", "furniture"},
    ItemRow{Item::strap, "strap", "leather of the strap"},
    ItemRow{Item::buckle, "buckle", "buckle"},
    ItemRow{Item::stone, "stone", "stone"},
    ItemRow{Item::stone_glue, "stone-glue", "adhesive of the stone"},
    ItemRow{Item::tie, "tie", "ties"},
    ItemRow{Item::pastedown_paste, "pastedown-paste", "paste of the pastedowns"},
    ItemRow{Item::slipcase_sides, "slipcase-sides", "sides of the slipcase"},
    ItemRow{Item::slipcase_ends, "slipcase-ends", "top and bottom of the slipcase"},
    ItemRow{Item::slipcase_back, "slipcase-back", "back of the slipcase"},
    ItemRow{Item::inner_tray_base, "inner-tray-base", "base of the inner tray"},
    ItemRow{Item::inner_tray_walls, "inner-tray-walls", "walls of the inner tray"},
    ItemRow{Item::outer_tray_base, "outer-tray-base", "base of the outer tray"},
    ItemRow{Item::outer_tray_walls, "outer-tray-walls", "walls of the outer tray"},
    ItemRow{Item::box_case_boards, "box-case-boards", "boards of the box's case"},
    ItemRow{Item::box_case_spine, "box-case-spine", "spine of the box's case"},
    ItemRow{Item::slipcase_strip, "slipcase-strip", "covering of the slipcase, top, back and bottom"},
    ItemRow{Item::slipcase_side_cloths, "slipcase-side-cloths", "covering of the slipcase's sides"},
    ItemRow{Item::inner_tray_cloth, "inner-tray-cloth", "covering of the inner tray's walls"},
    ItemRow{Item::outer_tray_cloth, "outer-tray-cloth", "covering of the outer tray's walls"},
    ItemRow{Item::box_case_cloth, "box-case-cloth", "covering of the box's case"},
    ItemRow{Item::slipcase_strip_lining, "slipcase-strip-lining", "lining of the slipcase, top, back and bottom"},
    ItemRow{Item::slipcase_side_linings, "slipcase-side-linings", "linings of the slipcase's sides"},
    ItemRow{Item::inner_tray_lining, "inner-tray-lining", "lining of the inner tray"},
    ItemRow{Item::outer_tray_lining, "outer-tray-lining", "lining of the outer tray"},
    ItemRow{Item::box_case_lining, "box-case-lining", "lining of the box's case"},
    ItemRow{Item::box_joint_glue, "box-joint-glue", "adhesive of the box, to build it"},
    ItemRow{Item::box_cloth_glue, "box-cloth-glue", "adhesive of the box, under its covering"},
    ItemRow{Item::box_lining_glue, "box-lining-glue", "adhesive of the box, under its linings"},
    ItemRow{Item::carton, "carton", "carton"},
    ItemRow{Item::padding, "padding", "padding"},
    ItemRow{Item::extra, "extra", "extra material"},
};

struct WarningRow {
  WarningCode code;
  std::string_view name;
};
constexpr std::array warning_rows{
    WarningRow{WarningCode::grain_across, "grain-across"},
    WarningRow{WarningCode::creep_over_trim, "creep-over-trim"},
    WarningRow{WarningCode::short_last_section, "short-last-section"},
    WarningRow{WarningCode::swell_too_great, "swell-too-great"},
    WarningRow{WarningCode::swell_too_small, "swell-too-small"},
    WarningRow{WarningCode::will_not_back, "will-not-back"},
    WarningRow{WarningCode::thin_leather, "thin-leather"},
    WarningRow{WarningCode::register_short, "register-short"},
    WarningRow{WarningCode::not_for_brass, "not-for-brass"},
    WarningRow{WarningCode::leaf_tarnishes, "leaf-tarnishes"},
    WarningRow{WarningCode::restricted_material, "restricted-material"},
    WarningRow{WarningCode::square_unusual, "square-unusual"},
    WarningRow{WarningCode::turn_in_unusual, "turn-in-unusual"},
    WarningRow{WarningCode::bands_unusual, "bands-unusual"},
    WarningRow{WarningCode::section_unusual, "section-unusual"},
    WarningRow{WarningCode::customer_piece_cannot_be_replaced, "customer-piece-cannot-be-replaced"},
    WarningRow{WarningCode::carton_too_small, "carton-too-small"},
    WarningRow{WarningCode::letter_missing, "letter-missing"},
    WarningRow{WarningCode::endband_too_high, "endband-too-high"},
};
// clang-format on

constexpr bool rows_follow_their_enums() {
  for (std::size_t i = 0; i < item_rows.size(); ++i)
    if (static_cast<std::size_t>(item_rows[i].item) != i) return false;
  for (std::size_t i = 0; i < warning_rows.size(); ++i)
    if (static_cast<std::size_t>(warning_rows[i].code) != i) return false;
  return item_rows.size() == item_count && warning_rows.size() == warning_count;
}
static_assert(rows_follow_their_enums());

constexpr std::array<std::string_view, 3> lie_names{"any", "backbone-along-height", "backbone-along-width"};
constexpr std::array<std::string_view, 3> grade_names{"belly", "flank", "back"};
constexpr std::array<std::string_view, 2> outline_names{"rectangle", "two-corners"};

}  // namespace

std::string_view item_name(Item item) { return item_rows.at(static_cast<std::size_t>(item)).name; }

std::string_view item_words(Item item) { return item_rows.at(static_cast<std::size_t>(item)).words; }

std::string_view lie_name(Lie lie) { return lie_names.at(static_cast<std::size_t>(lie)); }

std::string_view grade_name(Grade grade) { return grade_names.at(static_cast<std::size_t>(grade)); }

std::string_view outline_name(Outline outline) { return outline_names.at(static_cast<std::size_t>(outline)); }

std::string_view warning_name(WarningCode code) {
  return warning_rows.at(static_cast<std::size_t>(code)).name;
}

}  // namespace endband
