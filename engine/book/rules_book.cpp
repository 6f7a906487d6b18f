// The whole book.
#include "engine/book/rules_table.h"

namespace endband {
namespace {

using enum FigureId;

constexpr std::array table{
    rule(
        book_mass, From<block_mass, endpapers_mass, boards_mass, cover_mass, fittings_mass, sundries_mass>{},
        "m = m_T + m_v + m_b + m_c + m_f + m_s",
        [](double block, double endpapers, double of_boards, double of_cover, double fittings,
           double sundries) { return block + endpapers + of_boards + of_cover + fittings + sundries; },
        by_definition),
    // The leather turns over head, tail and fore-edge and lies on both sides of a board at its edges.
    rule(
        closed_height, From<board_height, leather_pared>{}, "X_h = H_b + 2 x t_l",
        [](double h, double leather) { return h + 2 * leather; }, geometry),
    rule(
        closed_width, From<board_width, setback, rise, support_thickness, leather_pared>{},
        "X_w = W_b + sb + r + d_u + 2 x t_l",
        [](double w, double back, double r, double band, double leather) {
          return w + back + r + band + 2 * leather;
        },
        geometry),
    rule(
        closed_thickness, From<block_thickness, board_thickness, leather_pared>{},
        "X_t = T + 2 x t + 4 x t_l",
        [](double block, double t, double leather) { return block + 2 * t + 4 * leather; }, geometry),
};

}  // namespace

std::span<Rule const> rules_of_whole_book() { return table; }

}  // namespace endband
