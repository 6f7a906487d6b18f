// Endbands and registers.
#include "engine/book/rules_table.h"

#include <cmath>
#include <numbers>

namespace endband {
namespace {

using enum FigureId;

constexpr Ways sewn_endbands{Way::one_core, Way::two_cores};

constexpr std::array table{
    when({Way::one_core}, rule(
                              cores_an_endband, From<>{}, "k_e = 1", [] { return 1.0; }, by_definition)),
    when({Way::two_cores}, rule(
                               cores_an_endband, From<>{}, "k_e = 2", [] { return 2.0; }, by_definition)),
    when({Way::stuck_on}, rule(
                              cores_an_endband, From<>{}, "k_e = 0", [] { return 0.0; },
                              "definition: it comes made, with its core in it")),
    when(sewn_endbands, rule(
                            core_length, From<arc, core_trim>{}, "L_c = A + 2 x c_t",
                            [](double a, double trim) { return a + 2 * trim; },
                            "P. Adam, Practical Bookbinding, 1903 (its page 48 online): longer than the "
                            "back; by how much is common practice")),
    rule(
        silk_thickness, From<silk_tex, silk_density>{}, "d_s = 2 x root(tex_s / (pi x rho_s))",
        [](double tex, double rho) { return 2 * std::sqrt(tex / (std::numbers::pi * rho)); },
        "geometry: a round thread; its density is common practice, no source"),
    when(sewn_endbands,
         rule(
             wraps, From<arc, silk_thickness, silk_packing>{}, "w_e = A / (d_s x pk), rounded up",
             [](double a, double d, double packing) { return std::ceil(a / (d * packing)); }, geometry)),
    when(sewn_endbands, rule(
                            tie_downs, From<sections>{}, "w_t = 1 + n / 8, the quotient rounded down",
                            [](double n) { return 1 + std::floor(n / 8); },
                            "J. W. Zaehnsdorf, The Art of Bookbinding, 1890, p. 85: about every eighth "
                            "section")),
    when({Way::one_core}, rule(
                              wrap_path, From<core_thickness, silk_thickness>{}, "p_s = pi x (d_c + d_s)",
                              [](double core, double d) { return std::numbers::pi * (core + d); },
                              "geometry: once round the core, at the middle of the silk")),
    // In a figure of eight: round the one core and then the other.
    when({Way::two_cores},
         rule(
             wrap_path, From<core_thickness, second_core_thickness, silk_thickness>{},
             "p_s = pi x (d_c + d_s) + pi x (d_k + d_s)",
             [](double core, double second, double d) { return std::numbers::pi * (core + second + 2 * d); },
             "geometry: once round each core, at the middle of the silk")),
    // Down through the section and up again; each colour of each endband is one needleful and wastes its
    // share of it.
    when(sewn_endbands, rule(
                            silk_length, From<endbands, wraps, wrap_path, tie_downs, tie_length>{},
                            "L_s = n_e x (w_e x p_s + w_t x a_t)",
                            [](double n, double x, double path, double ties, double tie) {
                              return n * (x * path + ties * tie);
                            },
                            geometry)),
    rule(
        register_length, From<register_anchor, leaf_height, leaf_width, register_diagonal, register_tail>{},
        "L_r = a_r + H + z_r; over the diagonal a_r + root(H^2 + W^2) + z_r",
        [](double anchor, double h, double w, double diagonal, double tail) {
          return anchor + (diagonal != 0 ? std::sqrt(h * h + w * w) : h) + tail;
        },
        "E&R, 'register' (1), dt2816: the diagonal and an inch; the straight one is common practice, no "
        "source"),
};

}  // namespace

std::span<Rule const> rules_of_endbands_and_registers() { return table; }

}  // namespace endband
