// The parcel: the box if there is one, else the book, in its carton.
#include "engine/book/rules_table.h"

#include <algorithm>

namespace endband {
namespace {

using enum FigureId;

// The longest, middle or shortest of three.
double longest(double a, double b, double c) { return std::max({a, b, c}); }
double middle(double a, double b, double c) { return std::max(std::min(a, b), std::min(std::max(a, b), c)); }
double shortest(double a, double b, double c) { return std::min({a, b, c}); }

constexpr std::string_view of_the_carton =
    "definition: outside where the catalogue has the thickness of the carton's wall, else inside";

constexpr std::array table{
    rule(
        parcel_height, From<closed_height, box_height>{}, "Q_h = X_h, or Z_h where that is larger",
        [](double book, double box) { return std::max(book, box); }, by_definition),
    rule(
        parcel_width, From<closed_width, box_width>{}, "Q_w = X_w, or Z_w where that is larger",
        [](double book, double box) { return std::max(book, box); }, by_definition),
    rule(
        parcel_thickness, From<closed_thickness, box_depth>{}, "Q_t = X_t, or Z_d where that is larger",
        [](double book, double box) { return std::max(book, box); }, by_definition),
    rule(
        packed_height, From<carton_height, carton_width, carton_depth, carton_wall>{},
        "Y_h = the longest of N_h, N_w, N_d, + 2 x t_N",
        [](double h, double w, double d, double wall) { return longest(h, w, d) + 2 * wall; }, of_the_carton),
    rule(
        packed_width, From<carton_height, carton_width, carton_depth, carton_wall>{},
        "Y_w = the middle one of N_h, N_w, N_d, + 2 x t_N",
        [](double h, double w, double d, double wall) { return middle(h, w, d) + 2 * wall; }, of_the_carton),
    rule(
        packed_thickness, From<carton_height, carton_width, carton_depth, carton_wall>{},
        "Y_t = the shortest of N_h, N_w, N_d, + 2 x t_N",
        [](double h, double w, double d, double wall) { return shortest(h, w, d) + 2 * wall; },
        of_the_carton),
    rule(
        packed_mass, From<book_mass, box_mass, packing_mass>{}, "m_y = m + m_x + m_N",
        [](double book, double box, double packing) { return book + box + packing; }, by_definition),
};

}  // namespace

std::span<Rule const> rules_of_parcel() { return table; }

}  // namespace endband
