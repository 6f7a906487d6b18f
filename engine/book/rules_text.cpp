// Text block, guards and endpapers.
#include "engine/book/rules_table.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace endband {
namespace {

using enum FigureId;

// All that has more sections than one.
constexpr Ways of_sections{Way::all_along, Way::two_on, Way::link_stitch, Way::long_stitch};

// Smaller than any caliper and larger than the error of a quotient of doubles: 0.6 mm is three guards of 0.2.
constexpr double hair = 1e-9;

constexpr std::array table{
    rule(
        sheets, From<pages_wanted, folds>{}, "N = P / (2 x 2^f), rounded up",
        [](double wanted, double f) { return std::ceil(wanted / (2 * std::exp2(f))); }, by_definition),
    when({Way::pamphlet}, rule(
                              sheets_per_section, From<sheets>{}, "s = N", [](double n) { return n; },
                              "definition: sewn through one fold")),
    when(of_sections, rule(
                          sections, From<sheets, sheets_per_section>{}, "n = N / s, rounded up",
                          [](double n, double s) { return std::ceil(n / s); }, by_definition)),
    when({Way::pamphlet},
         rule(
             sections, From<>{}, "n = 1", [] { return 1; }, "definition: sewn through one fold")),
    rule(
        last_section_sheets, From<sheets, sheets_per_section, sections>{}, "s_last = N - (n - 1) x s",
        [](double all, double s, double n) { return all - (n - 1) * s; }, by_definition),
    rule(
        leaves, From<sheets, folds>{}, "l = N x 2^f", [](double n, double f) { return n * std::exp2(f); },
        "Arts and Crafts Magazine, 'Articles on Book Binding', part 3"),
    rule(
        pages, From<leaves>{}, "p = 2 x l", [](double l) { return 2 * l; },
        "Arts and Crafts Magazine, 'Articles on Book Binding', part 3"),
    // A sheet of f folds lies in its section as 2^(f - 1) folios, one in another. Each folio goes round those
    // inside it: half a circle of their thickness, half of which shows at the fore-edge.
    rule(
        creep, From<sheets_per_section, folds, leaf_caliper>{}, "e = (s x 2^(f - 1) - 1) x q x pi / 2",
        [](double s, double f, double q) { return (s * std::exp2(f - 1) - 1) * q * std::numbers::pi / 2; },
        geometry),
    rule(
        section_thickness, From<sheets_per_section, folds, leaf_caliper>{}, "t_n = s x 2^f x q",
        [](double s, double f, double q) { return s * std::exp2(f) * q; }, geometry),
    // The last fold is the spine's, so going back from the leaf the width doubles first, then height and
    // width in turn.
    rule(
        sheet_height, From<leaf_height, head_tail_trim, folds>{},
        "F_h = (H + 2 x tr_h) x 2^(f / 2), the power rounded down",
        [](double h, double trim, double f) { return (h + 2 * trim) * std::exp2(std::floor(f / 2)); },
        geometry),
    rule(
        sheet_width, From<leaf_width, fore_edge_trim, folds>{},
        "F_w = (W + tr_f) x 2^(f / 2), the power rounded up",
        [](double w, double trim, double f) { return (w + trim) * std::exp2(std::ceil(f / 2)); }, geometry),
    // As many guards as are as thick together as what is mounted, so that spine and fore-edge are level.
    rule(
        guards_a_leaf, From<mounted_thickness, guard_caliper>{}, "g_l = T_m / q_g, rounded up",
        [](double mounted, double q) { return std::ceil(mounted / q - hair); }, geometry),
    rule(
        guards, From<leaves, guards_a_leaf>{}, "n_w = l x g_l",
        [](double l, double each) { return l * each; }, by_definition),
    rule(
        guard_thickness, From<guards, guard_caliper, compression>{}, "T_w = n_w x q_g x k",
        [](double n, double q, double k) { return n * q * k; }, geometry),
    when({Way::laced, Way::cased, Way::sewn_on},
         rule(
             pastedowns, From<>{}, "l_p = 2", [] { return 2; }, "definition: one for each board")),
    when({Way::no_boards},
         rule(
             pastedowns, From<>{}, "l_p = 0", [] { return 0; }, "definition: one for each board")),
    rule(
        free_endpaper_leaves, From<endpapers_each_end, pastedowns>{},
        "l_v = 4 x v - l_p; none without endpapers",
        [](double each, double down) { return std::max(0.0, 4 * each - down); },
        "definition: a folded endpaper is two leaves; one at each board is pasted down"),
    rule(
        endpaper_thickness, From<free_endpaper_leaves, endpaper_caliper>{}, "T_v = l_v x q_v",
        [](double l, double q) { return l * q; }, geometry),
    rule(
        block_thickness, From<leaves, leaf_caliper, compression, guard_thickness, endpaper_thickness>{},
        "T = l x q x k + T_w + T_v",
        [](double l, double q, double k, double of_guards, double endpapers) {
          return l * q * k + of_guards + endpapers;
        },
        "ISO 534: bulking thickness of the leaves; what pressing keeps is common practice, no source"),
    rule(
        block_density, From<leaves, leaf_grammage, block_thickness, endpaper_thickness>{},
        "rho_T = l x g / (T - T_v)",
        [](double l, double g, double t, double endpapers) { return l * g / (t - endpapers); },
        by_definition),
    rule(
        block_mass, From<leaf_height, leaf_width, block_thickness, endpaper_thickness, block_density>{},
        "m_T = H x W x (T - T_v) x rho_T",
        [](double h, double w, double t, double endpapers, double rho) {
          return h * w * (t - endpapers) * rho * 1e-6;
        },
        by_definition),
    rule(
        endpapers_mass, From<endpapers_each_end, leaf_height, leaf_width, endpaper_grammage>{},
        "m_v = 4 x v x H x W x g_v",
        [](double each, double h, double w, double g) { return 4 * each * h * w * g * 1e-6; },
        "ISO 536: grammage is mass for area"),
};

}  // namespace

std::span<Rule const> rules_of_text() { return table; }

}  // namespace endband
