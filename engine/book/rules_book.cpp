// The whole book.
#include "engine/book/rules_table.h"

#include <algorithm>

namespace endband {
namespace {

using enum FigureId;

constexpr Ways with_boards{Way::laced, Way::cased, Way::sewn_on};

constexpr std::string_view over_the_fore_edge = "geometry: a flap lies on the wrapper once more";

constexpr auto over_the_boards = [](double block, double t, double covering) {
  return block + 2 * t + 4 * covering;
};

// clang-format off
constexpr std::array table{
    when({Way::full, Way::each_board, Way::wrapper}, rule(
        book_mass, From<block_mass, endpapers_mass, boards_mass, cover_mass, fittings_mass, sundries_mass>{},
        "m = m_T + m_v + m_b + m_c + m_f + m_s",
        [](double block, double endpapers, double of_boards, double of_cover, double fittings,
           double sundries) { return block + endpapers + of_boards + of_cover + fittings + sundries; },
        by_definition)),
    when({Way::three_quarter, Way::half, Way::quarter}, rule(
        book_mass,
        From<block_mass, endpapers_mass, boards_mass, cover_mass, sides_mass, corners_mass, fittings_mass,
             sundries_mass>{},
        "m = m_T + m_v + m_b + m_c + m_e + m_q + m_f + m_s",
        [](double block, double endpapers, double of_boards, double of_spine, double of_sides,
           double of_corners, double fittings, double sundries) {
          return block + endpapers + of_boards + of_spine + of_sides + of_corners + fittings + sundries;
        },
        by_definition)),
    // The covering turns over head, tail and fore-edge and lies on both sides of a board at its edges.
    when(with_boards, rule(
        closed_height, From<board_height, covering_thickness>{}, "X_h = H_b + 2 x t_c",
        [](double h, double covering) { return h + 2 * covering; }, geometry)),
    when({Way::no_boards}, rule(
        closed_height, From<leaf_height, square>{}, "X_h = H + 2 x sq",
        [](double h, double sq) { return h + 2 * sq; }, geometry)),
    when(with_boards, rule(
        closed_width, From<board_width, setback, back_depth, leather_pared, covering_thickness>{},
        "X_w = W_b + sb + r_b + t_l + t_c",
        [](double w, double back, double depth, double at_back, double at_edge) {
          return w + back + depth + at_back + at_edge;
        },
        geometry)),
    when({Way::no_boards}, rule(
        closed_width, From<leaf_width, square, leather_pared, cover_flap>{},
        "X_w = W + sq + t_l + the smaller of t_l and fl",
        [](double w, double sq, double covering, double flap) {
          return w + sq + covering + std::min(covering, flap);
        },
        over_the_fore_edge)),
    when({Way::laced, Way::cased, Way::sewn_on, Way::rounded, Way::backed}, rule(
        closed_thickness, From<block_thickness, board_thickness, covering_thickness>{},
        "X_t = T + 2 x t + 4 x t_c", over_the_boards, geometry)),
    // What the thread swells is not rounded away: a flat book is thickest at its back.
    when({Way::laced, Way::cased, Way::sewn_on, Way::flat}, rule(
        closed_thickness, From<chord, board_thickness, covering_thickness>{}, "X_t = C + 2 x t + 4 x t_c",
        over_the_boards, geometry)),
    when({Way::no_boards}, rule(
        closed_thickness, From<chord, leather_pared, cover_flap>{}, "X_t = C + 2 x t_l + the smaller of t_l and fl",
        [](double c, double covering, double flap) { return c + 2 * covering + std::min(covering, flap); },
        over_the_fore_edge)),
    rule(
        tie_band, From<tie_turns, closed_width, closed_thickness, tie_tail>{},
        "L_y = w_y x 2 x (X_w + X_t) + z_y",
        [](double turns, double w, double t, double tail) { return turns * 2 * (w + t) + tail; },
        "geometry: round the closed book, and what is left to knot"),
};
// clang-format on

}  // namespace

std::span<Rule const> rules_of_whole_book() { return table; }

}  // namespace endband
