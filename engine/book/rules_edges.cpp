// Sprinkled and gilt edges.
#include "engine/book/rules_table.h"

namespace endband {
namespace {

using enum FigureId;

constexpr Ways done_edges{Way::sprinkled, Way::gilt};

constexpr std::array table{
    when(done_edges, rule(
                         edges_done, From<>{}, "n_x = 3", [] { return 3.0; },
                         "common practice, no source: head, fore-edge and tail, unless another count is "
                         "said")),
    when(done_edges, rule(
                         edge_length, From<edges_done, leaf_height, leaf_width>{},
                         "L_x = 2 x W + H when n_x is 3, W + H when it is 2, W when it is 1",
                         [](double n, double h, double w) { return n >= 3   ? 2 * w + h
                                                                   : n >= 2 ? w + h
                                                                            : w; },
                         "geometry: the head comes first, then the fore-edge, then the tail")),
    when(done_edges, rule(
                         edges_area, From<edge_length, block_thickness>{}, "A_x = L_x x T",
                         [](double length, double thickness) { return length * thickness; }, geometry)),
};

}  // namespace

std::span<Rule const> rules_of_edges() { return table; }

}  // namespace endband
