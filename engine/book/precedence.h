// What must be done before what: the bench's order of the closed list of operations.
#pragma once

#include "engine/book/operation.h"
#include "engine/book/spec.h"

#include <span>
#include <vector>

namespace endband {

// The operations that come right before this one in a book that has all of them. Where one of them is not
// done, what comes before it stands in for it. Common practice, no source.
std::span<OperationKind const> comes_after(OperationKind kind);
// The same where a box is made alone: there is no book to measure it from, and it is the box that is
// lettered.
std::span<OperationKind const> comes_after_in_a_box_alone(OperationKind kind);

// Where work by other hands stands: after all of `after`, before all of `before`, as far as the book has
// them.
struct OutsideOrder {
  std::span<OperationKind const> after, before;
};
OutsideOrder outside_order(OutsideKind kind);

// Something wet or freshly glued is left behind that must set: a wait of nothing after it deserves a warning.
bool must_set(OperationKind kind);

// `after[k]`: what operation k comes after beside the engine's own order. The first circle found, each coming
// after the one before it and the first after the last; empty: there is none. Throws std::logic_error unless
// it has operation_count rows.
std::vector<OperationKind> circle_in(std::span<std::vector<OperationKind> const> after);

}  // namespace endband
