// Boards and the cover of leather.
#include "engine/book/rules_table.h"

#include <algorithm>
#include <numbers>

namespace endband {
namespace {

using enum FigureId;

constexpr std::string_view vaughn =
    "S. J. Vaughn, Printing and Bookbinding for Schools, 1914 (its pages 39 and 40 online)";

constexpr std::array table{
    rule(
        boards, From<>{}, "n_b = 2", [] { return 2.0; }, by_definition),
    rule(
        board_height, From<leaf_height, square>{}, "H_b = H + 2 x sq",
        [](double h, double sq) { return h + 2 * sq; }, vaughn),
    rule(
        board_width, From<leaf_width, setback, square>{}, "W_b = W - sb + sq",
        [](double w, double back, double sq) { return w - back + sq; }, geometry),
    rule(
        lacing_holes, From<supports, holes_a_slip>{}, "O_z = 2 x u x o_z",
        [](double u, double o) { return 2 * u * o; }, "definition: a support has two slips"),
    rule(
        boards_mass, From<boards, board_height, board_width, board_thickness, board_density>{},
        "m_b = n_b x H_b x W_b x t x rho_b",
        [](double n, double h, double w, double t, double rho) { return n * h * w * t * rho * 1e-6; },
        by_definition),
    rule(
        leather_pared, From<leather_bought>{}, "t_l = t_0", [](double t) { return t; },
        "definition: used as it is bought when nothing else is said"),
    // Half a turn round a cord of diameter d is pi / 2 x d long where the flat spine is d.
    rule(
        band_path, From<bands, support_thickness>{}, "G_b = u_b x (pi / 2 - 1) x d_u",
        [](double n, double d) { return n * (std::numbers::pi / 2 - 1) * d; },
        "geometry: a band stands out as half a circle"),
    rule(
        band_growth, From<band_path, leather_stretch, board_height>{},
        "G = G_b - st x H_b, never less than 0",
        [](double path, double stretch, double h) { return std::max(0.0, path - stretch * h); },
        common_practice),
    rule(
        cover_height, From<board_height, turn_in, board_thickness, band_growth, underlay_growth>{},
        "H_c = H_b + 2 x (ti + t) + G + G_u",
        [](double h, double in, double t, double bands_add, double underlays_add) {
          return h + 2 * (in + t) + bands_add + underlays_add;
        },
        vaughn),
    rule(
        cover_width, From<board_width, joint, arc, turn_in, board_thickness, underlay_growth_across>{},
        "W_c = 2 x W_b + 2 x J + A + 2 x (ti + t) + G_w",
        [](double w, double j, double a, double in, double t, double underlays_add) {
          return 2 * w + 2 * j + a + 2 * (in + t) + underlays_add;
        },
        vaughn),
    rule(
        pare_length, From<cover_height, cover_width>{}, "E = 2 x (H_c + W_c)",
        [](double h, double w) { return 2 * (h + w); },
        "P. Adam, Practical Bookbinding, 1903 (its page 56 online)"),
    rule(
        cover_area, From<cover_height, cover_width>{}, "A_c = H_c x W_c",
        [](double h, double w) { return h * w; }, geometry),
    rule(
        cover_mass, From<cover_area, leather_pared, leather_density>{}, "m_c = A_c x t_l x rho_l",
        [](double a, double t, double rho) { return a * t * rho * 1e-6; },
        "E&R, dt2579: mass of leather by its thickness"),
};

}  // namespace

std::span<Rule const> rules_of_boards_and_cover() { return table; }

}  // namespace endband
