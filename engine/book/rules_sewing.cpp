// Thread, swell, supports and holes.
#include "engine/book/rules_table.h"

#include <cmath>
#include <numbers>

namespace endband {
namespace {

using enum FigureId;

constexpr std::string_view length_of_thread =
    "geometry: in each pass from kettle stitch to kettle stitch and round every support or link";

// Books that are sewn on something.
constexpr Ways on_supports{Way::raised_cords, Way::recessed_cords, Way::tapes};
constexpr Ways along_supports{Way::all_along, Way::two_on};

constexpr std::array table{
    // g/km over kg/m3 is the thread's cross-section in mm2.
    rule(
        thread_thickness, From<thread_tex, thread_density>{}, "d = 2 x root(tex / (pi x rho_d))",
        [](double tex, double rho) { return 2 * std::sqrt(tex / (std::numbers::pi * rho)); },
        "geometry: a round thread; its density is common practice, no source"),
    when({Way::single, Way::made, Way::leather_joint},
         rule(
             sewn_sections, From<sections>{}, "n_z = n", [](double n) { return n; }, by_definition)),
    when({Way::sewn}, rule(
                          sewn_sections, From<sections, endpapers_each_end>{}, "n_z = n + 2 x v",
                          [](double n, double each) { return n + 2 * each; },
                          "definition: each folded endpaper is sewn as a section")),
    when({Way::all_along, Way::long_stitch},
         rule(
             thread_passes, From<sewn_sections>{}, "P_d = n_z", [](double n) { return n; },
             "definition: one pass through each section, from kettle stitch to kettle stitch")),
    when({Way::two_on},
         rule(
             thread_passes, From<sewn_sections>{}, "P_d = n_z / 2, rounded up",
             [](double n) { return std::ceil(n / 2); }, "definition: two sections share one pass")),
    when({Way::link_stitch},
         rule(
             thread_passes, From<sewn_sections>{}, "P_d = n_z + 2", [](double n) { return n + 2; },
             "the rule that craft pages print, height x (sections + 2): both boards too")),
    when({Way::pamphlet},
         rule(
             thread_passes, From<sewn_sections>{}, "P_d = 2 x n_z", [](double n) { return 2 * n; },
             "geometry: out through the fold and back, with a stitch along either side of it")),
    when({Way::all_along, Way::link_stitch, Way::long_stitch},
         rule(
             thread_layers, From<sewn_sections>{}, "n_d = n_z", [](double n) { return n; },
             "D. W. Jones, Bookbinding: A Tutorial, 1995: as many layers of thread as sections")),
    when({Way::two_on},
         rule(
             thread_layers, From<sewn_sections>{}, "n_d = n_z / 2, rounded up",
             [](double n) { return std::ceil(n / 2); }, "definition: two sections share one pass")),
    when({Way::pamphlet}, rule(
                              thread_layers, From<>{}, "n_d = 0", [] { return 0; },
                              "definition: the one fold is the spine, and its thread lies inside it")),
    rule(
        swell, From<thread_layers, thread_thickness, swell_kept>{}, "S = n_d x d x c",
        [](double n, double d, double c) { return n * d * c; },
        "D. W. Jones, Bookbinding: A Tutorial, 1995: as many layers of thread as sections"),
    rule(
        spine_width, From<block_thickness, swell>{}, "B = T + S", [](double t, double s) { return t + s; },
        geometry),
    // --- the length of it
    when({Way::raised_cords},
         rule(
             support_path, From<support_turns, support_thickness, thread_thickness>{},
             "p_u = w x pi x (d_u + d)",
             [](double w, double support, double d) { return w * std::numbers::pi * (support + d); },
             "geometry: once or more round the cord")),
    when({Way::recessed_cords},
         rule(
             support_path, From<support_thickness, thread_thickness>{}, "p_u = pi / 2 x (d_u + d)",
             [](double support, double d) { return std::numbers::pi / 2 * (support + d); },
             "geometry: over the cord that lies in its kerf, half round it")),
    when({Way::tapes}, rule(
                           support_path, From<support_width>{}, "p_u = b_u", [](double b) { return b; },
                           "geometry: across the tape")),
    when({Way::link_stitch},
         rule(
             link_length, From<spine_width, thread_passes, thread_thickness>{}, "p_l = 2 x B / P_d + pi x d",
             [](double b, double passes, double d) { return 2 * b / passes + std::numbers::pi * d; },
             "geometry: down round the stitch below, and back: over all passes twice the spine's width")),
    when({Way::long_stitch}, rule(
                                 link_length, From<leather_bought>{}, "p_l = t_0", [](double t) { return t; },
                                 "geometry: through the spine of the wrapper")),
    when(on_supports.with(along_supports),
         rule(
             thread_length,
             From<thread_passes, leaf_height, kettle_setback, supports, support_path, stitch_allowance>{},
             "L = P_d x (H - 2 x k_s + u x p_u + a)",
             [](double passes, double h, double k, double u, double path, double a) {
               return passes * (h - 2 * k + u * path + a);
             },
             length_of_thread)),
    when({Way::link_stitch},
         rule(
             thread_length, From<thread_passes, leaf_height, kettle_setback, stations, link_length>{},
             "L = P_d x (H - 2 x k_s + o_s x p_l)",
             [](double passes, double h, double k, double o, double link) {
               return passes * (h - 2 * k + o * link);
             },
             length_of_thread)),
    when({Way::long_stitch},
         rule(
             thread_length,
             From<thread_passes, leaf_height, kettle_setback, stations, link_length, stitch_allowance>{},
             "L = P_d x (H - 2 x k_s + o_s x p_l + a)",
             [](double passes, double h, double k, double o, double passage, double a) {
               return passes * (h - 2 * k + o * passage + a);
             },
             length_of_thread)),
    when({Way::pamphlet},
         rule(
             thread_length, From<thread_passes, leaf_height, kettle_setback, knot_tail>{},
             "L = P_d x (H - 2 x k_s) + 2 x z_k",
             [](double passes, double h, double k, double tail) { return passes * (h - 2 * k) + 2 * tail; },
             "geometry: along the fold and back, and both ends to knot")),
    rule(
        needlefuls, From<thread_length, needle_length, needle_waste>{}, "j = L / (L_n - L_w), rounded up",
        [](double l, double needle, double waste) { return std::ceil(l / (needle - waste)); },
        common_practice),
    rule(
        thread_taken, From<thread_length, needlefuls, needle_waste>{}, "L_t = L + j x L_w",
        [](double l, double j, double waste) { return l + j * waste; }, common_practice),
    // --- supports and holes
    when(on_supports.with({Way::spine_and_slips}),
         rule(
             cord_each, From<spine_width, slip_length>{}, "y = B + 2 x z",
             [](double b, double slip) { return b + 2 * slip; },
             "P. Adam, Practical Bookbinding, 1903 (its page 31 online)")),
    when(on_supports.with({Way::four_thicknesses}),
         rule(
             cord_each, From<block_thickness>{}, "y = 4 x T", [](double t) { return 4 * t; },
             "J. W. Zaehnsdorf, The Art of Bookbinding, 1890, p. 23: about four times the thickness")),
    when(on_supports, rule(
                          cord_length, From<supports, cord_each, frame_allowance>{}, "Y = u x (y + z_f)",
                          [](double u, double each, double frame) { return u * (each + frame); },
                          "P. Adam, Practical Bookbinding, 1903 (its page 31 online)")),
    when(on_supports.with(along_supports),
         rule(
             holes, From<sewn_sections, supports, holes_a_support>{}, "O = n_z x (u x o + 2)",
             [](double n, double u, double o) { return n * (u * o + 2); },
             "definition: the holes at the supports and two kettle stitches")),
    when({Way::link_stitch}, rule(
                                 holes, From<sewn_sections, stations>{}, "O = (n_z + 2) x o_s",
                                 [](double n, double stations) { return (n + 2) * stations; },
                                 "definition: the boards are pierced as the sections are")),
    when({Way::long_stitch, Way::pamphlet},
         rule(
             holes, From<sewn_sections, stations>{}, "O = n_z x o_s",
             [](double n, double stations) { return n * stations; }, by_definition)),
};

}  // namespace

std::span<Rule const> rules_of_sewing() { return table; }

}  // namespace endband
