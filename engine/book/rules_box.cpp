// The box: a slipcase of five boards, or two trays in a case. Both are made to the closed book.
//
// A slipcase: top, bottom and back stand between the sides, the back between top and bottom; the mouth is at
// the spine of the book. One strip covers top, back and bottom, turns over onto the sides and into the mouth;
// a piece covers each side and turns into the mouth. The linings lie over what is turned in.
//
// A tray: the walls stand on the base, the head and tail walls between the open side, at the spine, and the
// fore-edge wall. One strip covers the walls outside and inside; its edges turn onto the floor and under the
// base, its ends round the walls at the open side. The floor's lining turns round the open side too.
#include "engine/book/rules_table.h"

#include <algorithm>
#include <cmath>

namespace endband {
namespace {

using enum FigureId;

constexpr Rule of_slipcase(Rule const& rule) { return when({Way::slipcase}, rule); }
constexpr Rule of_trays(Rule const& rule) { return when({Way::drop_spine}, rule); }

constexpr std::array table{
    // --- inside
    rule(
        box_inner_height, From<closed_height, box_clearance>{}, "I_h = X_h + c_x",
        [](double x, double play) { return x + play; }, geometry),
    rule(
        box_inner_width, From<closed_width, box_clearance>{}, "I_w = X_w + c_x",
        [](double x, double play) { return x + play; }, geometry),
    rule(
        box_inner_depth, From<closed_thickness, box_clearance>{}, "I_d = X_t + c_x",
        [](double x, double play) { return x + play; }, geometry),

    // --- slipcase
    of_slipcase(rule(
        slipcase_back_height, From<box_inner_height, box_cloth_thickness, box_lining_thickness>{},
        "H_xb = I_h + 2 x (t_k + t_xl)",
        [](double inside, double cloth, double lining) { return inside + 2 * (cloth + lining); },
        "geometry: at the mouth the lining lies on the covering that is turned in")),
    of_slipcase(rule(
        slipcase_back_width, From<box_inner_depth, box_cloth_thickness, box_lining_thickness>{},
        "D_xb = I_d + 2 x (t_k + t_xl)",
        [](double inside, double cloth, double lining) { return inside + 2 * (cloth + lining); }, geometry)),
    of_slipcase(rule(
        slipcase_side_height, From<slipcase_back_height, box_board_thickness>{}, "H_xs = H_xb + 2 x t_x",
        [](double between, double t) { return between + 2 * t; }, geometry)),
    of_slipcase(rule(
        slipcase_side_width, From<box_inner_width, box_lining_thickness, box_board_thickness>{},
        "W_xs = I_w + t_xl + t_x", [](double inside, double lining, double t) { return inside + lining + t; },
        geometry)),
    of_slipcase(rule(
        slipcase_strip_length,
        From<slipcase_side_width, slipcase_side_height, box_turn_in, box_board_thickness>{},
        "L_xs = 2 x W_xs + H_xs + 2 x (ti_x + t_x)",
        [](double w, double h, double in, double t) { return 2 * w + h + 2 * (in + t); }, geometry)),
    of_slipcase(rule(
        slipcase_strip_width, From<slipcase_back_width, box_board_thickness, box_turn_in>{},
        "K_xs = D_xb + 2 x t_x + 2 x ti_x", [](double d, double t, double in) { return d + 2 * t + 2 * in; },
        geometry)),
    of_slipcase(rule(
        slipcase_side_cloth_width, From<slipcase_side_width, box_board_thickness, box_turn_in>{},
        "K_xc = W_xs + t_x + ti_x", [](double w, double t, double in) { return w + t + in; }, geometry)),
    of_slipcase(rule(
        slipcase_lining_width, From<slipcase_side_width, box_board_thickness>{}, "W_xl = W_xs - t_x",
        [](double w, double t) { return w - t; }, geometry)),
    of_slipcase(rule(
        slipcase_lining_length, From<slipcase_lining_width, slipcase_back_height>{}, "L_xl = 2 x W_xl + H_xb",
        [](double w, double h) { return 2 * w + h; }, geometry)),
    of_slipcase(rule(
        box_height, From<slipcase_side_height, box_cloth_thickness>{}, "Z_h = H_xs + 2 x t_k",
        [](double h, double cloth) { return h + 2 * cloth; }, geometry)),
    of_slipcase(rule(
        box_width, From<slipcase_side_width, box_cloth_thickness>{}, "Z_w = W_xs + 2 x t_k",
        [](double w, double cloth) { return w + 2 * cloth; }, geometry)),
    of_slipcase(rule(
        box_depth, From<slipcase_back_width, box_board_thickness, box_cloth_thickness>{},
        "Z_d = D_xb + 2 x t_x + 4 x t_k",
        [](double d, double t, double cloth) { return d + 2 * t + 4 * cloth; },
        "geometry: the strip is turned over under the covering of the sides")),

    // --- the inner tray takes the book
    of_trays(rule(
        inner_tray_wall, From<box_inner_depth, box_lining_thickness, box_cloth_thickness>{},
        "V_x1 = I_d + t_xl + t_k",
        [](double inside, double lining, double cloth) { return inside + lining + cloth; }, geometry)),
    of_trays(rule(
        inner_tray_height, From<box_inner_height, box_cloth_thickness, box_board_thickness>{},
        "H_x1 = I_h + 2 x (t_k + t_x)",
        [](double inside, double cloth, double t) { return inside + 2 * (cloth + t); }, geometry)),
    of_trays(rule(
        inner_tray_width, From<box_inner_width, box_cloth_thickness, box_board_thickness>{},
        "W_x1 = I_w + t_k + t_x", [](double inside, double cloth, double t) { return inside + cloth + t; },
        geometry)),
    of_trays(rule(
        inner_tray_end_wall, From<inner_tray_width, box_board_thickness>{}, "E_x1 = W_x1 - t_x",
        [](double w, double t) { return w - t; }, geometry)),
    of_trays(rule(
        inner_tray_cloth_length,
        From<inner_tray_height, inner_tray_width, box_turn_in, box_board_thickness>{},
        "L_x1 = H_x1 + 2 x W_x1 + 2 x (ti_x + t_x)",
        [](double h, double w, double in, double t) { return h + 2 * w + 2 * (in + t); }, geometry)),
    of_trays(rule(
        inner_tray_cloth_width, From<inner_tray_wall, box_board_thickness, box_turn_in>{},
        "K_x1 = 2 x (V_x1 + t_x + ti_x)", [](double v, double t, double in) { return 2 * (v + t + in); },
        "geometry: wall and base outside, over the top, the wall inside, and turned at both edges")),
    of_trays(rule(
        inner_tray_lining_height, From<inner_tray_height, box_board_thickness, box_cloth_thickness>{},
        "M_x1 = H_x1 - 2 x (t_x + t_k)", [](double h, double t, double cloth) { return h - 2 * (t + cloth); },
        geometry)),
    of_trays(rule(
        inner_tray_lining_width, From<inner_tray_width, box_cloth_thickness, box_turn_in>{},
        "F_x1 = W_x1 - t_k + ti_x", [](double w, double cloth, double in) { return w - cloth + in; },
        "geometry: the floor, the edge of the base and the turn-in under it")),

    // --- the outer tray takes the inner one
    of_trays(rule(
        outer_tray_wall,
        From<inner_tray_wall, box_board_thickness, box_cloth_thickness, box_clearance,
             box_lining_thickness>{},
        "V_x2 = V_x1 + t_x + 3 x t_k + c_x + t_xl",
        [](double inner, double t, double cloth, double play, double lining) {
          return inner + t + 3 * cloth + play + lining;
        },
        "geometry: it reaches down to the foot of the inner tray")),
    of_trays(rule(
        outer_tray_height, From<inner_tray_height, box_cloth_thickness, box_clearance, box_board_thickness>{},
        "H_x2 = H_x1 + 4 x t_k + c_x + 2 x t_x",
        [](double inner, double cloth, double play, double t) { return inner + 4 * cloth + play + 2 * t; },
        geometry)),
    of_trays(rule(
        outer_tray_width, From<inner_tray_width, box_cloth_thickness, box_clearance, box_board_thickness>{},
        "W_x2 = W_x1 + 3 x t_k + c_x + t_x",
        [](double inner, double cloth, double play, double t) { return inner + 3 * cloth + play + t; },
        geometry)),
    of_trays(rule(
        outer_tray_end_wall, From<outer_tray_width, box_board_thickness>{}, "E_x2 = W_x2 - t_x",
        [](double w, double t) { return w - t; }, geometry)),
    of_trays(rule(
        outer_tray_cloth_length,
        From<outer_tray_height, outer_tray_width, box_turn_in, box_board_thickness>{},
        "L_x2 = H_x2 + 2 x W_x2 + 2 x (ti_x + t_x)",
        [](double h, double w, double in, double t) { return h + 2 * w + 2 * (in + t); }, geometry)),
    of_trays(rule(
        outer_tray_cloth_width, From<outer_tray_wall, box_board_thickness, box_turn_in>{},
        "K_x2 = 2 x (V_x2 + t_x + ti_x)", [](double v, double t, double in) { return 2 * (v + t + in); },
        geometry)),
    of_trays(rule(
        outer_tray_lining_height, From<outer_tray_height, box_board_thickness, box_cloth_thickness>{},
        "M_x2 = H_x2 - 2 x (t_x + t_k)", [](double h, double t, double cloth) { return h - 2 * (t + cloth); },
        geometry)),
    of_trays(rule(
        outer_tray_lining_width, From<outer_tray_width, box_cloth_thickness, box_turn_in>{},
        "F_x2 = W_x2 - t_k + ti_x", [](double w, double cloth, double in) { return w - cloth + in; },
        geometry)),

    // --- the case takes the trays, their open sides flush with its spine
    of_trays(rule(
        box_case_board_height, From<outer_tray_height, box_cloth_thickness, box_square>{},
        "H_xc = H_x2 + 2 x t_k + 2 x sq_x",
        [](double h, double cloth, double sq) { return h + 2 * cloth + 2 * sq; }, geometry)),
    of_trays(rule(
        box_case_board_width, From<outer_tray_width, box_cloth_thickness, box_square>{},
        "W_xc = W_x2 + 2 x t_k + sq_x", [](double w, double cloth, double sq) { return w + 2 * cloth + sq; },
        geometry)),
    of_trays(rule(
        box_case_spine_width,
        From<outer_tray_wall, box_board_thickness, box_cloth_thickness, box_lining_thickness>{},
        "S_x = V_x2 + t_x + 4 x t_k + 2 x t_xl",
        [](double wall, double t, double cloth, double lining) { return wall + t + 4 * cloth + 2 * lining; },
        "geometry: the outer tray, covered, between the lined and turned-in boards of the case")),
    // Folded up, the edges of board and spine meet at their inner faces: the covering spans both thicknesses.
    of_trays(rule(
        box_joint, From<box_board_thickness, box_cloth_thickness>{}, "J_x = 2 x t_x + t_k",
        [](double t, double cloth) { return 2 * t + cloth; }, common_practice)),
    of_trays(rule(
        box_case_cloth_height, From<box_case_board_height, box_turn_in, box_board_thickness>{},
        "H_xk = H_xc + 2 x (ti_x + t_x)", [](double h, double in, double t) { return h + 2 * (in + t); },
        geometry)),
    of_trays(rule(
        box_case_cloth_width,
        From<box_case_board_width, box_joint, box_case_spine_width, box_turn_in, box_board_thickness>{},
        "W_xk = 2 x W_xc + 2 x J_x + S_x + 2 x (ti_x + t_x)",
        [](double w, double j, double s, double in, double t) { return 2 * w + 2 * j + s + 2 * (in + t); },
        geometry)),
    of_trays(rule(
        box_case_lining_height, From<box_case_board_height, box_square, box_turn_in>{},
        "H_xi = H_xc - 2 x sq_x, or - ti_x where that is less",
        [](double h, double sq, double in) { return h - std::min(2 * sq, in); },
        "common practice, no source: as far from the edges as the trays, and always over the turn-in")),
    of_trays(rule(
        box_case_lining_width,
        From<box_case_board_width, box_joint, box_case_spine_width, box_square, box_turn_in>{},
        "W_xi = 2 x W_xc + 2 x J_x + S_x - 2 x sq_x, or - ti_x where that is less",
        [](double w, double j, double s, double sq, double in) {
          return 2 * w + 2 * j + s - std::min(2 * sq, in);
        },
        common_practice)),
    of_trays(rule(
        box_height, From<box_case_board_height, box_cloth_thickness>{}, "Z_h = H_xc + 2 x t_k",
        [](double h, double cloth) { return h + 2 * cloth; }, geometry)),
    // The joint spans from the outer edge of a board to that of the spine, a thickness higher.
    of_trays(rule(
        box_width, From<box_case_board_width, box_joint, box_board_thickness, box_cloth_thickness>{},
        "Z_w = W_xc + sqrt(J_x^2 - t_x^2), at least t_x, + 2 x t_k",
        [](double w, double j, double t, double cloth) {
          return w + std::max(t, std::sqrt(std::max(0.0, j * j - t * t))) + 2 * cloth;
        },
        geometry)),
    of_trays(rule(
        box_depth, From<box_case_spine_width, box_board_thickness, box_cloth_thickness>{},
        "Z_d = S_x + 2 x t_x + 2 x t_k",
        [](double s, double t, double cloth) { return s + 2 * t + 2 * cloth; }, geometry)),
};

}  // namespace

std::span<Rule const> rules_of_box() { return table; }

}  // namespace endband
