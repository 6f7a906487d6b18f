// Sprinkled and gilt edges.
#include "engine/book/making.h"

#include <algorithm>

namespace endband {

using enum FigureId;

namespace {

// Edges that another workshop gilds take nothing here.
bool gilt_elsewhere(BookSpec const& spec) {
  return std::any_of(spec.outside.begin(), spec.outside.end(),
                     [](OutsideWork const& work) { return work.kind == OutsideKind::edge_gilding; });
}

// One run of leaf along each edge, as wide as the block is thick; the lap lies over at both sides.
void gild(Making& making) {
  double const thickness = making[block_thickness];
  double const done = making[edges_done];
  making.strips(Item::leaf_edges, Part::edges, thickness, making[leaf_width], done >= 3 ? 2 : 1, 1);
  if (done >= 2) making.strips(Item::leaf_edges, Part::edges, thickness, making[leaf_height], 1, 1);
  making.spread(Item::leaf_size, Part::edges, Role::leaf_size, making[edges_area]);
  making.operation(OperationKind::gild_edges, done);
}

}  // namespace

void make_edges(Making& making) {
  if (!making.spec.has(Part::edges)) return;
  if (making.spec.ways.has(Way::sprinkled)) {
    making.spread(Item::edge_colour, Part::edges, Role::edge_colour, making[edges_area]);
    making.operation(OperationKind::sprinkle_edges, making[edges_done]);
  } else if (making.spec.ways.has(Way::gilt) && !gilt_elsewhere(making.spec)) {
    gild(making);
  }
}

}  // namespace endband
