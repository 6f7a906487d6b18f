// The lettering.
#include "engine/book/rules_table.h"

namespace endband {
namespace {

using enum FigureId;

constexpr std::array table{
    when({Way::by_letter}, rule(
                               impressions, From<letters>{}, "n_i = n_l", [](double n) { return n; },
                               "definition: a handle letter is pressed by itself")),
    when({Way::by_line, Way::by_die},
         rule(
             impressions, From<letter_lines>{}, "n_i = n_L", [](double n) { return n; },
             "definition: set type, and a die, are pressed line by line")),
};

}  // namespace

std::span<Rule const> rules_of_lettering() { return table; }

}  // namespace endband
