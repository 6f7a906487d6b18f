// The names of the book's figures: one row for each, in the order of FigureId.
#include "engine/book/figure.h"

#include <stdexcept>
#include <string>

namespace endband {
namespace {

using enum FigureId;

// clang-format off
constexpr std::array figure_rows{
    FigureRow{leaf_height, "leaf-height", "leaf, head to tail", "H", Unit::mm, Part::text_block},
    FigureRow{leaf_width, "leaf-width", "leaf, spine to fore-edge", "W", Unit::mm, Part::text_block},
    FigureRow{pages_wanted, "pages-wanted", "pages wanted", "P", Unit::count, Part::text_block},
    FigureRow{folds, "folds", "folds of a sheet", "f", Unit::count, Part::text_block},
    FigureRow{sheets, "sheets", "sheets folded", "N", Unit::count, Part::text_block},
    FigureRow{sheets_per_section, "sheets-per-section", "sheets in a section", "s", Unit::count, Part::text_block},
    FigureRow{sections, "sections", "sections", "n", Unit::count, Part::text_block},
    FigureRow{last_section_sheets, "last-section-sheets", "sheets in the last section", "s_last", Unit::count, Part::text_block},
    FigureRow{leaves, "leaves", "leaves", "l", Unit::count, Part::text_block},
    FigureRow{pages, "pages", "pages", "p", Unit::count, Part::text_block},
    FigureRow{leaf_caliper, "leaf-caliper", "thickness of one leaf", "q", Unit::mm, Part::text_block},
    FigureRow{leaf_grammage, "leaf-grammage", "grammage of the paper", "g", Unit::gram_m2, Part::text_block},
    FigureRow{compression, "compression", "thickness kept after pressing", "k", Unit::share, Part::text_block},
    FigureRow{creep, "creep", "creep of a section at the fore-edge", "e", Unit::mm, Part::text_block},
    FigureRow{head_tail_trim, "head-tail-trim", "trimmed off the head, and off the tail", "tr_h", Unit::mm, Part::text_block},
    FigureRow{fore_edge_trim, "fore-edge-trim", "trimmed off the fore-edge", "tr_f", Unit::mm, Part::text_block},
    FigureRow{sheet_height, "sheet-height", "sheet before folding, head to tail", "F_h", Unit::mm, Part::text_block},
    FigureRow{sheet_width, "sheet-width", "sheet before folding, across", "F_w", Unit::mm, Part::text_block},
    FigureRow{grain_head_to_tail, "grain-head-to-tail", "grain runs head to tail", "", Unit::yes_no, Part::text_block},
    FigureRow{block_given, "block-given", "text block given by the customer", "", Unit::yes_no, Part::text_block},
    FigureRow{block_density, "block-density", "density of the text block", "rho_T", Unit::kg_m3, Part::text_block},
    FigureRow{block_thickness, "block-thickness", "thickness of the text block", "T", Unit::mm, Part::text_block},
    FigureRow{block_mass, "block-mass", "mass of the text block", "m_T", Unit::gram, Part::text_block},
    FigureRow{endpapers_each_end, "endpapers-each-end", "folded endpapers at each end", "v", Unit::count, Part::endpapers},
    FigureRow{free_endpaper_leaves, "free-endpaper-leaves", "free endpaper leaves", "l_v", Unit::count, Part::endpapers},
    FigureRow{endpaper_caliper, "endpaper-caliper", "thickness of an endpaper", "q_v", Unit::mm, Part::endpapers},
    FigureRow{endpaper_grammage, "endpaper-grammage", "grammage of the endpapers", "g_v", Unit::gram_m2, Part::endpapers},
    FigureRow{endpaper_thickness, "endpaper-thickness", "thickness of the free endpapers", "T_v", Unit::mm, Part::endpapers},
    FigureRow{tip_width, "tip-width", "strip of paste where an endpaper is tipped on", "b_tip", Unit::mm, Part::endpapers},
    FigureRow{thread_tex, "thread-tex", "thread, mass of a length", "tex", Unit::tex, Part::sewing},
    FigureRow{thread_density, "thread-density", "thread, apparent density", "rho_d", Unit::kg_m3, Part::sewing},
    FigureRow{thread_thickness, "thread-thickness", "thickness of the thread", "d", Unit::mm, Part::sewing},
    FigureRow{swell_kept, "swell-kept", "swell kept after pressing", "c", Unit::share, Part::sewing},
    FigureRow{swell, "swell", "swell", "S", Unit::mm, Part::sewing},
    FigureRow{kettle_setback, "kettle-setback", "kettle stitch from head or tail", "k_s", Unit::mm, Part::sewing},
    FigureRow{supports, "supports", "supports", "u", Unit::count, Part::sewing},
    FigureRow{support_thickness, "support-thickness", "thickness of a support", "d_u", Unit::mm, Part::sewing},
    FigureRow{support_turns, "support-turns", "turns of thread round a support", "w", Unit::count, Part::sewing},
    FigureRow{stitch_allowance, "stitch-allowance", "thread between one section and the next", "a", Unit::mm, Part::sewing},
    FigureRow{thread_length, "thread-length", "thread in the book", "L", Unit::mm, Part::sewing},
    FigureRow{needle_length, "needle-length", "one needleful", "L_n", Unit::mm, Part::sewing},
    FigureRow{needle_waste, "needle-waste", "wasted of each needleful", "L_w", Unit::mm, Part::sewing},
    FigureRow{needlefuls, "needlefuls", "needlefuls", "j", Unit::count, Part::sewing},
    FigureRow{thread_taken, "thread-taken", "thread taken", "L_t", Unit::mm, Part::sewing},
    FigureRow{slip_length, "slip-length", "slip, each end of a support", "z", Unit::mm, Part::sewing},
    FigureRow{frame_allowance, "frame-allowance", "this book's share of what the frame takes of a support", "z_f", Unit::mm, Part::sewing},
    FigureRow{cord_each, "cord-each", "one support with its slips", "y", Unit::mm, Part::sewing},
    FigureRow{cord_length, "cord-length", "supports taken in all", "Y", Unit::mm, Part::sewing},
    FigureRow{holes_a_support, "holes-a-support", "holes in a section at each support", "o", Unit::count, Part::sewing},
    FigureRow{holes, "holes", "holes pierced", "O", Unit::count, Part::sewing},
    FigureRow{wax_pickup, "wax-pickup", "wax that the thread takes up, of its own mass", "", Unit::share, Part::sewing},
    FigureRow{spine_width, "spine-width", "spine before rounding", "B", Unit::mm, Part::spine},
    FigureRow{round_angle, "round-angle", "angle of the round", "theta", Unit::degree, Part::spine},
    FigureRow{shoulder, "shoulder", "height of a shoulder", "h", Unit::mm, Part::spine},
    FigureRow{chord, "chord", "width across the shoulders", "C", Unit::mm, Part::spine},
    FigureRow{spine_radius, "spine-radius", "radius of the spine", "R", Unit::mm, Part::spine},
    FigureRow{arc, "arc", "round of the spine, shoulder to shoulder", "A", Unit::mm, Part::spine},
    FigureRow{rise, "rise", "rise of the round", "r", Unit::mm, Part::spine},
    FigureRow{swell_wanted, "swell-wanted", "swell that the round wants", "S_w", Unit::mm, Part::spine},
    FigureRow{swell_least, "swell-least", "least swell that will back", "S_0", Unit::mm, Part::spine},
    FigureRow{swell_low, "swell-low", "swell for half the round", "S_1", Unit::mm, Part::spine},
    FigureRow{swell_most, "swell-most", "most swell that is sound", "S_2", Unit::mm, Part::spine},
    FigureRow{angle_it_takes, "angle-it-takes", "round that the swell gives", "theta_S", Unit::degree, Part::spine},
    FigureRow{thread_least, "thread-least", "thinnest thread that will back", "d_0", Unit::mm, Part::spine},
    FigureRow{thread_most, "thread-most", "thickest thread that is sound", "d_2", Unit::mm, Part::spine},
    FigureRow{bands, "bands", "raised bands", "u_b", Unit::count, Part::spine},
    FigureRow{panels, "panels", "panels on the spine", "i", Unit::count, Part::spine},
    FigureRow{band_width, "band-width", "width of a band under the leather", "b", Unit::mm, Part::spine},
    FigureRow{panel_height, "panel-height", "height of a panel", "H_i", Unit::mm, Part::spine},
    FigureRow{panel_clearance, "panel-clearance", "lining cut shorter than its panel by", "b_i", Unit::mm, Part::spine},
    FigureRow{lining_layers, "lining-layers", "layers of lining on a panel", "", Unit::count, Part::spine},
    FigureRow{paper_lining_layers, "paper-lining-layers", "layers of paper on a panel", "", Unit::count, Part::spine},
    FigureRow{board_thickness, "board-thickness", "thickness of a board", "t", Unit::mm, Part::boards},
    FigureRow{board_density, "board-density", "density of the boards", "rho_b", Unit::kg_m3, Part::boards},
    FigureRow{square, "square", "square", "sq", Unit::mm, Part::boards},
    FigureRow{setback, "setback", "setback of a board from the shoulder", "sb", Unit::mm, Part::boards},
    FigureRow{boards, "boards", "boards", "n_b", Unit::count, Part::boards},
    FigureRow{board_height, "board-height", "height of a board", "H_b", Unit::mm, Part::boards},
    FigureRow{board_width, "board-width", "width of a board", "W_b", Unit::mm, Part::boards},
    FigureRow{holes_a_slip, "holes-a-slip", "lacing holes for each slip", "o_z", Unit::count, Part::boards},
    FigureRow{lacing_holes, "lacing-holes", "lacing holes", "O_z", Unit::count, Part::boards},
    FigureRow{leather_bought, "leather-bought", "thickness of the leather as bought", "t_0", Unit::mm, Part::cover},
    FigureRow{leather_pared, "leather-pared", "thickness of the leather as used", "t_l", Unit::mm, Part::cover},
    FigureRow{leather_density, "leather-density", "density of the leather", "rho_l", Unit::kg_m3, Part::cover},
    FigureRow{turn_in, "turn-in", "turn-in", "ti", Unit::mm, Part::cover},
    FigureRow{joint, "joint", "joint", "J", Unit::mm, Part::cover},
    FigureRow{leather_stretch, "leather-stretch", "stretch of the leather", "st", Unit::share, Part::cover},
    FigureRow{band_path, "band-path", "path that the bands add to the spine", "G_b", Unit::mm, Part::cover},
    FigureRow{band_growth, "band-growth", "what the bands add to the leather's height", "G", Unit::mm, Part::cover},
    FigureRow{underlay_growth, "underlay-growth", "what underlays add to the leather's height", "G_u", Unit::mm, Part::cover},
    FigureRow{underlay_growth_across, "underlay-growth-across", "what underlays add to the leather's width", "G_w", Unit::mm, Part::cover},
    FigureRow{cover_height, "cover-height", "height of the cover leather", "H_c", Unit::mm, Part::cover},
    FigureRow{cover_width, "cover-width", "width of the cover leather", "W_c", Unit::mm, Part::cover},
    FigureRow{pare_length, "pare-length", "edge of the leather to pare", "E", Unit::mm, Part::cover},
    FigureRow{cover_area, "cover-area", "area of the cover leather", "A_c", Unit::mm2, Part::cover},
    FigureRow{endbands, "endbands", "endbands", "n_e", Unit::count, Part::endbands},
    FigureRow{endband_colours, "endband-colours", "colours of silk", "n_s", Unit::count, Part::endbands},
    FigureRow{core_thickness, "core-thickness", "thickness of an endband's core", "d_c", Unit::mm, Part::endbands},
    FigureRow{core_trim, "core-trim", "core left to trim at each end", "c_t", Unit::mm, Part::endbands},
    FigureRow{core_length, "core-length", "core of an endband, with what is trimmed", "L_c", Unit::mm, Part::endbands},
    FigureRow{silk_tex, "silk-tex", "silk, mass of a length", "tex_s", Unit::tex, Part::endbands},
    FigureRow{silk_density, "silk-density", "silk, apparent density", "rho_s", Unit::kg_m3, Part::endbands},
    FigureRow{silk_thickness, "silk-thickness", "thickness of the silk", "d_s", Unit::mm, Part::endbands},
    FigureRow{silk_packing, "silk-packing", "width that a wrap takes, in thicknesses of silk", "pk", Unit::share, Part::endbands},
    FigureRow{wraps, "wraps", "wraps of an endband", "w_e", Unit::count, Part::endbands},
    FigureRow{tie_downs, "tie-downs", "tie-downs of an endband", "w_t", Unit::count, Part::endbands},
    FigureRow{tie_length, "tie-length", "silk of a tie-down, there and back", "a_t", Unit::mm, Part::endbands},
    FigureRow{silk_length, "silk-length", "silk in all endbands", "L_s", Unit::mm, Part::endbands},
    FigureRow{registers, "registers", "registers", "n_r", Unit::count, Part::registers},
    FigureRow{register_anchor, "register-anchor", "register glued to the spine", "a_r", Unit::mm, Part::registers},
    FigureRow{register_tail, "register-tail", "register that stands out", "z_r", Unit::mm, Part::registers},
    FigureRow{register_diagonal, "register-diagonal", "register measured over the diagonal", "", Unit::yes_no, Part::registers},
    FigureRow{register_length, "register-length", "length of a register", "L_r", Unit::mm, Part::registers},
    FigureRow{corners, "corners", "corners", "n_c", Unit::count, Part::corners},
    FigureRow{corner_leg, "corner-leg", "leg of a corner", "leg", Unit::mm, Part::corners},
    FigureRow{rivets_a_corner, "rivets-a-corner", "rivets in a corner", "v_c", Unit::count, Part::corners},
    FigureRow{clasps, "clasps", "clasps", "n_k", Unit::count, Part::clasps},
    FigureRow{rivets_a_clasp, "rivets-a-clasp", "rivets in a clasp", "v_k", Unit::count, Part::clasps},
    FigureRow{straps, "straps", "straps", "n_p", Unit::count, Part::strap},
    FigureRow{strap_width, "strap-width", "width of a strap", "b_p", Unit::mm, Part::strap},
    FigureRow{strap_fixing, "strap-fixing", "strap fixed to the board", "p_f", Unit::mm, Part::strap},
    FigureRow{strap_reach, "strap-reach", "strap over the other board", "p_r", Unit::mm, Part::strap},
    FigureRow{strap_tail, "strap-tail", "strap beyond the buckle", "p_t", Unit::mm, Part::strap},
    FigureRow{strap_overlap, "strap-overlap", "overlap of a strap that goes round the book", "p_o", Unit::mm, Part::strap},
    FigureRow{strap_wraps_round, "strap-wraps-round", "strap goes round the whole book", "", Unit::yes_no, Part::strap},
    FigureRow{strap_length, "strap-length", "length of a strap", "L_p", Unit::mm, Part::strap},
    FigureRow{strap_rivet_spacing, "strap-rivet-spacing", "strap rivets apart", "v_s", Unit::mm, Part::strap},
    FigureRow{strap_rivet_end, "strap-rivet-end", "first and last strap rivet from the end", "v_e", Unit::mm, Part::strap},
    FigureRow{strap_rivets, "strap-rivets", "rivets in a strap", "v_p", Unit::count, Part::strap},
    FigureRow{rivets, "rivets", "rivets", "V", Unit::count, Part::whole_book},
    FigureRow{stones, "stones", "stones", "n_g", Unit::count, Part::stone},
    FigureRow{stone_height, "stone-height", "height of a stone", "H_g", Unit::mm, Part::stone},
    FigureRow{stone_width, "stone-width", "width of a stone", "W_g", Unit::mm, Part::stone},
    FigureRow{leaf_lap, "leaf-lap", "lap of a strip of metal leaf", "lap", Unit::mm, Part::lines},
    FigureRow{letters, "letters", "letters", "n_l", Unit::count, Part::lettering},
    FigureRow{letter_height, "letter-height", "height of a letter", "H_l", Unit::mm, Part::lettering},
    FigureRow{letter_pitch, "letter-pitch", "width that a letter takes", "W_l", Unit::mm, Part::lettering},
    FigureRow{letter_layers, "letter-layers", "layers of leaf under a letter; none: blind", "", Unit::count, Part::lettering},
    FigureRow{boards_mass, "boards-mass", "mass of the boards", "m_b", Unit::gram, Part::whole_book},
    FigureRow{cover_mass, "cover-mass", "mass of the leather", "m_c", Unit::gram, Part::whole_book},
    FigureRow{endpapers_mass, "endpapers-mass", "mass of the endpapers", "m_v", Unit::gram, Part::whole_book},
    FigureRow{fittings_mass, "fittings-mass", "mass of corners, clasps, rivets, straps and stones", "m_f", Unit::gram, Part::whole_book},
    FigureRow{sundries_mass, "sundries-mass", "mass of thread, supports, linings, endbands and adhesives", "m_s", Unit::gram, Part::whole_book},
    FigureRow{book_mass, "book-mass", "mass of the book", "m", Unit::gram, Part::whole_book},
    FigureRow{padding_density, "padding-density", "density of the padding", "rho_p", Unit::kg_m3, Part::packing},
    FigureRow{closed_height, "closed-height", "closed book, height", "X_h", Unit::mm, Part::whole_book},
    FigureRow{closed_width, "closed-width", "closed book, width", "X_w", Unit::mm, Part::whole_book},
    FigureRow{closed_thickness, "closed-thickness", "closed book, thickness", "X_t", Unit::mm, Part::whole_book},
};
// clang-format on

constexpr bool rows_follow_their_ids() {
  for (std::size_t i = 0; i < figure_rows.size(); ++i)
    if (Figures::index(figure_rows[i].id) != i) return false;
  return figure_rows.size() == figure_count;
}
static_assert(rows_follow_their_ids());

constexpr std::array<std::string_view, part_count> part_names{
    "text block", "sewing",     "endpapers", "spine",     "boards",  "endbands", "registers",
    "underlays",  "cover",      "lines",     "lettering", "corners", "clasps",   "strap",
    "stone",      "whole book", "packing",   "office",    "extras"};

constexpr std::array<std::string_view, 8> origin_names{"said",      "model",   "workshop", "practice",
                                                       "catalogue", "learned", "computed", "none"};

}  // namespace

std::string_view part_name(Part part) { return part_names.at(static_cast<std::size_t>(part)); }

std::string_view origin_name(Origin origin) { return origin_names.at(static_cast<std::size_t>(origin)); }

FigureRow const& figure_row(FigureId id) { return figure_rows.at(Figures::index(id)); }

double Figures::value(FigureId id) const {
  if (!has(id)) throw std::logic_error("figure not known: " + std::string(figure_row(id).name));
  return at_[index(id)].value;
}

}  // namespace endband
