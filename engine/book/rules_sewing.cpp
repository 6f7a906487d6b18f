// Thread, swell, supports and holes.
#include "engine/book/rules_table.h"

#include <cmath>
#include <numbers>

namespace endband {
namespace {

using enum FigureId;

constexpr std::string_view length_of_thread =
    "geometry: in each section from kettle stitch to kettle stitch and once or more round every support";

constexpr std::array table{
    // g/km over kg/m3 is the thread's cross-section in mm2.
    rule(
        thread_thickness, From<thread_tex, thread_density>{}, "d = 2 x root(tex / (pi x rho_d))",
        [](double tex, double rho) { return 2 * std::sqrt(tex / (std::numbers::pi * rho)); },
        "geometry: a round thread; its density is common practice, no source"),
    rule(
        swell, From<sections, thread_thickness, swell_kept>{}, "S = n x d x c",
        [](double n, double d, double c) { return n * d * c; },
        "D. W. Jones, Bookbinding: A Tutorial, 1995: as many layers of thread as sections"),
    rule(
        spine_width, From<block_thickness, swell>{}, "B = T + S", [](double t, double s) { return t + s; },
        geometry),
    rule(
        thread_length,
        From<sections, leaf_height, kettle_setback, supports, support_turns, support_thickness,
             thread_thickness, stitch_allowance>{},
        "L = n x (H - 2 x k_s + u x w x pi x (d_u + d) + a)",
        [](double n, double h, double k, double u, double w, double support, double d, double a) {
          return n * (h - 2 * k + u * w * std::numbers::pi * (support + d) + a);
        },
        length_of_thread),
    rule(
        needlefuls, From<thread_length, needle_length, needle_waste>{}, "j = L / (L_n - L_w), rounded up",
        [](double l, double needle, double waste) { return std::ceil(l / (needle - waste)); },
        common_practice),
    rule(
        thread_taken, From<thread_length, needlefuls, needle_waste>{}, "L_t = L + j x L_w",
        [](double l, double j, double waste) { return l + j * waste; }, common_practice),
    rule(
        cord_each, From<spine_width, slip_length>{}, "y = B + 2 x z",
        [](double b, double slip) { return b + 2 * slip; },
        "P. Adam, Practical Bookbinding, 1903 (its page 31 online)"),
    rule(
        cord_length, From<supports, cord_each, frame_allowance>{}, "Y = u x (y + z_f)",
        [](double u, double each, double frame) { return u * (each + frame); },
        "P. Adam, Practical Bookbinding, 1903 (its page 31 online)"),
    rule(
        holes, From<sections, supports, holes_a_support>{}, "O = n x (u x o + 2)",
        [](double n, double u, double o) { return n * (u * o + 2); },
        "definition: the holes at the supports and two kettle stitches"),
};

}  // namespace

std::span<Rule const> rules_of_sewing() { return table; }

}  // namespace endband
