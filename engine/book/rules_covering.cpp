// The covering in parts: the spine's, the sides', and that of the corners.
#include "engine/book/rules_table.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace endband {
namespace {

using enum FigureId;

constexpr Ways in_parts{Way::three_quarter, Way::half, Way::quarter};
constexpr Ways with_corners{Way::three_quarter, Way::half};
constexpr Ways quarter_only{Way::quarter};

// On to both boards, over both joints, and what lies between them.
constexpr auto over_the_back = [](double between, double j, double reach) {
  return between + 2 * j + 2 * reach;
};

// clang-format off
constexpr std::array table{
    when(quarter_only, rule(
        spine_reach_share, From<>{}, "s_q = 1 / 5", [] { return 0.2; }, common_practice)),
    when({Way::half}, rule(
        spine_reach_share, From<>{}, "s_q = 1 / 4", [] { return 0.25; }, common_practice)),
    when({Way::three_quarter}, rule(
        spine_reach_share, From<>{}, "s_q = 1 / 3", [] { return 1.0 / 3; }, common_practice)),
    when(in_parts, rule(
        spine_reach, From<spine_reach_share, board_width>{}, "q_c = s_q x W_b",
        [](double share, double w) { return share * w; }, by_definition)),
    when({Way::three_quarter, Way::half, Way::quarter, Way::tight, Way::hollow}, rule(
        spine_cover_width, From<arc, joint, spine_reach>{}, "W_q = A + 2 x J + 2 x q_c", over_the_back,
        geometry)),
    when({Way::three_quarter, Way::half, Way::quarter, Way::loose}, rule(
        spine_cover_width, From<spine_piece_width, joint, spine_reach>{}, "W_q = W_p + 2 x J + 2 x q_c",
        over_the_back, geometry)),
    when(in_parts, rule(
        side_height, From<board_height, turn_in, board_thickness, underlay_growth>{},
        "H_e = H_b + 2 x (ti + t) + G_u",
        [](double h, double in, double t, double underlays_add) { return h + 2 * (in + t) + underlays_add; },
        geometry)),
    when(in_parts, rule(
        side_width, From<board_width, spine_reach, side_lap, turn_in, board_thickness, underlay_growth_across>{},
        "W_e = W_b - q_c + lp + ti + t + G_w",
        [](double w, double reach, double lap, double in, double t, double underlays_add) {
          return w - reach + lap + in + t + underlays_add;
        },
        geometry)),
    when(quarter_only, rule(
        sides_area, From<boards, side_height, side_width>{}, "A_e = n_b x H_e x W_e",
        [](double n, double h, double w) { return n * h * w; }, geometry)),

    when(with_corners, rule(
        covering_corners, From<boards>{}, "n_q = 2 x n_b", [](double n) { return 2 * n; },
        "definition: the two at the fore-edge of each board")),
    when({Way::three_quarter, Way::half, Way::corner_by_leg}, rule(
        corner_leather, From<spine_reach>{}, "L_q = q_c", [](double reach) { return reach; },
        "common practice, no source: along the edge as far as the spine's covering reaches")),
    // From the tip straight in to the middle of the slant it is leg / root 2.
    when({Way::three_quarter, Way::half, Way::corner_by_diagonal}, rule(
        corner_leather, From<spine_reach>{}, "L_q = root(2) x q_c",
        [](double reach) { return std::numbers::sqrt2 * reach; },
        "common practice, no source: across the corner as far as the spine's covering reaches")),
    when(with_corners, rule(
        corner_cut, From<corner_leather, turn_in, board_thickness>{}, "K_q = L_q + 2 x (ti + t)",
        [](double leg, double in, double t) { return leg + 2 * (in + t); }, geometry)),
    when(with_corners, rule(
        corners_area, From<covering_corners, corner_cut>{}, "A_q = n_q x K_q^2 / 2",
        [](double n, double cut) { return n * cut * cut / 2; }, geometry)),
    when(with_corners, rule(
        corner_edges, From<covering_corners, corner_cut>{}, "E_q = n_q x (2 + root(2)) x K_q",
        [](double n, double cut) { return n * (2 + std::numbers::sqrt2) * cut; },
        "geometry: the three edges of a corner")),
    // A side is trimmed across its two corners before it is pasted: what is left laps the slant of their covering.
    when(with_corners, rule(
        sides_area, From<boards, side_height, side_width, corner_cut, side_lap>{},
        "A_e = n_b x (H_e x W_e - (K_q - root(2) x lp)^2)",
        [](double n, double h, double w, double cut, double lap) {
          double const off = std::max(0.0, cut - std::numbers::sqrt2 * lap);
          return n * (h * w - off * off);
        },
        "geometry: a rectangle less two halves of a square")),
    when(in_parts, rule(
        sides_mass, From<sides_area, side_thickness, side_density>{}, "m_e = A_e x t_e x rho_e",
        [](double a, double t, double rho) { return a * t * rho * 1e-6; }, by_definition)),

    when(in_parts, rule(
        pare_length, From<cover_height, spine_cover_width>{}, "E = 2 x (H_c + W_q)",
        [](double h, double w) { return 2 * (h + w); },
        "P. Adam, Practical Bookbinding, 1903 (its page 56 online)")),
    when(in_parts, rule(
        cover_area, From<cover_height, spine_cover_width>{}, "A_c = H_c x W_q",
        [](double h, double w) { return h * w; }, geometry)),
    rule(
        cover_mass, From<cover_area, leather_pared, leather_density>{}, "m_c = A_c x t_l x rho_l",
        [](double a, double t, double rho) { return a * t * rho * 1e-6; },
        "E&R, dt2579: mass of leather by its thickness"),
    when(in_parts, rule(
        covering_thickness, From<leather_pared, side_thickness>{}, "t_c = the greater of t_l and t_e",
        [](double leather, double sides) { return std::max(leather, sides); }, geometry)),
};
// clang-format on

}  // namespace

std::span<Rule const> rules_of_covering_in_parts() { return table; }

}  // namespace endband
