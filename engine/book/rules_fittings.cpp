// Corners, straps and rivets; other furniture is as it is listed.
#include "engine/book/rules_table.h"

#include <algorithm>
#include <cmath>

namespace endband {
namespace {

using enum FigureId;

constexpr std::array table{
    rule(
        corners, From<boards>{}, "n_c = 2 x n_b", [](double n) { return 2 * n; },
        "common practice, no source: the two at the fore-edge of each board"),
    when({Way::laced, Way::cased, Way::sewn_on},
         rule(
             strap_length,
             From<strap_wraps_round, strap_fixing, board_thickness, block_thickness, strap_reach, strap_tail,
                  board_width, joint, arc, strap_overlap>{},
             "L_p = p_f + t + T + t + p_r + p_t; round the book 2 x (W_b + J) + A + T + 2 x t + p_o",
             [](double round_the_book, double fixing, double t, double block, double reach, double tail,
                double w, double j, double a, double overlap) {
               return round_the_book != 0 ? 2 * (w + j) + a + block + 2 * t + overlap
                                          : fixing + t + block + t + reach + tail;
             },
             geometry)),
    when({Way::no_boards}, rule(
                               strap_length,
                               From<strap_wraps_round, strap_fixing, block_thickness, strap_reach, strap_tail,
                                    leaf_width, arc, strap_overlap>{},
                               "L_p = p_f + T + p_r + p_t; round the book 2 x W + A + T + p_o",
                               [](double round_the_book, double fixing, double block, double reach,
                                  double tail, double w, double a, double overlap) {
                                 return round_the_book != 0 ? 2 * w + a + block + overlap
                                                            : fixing + block + reach + tail;
                               },
                               "geometry: a wrapper is as thin as its leather")),
    rule(
        strap_rivets, From<strap_fixing, strap_rivet_end, strap_rivet_spacing>{},
        "v_p = (p_f - 2 x v_e) / v_s + 1, the quotient rounded down; at least 1",
        [](double fixing, double end, double spacing) {
          return std::max(1.0, std::floor((fixing - 2 * end) / spacing) + 1);
        },
        geometry),
    rule(
        rivets,
        From<corners, rivets_a_corner, clasps, rivets_a_clasp, straps, strap_rivets, furniture_rivets>{},
        "V = n_c x v_c + n_k x v_k + n_p x v_p + V_f",
        [](double n_corners, double a_corner, double n_clasps, double a_clasp, double n_straps,
           double a_strap,
           double others) { return n_corners * a_corner + n_clasps * a_clasp + n_straps * a_strap + others; },
        by_definition),
};

}  // namespace

std::span<Rule const> rules_of_fittings() { return table; }

}  // namespace endband
