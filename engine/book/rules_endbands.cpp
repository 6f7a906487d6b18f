// Endbands and registers.
#include "engine/book/rules_table.h"

#include <cmath>
#include <numbers>

namespace endband {
namespace {

using enum FigureId;

constexpr std::array table{
    rule(
        core_length, From<arc, core_trim>{}, "L_c = A + 2 x c_t",
        [](double a, double trim) { return a + 2 * trim; },
        "P. Adam, Practical Bookbinding, 1903 (its page 48 online): longer than the back; by how much is "
        "common practice"),
    rule(
        silk_thickness, From<silk_tex, silk_density>{}, "d_s = 2 x root(tex_s / (pi x rho_s))",
        [](double tex, double rho) { return 2 * std::sqrt(tex / (std::numbers::pi * rho)); },
        "geometry: a round thread; its density is common practice, no source"),
    rule(
        wraps, From<arc, silk_thickness, silk_packing>{}, "w_e = A / (d_s x pk), rounded up",
        [](double a, double d, double packing) { return std::ceil(a / (d * packing)); }, geometry),
    rule(
        tie_downs, From<sections>{}, "w_t = 1 + n / 8, the quotient rounded down",
        [](double n) { return 1 + std::floor(n / 8); },
        "J. W. Zaehnsdorf, The Art of Bookbinding, 1890, p. 85: about every eighth section"),
    // Down through the section and up again; each colour of each endband is one needleful and wastes its
    // share of it.
    rule(
        silk_length, From<endbands, wraps, core_thickness, silk_thickness, tie_downs, tie_length>{},
        "L_s = n_e x (w_e x pi x (d_c + d_s) + w_t x a_t)",
        [](double n, double x, double core, double d, double ties, double tie) {
          return n * (x * std::numbers::pi * (core + d) + ties * tie);
        },
        geometry),
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
