// The spine: flat, rounded, or rounded and backed; its bands and linings.
#include "engine/book/rules_table.h"

#include <cmath>
#include <numbers>

namespace endband {
namespace {

using enum FigureId;

constexpr std::string_view of_a_circle = "geometry of a circle; E&R, 'rounding', dt2916: a third of one";
constexpr std::string_view of_the_groove = "P. Adam, Practical Bookbinding, 1903 (its page 36 online)";

constexpr double radians(double degrees) { return degrees * std::numbers::pi / 180; }

double arc_over_chord(double theta) { return theta / (2 * std::sin(theta / 2)); }

// The angle in degrees of the arc that is `arc` long over `chord`: 0 when it is not longer, 360 at most. The
// ratio grows with the angle from 1 at a flat spine to infinity at a full circle, so halving the interval
// finds it.
double angle_of(double arc, double chord) {
  if (!(arc > chord)) return 0;
  double low = 0;
  double high = 2 * std::numbers::pi;
  for (int i = 0; i < 48; ++i) {
    double const middle = (low + high) / 2;
    (arc_over_chord(middle) * chord < arc ? low : high) = middle;
  }
  return low * 180 / std::numbers::pi;
}

// The thread whose layers give a swell; a block that comes sewn has none.
constexpr auto swell_by_layer = [](double s, double n, double c) { return n > 0 ? s / (n * c) : 0; };

constexpr Ways curved{Way::rounded, Way::backed};
constexpr Ways curved_with_shoulders{Way::backed};
constexpr Ways no_raised_cords{Way::recessed_cords, Way::tapes, Way::unsupported};
constexpr Ways covered_back{Way::tight, Way::hollow, Way::loose};

// clang-format off
constexpr std::array table{
    when(curved_with_shoulders, rule(
        shoulder, From<board_thickness>{}, "h = t", [](double t) { return t; }, of_the_groove)),
    when({Way::flat, Way::rounded}, rule(
        shoulder, From<>{}, "h = 0", [] { return 0.0; }, "definition: only backing makes shoulders")),
    when(curved, rule(
        chord, From<block_thickness, shoulder>{}, "C = T + 2 x h",
        [](double t, double h) { return t + 2 * h; }, geometry)),
    when({Way::flat}, rule(
        chord, From<spine_width>{}, "C = B", [](double b) { return b; }, geometry)),
    when(curved, rule(
        spine_radius, From<chord, round_angle>{}, "R = C / (2 x sin(theta / 2))",
        [](double c, double degrees) { return c / (2 * std::sin(radians(degrees) / 2)); }, of_a_circle)),
    when(curved, rule(
        arc, From<spine_radius, round_angle>{}, "A = R x theta",
        [](double r, double degrees) { return r * radians(degrees); }, of_a_circle)),
    when({Way::flat}, rule(
        arc, From<chord>{}, "A = C", [](double c) { return c; }, geometry)),
    when(curved, rule(
        rise, From<spine_radius, round_angle>{}, "r = R x (1 - cos(theta / 2))",
        [](double r, double degrees) { return r * (1 - std::cos(radians(degrees) / 2)); }, of_a_circle)),
    when({Way::flat}, rule(
        rise, From<>{}, "r = 0", [] { return 0.0; }, by_definition)),
    when(curved, rule(
        swell_wanted, From<arc, block_thickness>{}, "S_w = A - T", [](double a, double t) { return a - t; },
        geometry)),
    when(curved, rule(
        swell_least, From<shoulder>{}, "S_0 = 2 x h", [](double h) { return 2 * h; },
        "geometry: the spine before rounding must be wider than the shoulders stand apart")),
    when(curved, rule(
        swell_low, From<chord, round_angle, block_thickness>{}, "S_1 = C x theta / (4 x sin(theta / 4)) - T",
        [](double c, double degrees, double t) { return c * arc_over_chord(radians(degrees) / 2) - t; },
        geometry)),
    when(curved, rule(
        swell_most, From<block_thickness>{}, "S_2 = 0.3 x T", [](double t) { return 0.3 * t; },
        "after P. Geraty, as told by papercraftpanda.com: a spine about 30 % thicker than the fore-edge")),
    when(curved, rule(
        angle_it_takes, From<spine_width, chord>{},
        "theta_S such that theta_S / (2 x sin(theta_S / 2)) = B / C; 0 when B is not wider than C",
        [](double b, double c) { return angle_of(b, c); }, geometry)),
    when(curved, rule(
        thread_least, From<swell_least, thread_layers, swell_kept>{}, "d_0 = S_0 / (n_d x c); 0 when nothing is sewn",
        swell_by_layer, geometry)),
    when(curved, rule(
        thread_most, From<swell_most, thread_layers, swell_kept>{}, "d_2 = S_2 / (n_d x c); 0 when nothing is sewn",
        swell_by_layer, geometry)),
    when({Way::raised_cords}, rule(
        bands, From<supports>{}, "u_b = u", [](double u) { return u; },
        "definition: a raised cord is a band")),
    when(no_raised_cords, rule(
        bands, From<false_bands>{}, "u_b = u_f", [](double u) { return u; },
        "definition: without raised cords only false bands show")),
    when(covered_back, rule(
        panels, From<bands>{}, "i = u_b + 1", [](double u) { return u + 1; },
        "D. Cockerell, Bookbinding, and the Care of Books, 1901, ch. VII: six portions for five bands")),
    when({Way::raised_cords}, rule(
        band_width, From<support_thickness, thread_thickness>{}, "b = d_u + 2 x d",
        [](double support, double d) { return support + 2 * d; }, geometry)),
    when(no_raised_cords, rule(
        band_width, From<false_band_width>{}, "b = b_f", [](double b) { return b; }, by_definition)),
    rule(
        panel_height, From<leaf_height, bands, band_width, panels>{}, "H_i = (H - u_b x b) / i",
        [](double h, double u, double b, double i) { return (h - u * b) / i; }, "geometry: equal panels"),
    when({Way::hollow, Way::loose}, rule(
        mull_height, From<leaf_height, mull_setback>{}, "H_m = H - 2 x k_m",
        [](double h, double k) { return h - 2 * k; }, "geometry: clear of the turn-ins at head and tail")),
    when({Way::hollow, Way::loose}, rule(
        mull_width, From<arc, mull_reach>{}, "W_m = A + 2 x b_m",
        [](double a, double reach) { return a + 2 * reach; }, "geometry: on to both boards")),
    when({Way::hollow}, rule(
        hollow_width, From<arc>{}, "W_h = 3 x A", [](double a) { return 3 * a; },
        "geometry: a tube of two sides, one of them double")),
    when({Way::loose, Way::flat}, rule(
        spine_piece_width, From<spine_width, board_thickness>{}, "W_p = B + 2 x t",
        [](double b, double t) { return b + 2 * t; }, "geometry: as wide as block and boards together")),
    when({Way::loose, Way::rounded, Way::backed}, rule(
        spine_piece_width, From<arc>{}, "W_p = A", [](double a) { return a; }, geometry)),
    when({Way::raised_cords, Way::tight, Way::hollow, Way::loose}, rule(
        back_depth, From<rise, support_thickness>{}, "r_b = r + d_u",
        [](double r, double band) { return r + band; }, geometry)),
    // A false band is as high as half its width: half round, as raised cords are.
    when({Way::recessed_cords, Way::tapes, Way::unsupported, Way::tight, Way::hollow}, rule(
        back_depth, From<rise, false_band_width>{}, "r_b = r + b_f / 2",
        [](double r, double band) { return r + band / 2; }, geometry)),
    when({Way::recessed_cords, Way::tapes, Way::unsupported, Way::loose}, rule(
        back_depth, From<rise, stiffener_thickness, false_band_width>{}, "r_b = r + t_p + b_f / 2",
        [](double r, double stiff, double band) { return r + stiff + band / 2; }, geometry)),
    when({Way::open_back}, rule(
        back_depth, From<>{}, "r_b = 0", [] { return 0.0; }, "definition: nothing lies behind the block")),
};
// clang-format on

}  // namespace

std::span<Rule const> rules_of_spine() { return table; }

}  // namespace endband
