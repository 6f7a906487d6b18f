// Boards, and the covering of one piece: full, of each board, or a wrapper.
#include "engine/book/rules_table.h"

#include <algorithm>
#include <numbers>

namespace endband {
namespace {

using enum FigureId;

constexpr std::string_view vaughn =
    "S. J. Vaughn, Printing and Bookbinding for Schools, 1914 (its pages 39 and 40 online)";

constexpr std::string_view of_a_groove =
    "P. Adam, Practical Bookbinding, 1903, ch. VI: the joint of a case is as wide as the board is thick; and "
    "what the board stands off";
constexpr std::string_view adam_on_paring = "P. Adam, Practical Bookbinding, 1903 (its page 56 online)";

constexpr Ways with_boards{Way::laced, Way::cased, Way::sewn_on};
constexpr Ways over_the_spine{Way::full, Way::three_quarter, Way::half, Way::quarter};

// Both boards with their joints, what lies between them, and the turn-ins at the fore-edges.
constexpr auto across = [](double w, double j, double between, double in, double t, double underlays_add) {
  return 2 * w + 2 * j + between + 2 * (in + t) + underlays_add;
};

// clang-format off
constexpr std::array table{
    when(with_boards, rule(
        boards, From<>{}, "n_b = 2", [] { return 2.0; }, by_definition)),
    when({Way::tight_joint}, rule(
        setback, From<>{}, "sb = 0", [] { return 0.0; }, "definition: the board lies against the shoulder")),
    when({Way::wrapper, Way::long_stitch}, rule(
        square, From<>{}, "sq = 3 mm", [] { return 3.0; }, common_practice)),
    when({Way::wrapper, Way::pamphlet}, rule(
        square, From<>{}, "sq = 0", [] { return 0.0; }, "common practice, no source: trimmed with the leaves")),
    when({Way::wrapper}, rule(
        turn_in, From<>{}, "ti = 0", [] { return 0.0; }, "common practice, no source: a wrapper ends at its cut edge")),
    when(with_boards, rule(
        board_height, From<leaf_height, square>{}, "H_b = H + 2 x sq",
        [](double h, double sq) { return h + 2 * sq; }, vaughn)),
    when(with_boards, rule(
        board_width, From<leaf_width, setback, square>{}, "W_b = W - sb + sq",
        [](double w, double back, double sq) { return w - back + sq; }, geometry)),
    when({Way::laced}, rule(
        lacing_holes, From<supports, holes_a_slip>{}, "O_z = 2 x u x o_z",
        [](double u, double o) { return 2 * u * o; }, "definition: a support has two slips")),
    rule(
        boards_mass, From<boards, board_height, board_width, board_thickness, board_density>{},
        "m_b = n_b x H_b x W_b x t x rho_b",
        [](double n, double h, double w, double t, double rho) { return n * h * w * t * rho * 1e-6; },
        by_definition),
    rule(
        leather_pared, From<leather_bought>{}, "t_l = t_0", [](double t) { return t; },
        "definition: used as it is bought when nothing else is said"),
    // Where the shoulder stands as high as the board, the covering runs level from one to the other; else it
    // climbs the edge of the board.
    when({Way::laced, Way::tight_joint, Way::backed}, rule(
        joint, From<setback>{}, "J = sb", [](double back) { return back; }, geometry)),
    when({Way::laced, Way::tight_joint, Way::flat, Way::rounded}, rule(
        joint, From<setback, board_thickness>{}, "J = sb + t",
        [](double back, double t) { return back + t; }, "geometry: the edge of a board and what it stands off")),
    when({Way::laced, Way::groove}, rule(
        joint, From<setback, board_thickness>{}, "J = sb + t",
        [](double back, double t) { return back + t; }, of_a_groove)),
    when({Way::cased}, rule(
        joint, From<setback, board_thickness>{}, "J = sb + t",
        [](double back, double t) { return back + t; }, of_a_groove)),
    when({Way::sewn_on, Way::no_boards}, rule(
        joint, From<>{}, "J = 0", [] { return 0.0; }, "definition: no covering goes over a hinge")),
    // Half a turn round a cord of diameter d is pi / 2 x d long where the flat spine is d.
    when({Way::raised_cords}, rule(
        band_path, From<bands, support_thickness>{}, "G_b = u_b x (pi / 2 - 1) x d_u",
        [](double n, double d) { return n * (std::numbers::pi / 2 - 1) * d; },
        "geometry: a band stands out as half a circle")),
    when({Way::recessed_cords, Way::tapes, Way::unsupported}, rule(
        band_path, From<bands, false_band_width>{}, "G_b = u_b x (pi / 2 - 1) x b_f",
        [](double n, double b) { return n * (std::numbers::pi / 2 - 1) * b; },
        "geometry: a band stands out as half a circle")),
    rule(
        band_growth, From<band_path, leather_stretch, board_height>{},
        "G = G_b - st x H_b, never less than 0",
        [](double path, double stretch, double h) { return std::max(0.0, path - stretch * h); },
        common_practice),
    when(over_the_spine, rule(
        cover_height, From<board_height, turn_in, board_thickness, band_growth, underlay_growth>{},
        "H_c = H_b + 2 x (ti + t) + G + G_u",
        [](double h, double in, double t, double bands_add, double underlays_add) {
          return h + 2 * (in + t) + bands_add + underlays_add;
        },
        vaughn)),
    when({Way::each_board}, rule(
        cover_height, From<board_height, turn_in, board_thickness, underlay_growth>{},
        "H_c = H_b + 2 x (ti + t) + G_u",
        [](double h, double in, double t, double underlays_add) { return h + 2 * (in + t) + underlays_add; },
        vaughn)),
    when({Way::wrapper}, rule(
        cover_height, From<leaf_height, square, turn_in>{}, "H_c = H + 2 x sq + 2 x ti",
        [](double h, double sq, double in) { return h + 2 * sq + 2 * in; }, geometry)),
    when({Way::full, Way::tight, Way::hollow}, rule(
        cover_width, From<board_width, joint, arc, turn_in, board_thickness, underlay_growth_across>{},
        "W_c = 2 x W_b + 2 x J + A + 2 x (ti + t) + G_w", across, vaughn)),
    when({Way::full, Way::loose}, rule(
        cover_width,
        From<board_width, joint, spine_piece_width, turn_in, board_thickness, underlay_growth_across>{},
        "W_c = 2 x W_b + 2 x J + W_p + 2 x (ti + t) + G_w", across, vaughn)),
    when({Way::each_board}, rule(
        cover_width, From<board_width, turn_in, board_thickness, underlay_growth_across>{},
        "W_c = W_b + 2 x (ti + t) + G_w",
        [](double w, double in, double t, double underlays_add) { return w + 2 * (in + t) + underlays_add; },
        vaughn)),
    // A flap goes over the fore-edge and on to the other side.
    when({Way::wrapper}, rule(
        cover_width, From<leaf_width, square, arc, turn_in, cover_flap, block_thickness>{},
        "W_c = 2 x (W + sq) + A + 2 x ti; with fl also T + fl",
        [](double w, double sq, double a, double in, double flap, double t) {
          return 2 * (w + sq) + a + 2 * in + (flap > 0 ? t + flap : 0);
        },
        geometry)),
    when({Way::full, Way::wrapper}, rule(
        pare_length, From<cover_height, cover_width>{}, "E = 2 x (H_c + W_c)",
        [](double h, double w) { return 2 * (h + w); }, adam_on_paring)),
    when({Way::each_board}, rule(
        pare_length, From<boards, cover_height, cover_width>{}, "E = n_b x 2 x (H_c + W_c)",
        [](double n, double h, double w) { return n * 2 * (h + w); }, adam_on_paring)),
    when({Way::full, Way::wrapper}, rule(
        cover_area, From<cover_height, cover_width>{}, "A_c = H_c x W_c",
        [](double h, double w) { return h * w; }, geometry)),
    when({Way::each_board}, rule(
        cover_area, From<boards, cover_height, cover_width>{}, "A_c = n_b x H_c x W_c",
        [](double n, double h, double w) { return n * h * w; }, geometry)),
    when({Way::full, Way::each_board, Way::wrapper}, rule(
        covering_thickness, From<leather_pared>{}, "t_c = t_l", [](double t) { return t; }, by_definition)),
    when({Way::wrapper, Way::long_stitch}, rule(
        wrapper_holes, From<sewn_sections, stations>{}, "O_c = n_z x o_s",
        [](double n, double o) { return n * o; }, "definition: every section is sewn through the wrapper")),
    when({Way::wrapper, Way::pamphlet}, rule(
        wrapper_holes, From<stations>{}, "O_c = o_s", [](double o) { return o; },
        "definition: the section is sewn through the wrapper's fold")),
};
// clang-format on

}  // namespace

std::span<Rule const> rules_of_boards_and_cover() { return table; }

}  // namespace endband
