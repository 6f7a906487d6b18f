// What comes after what in one order: the engine's own order and the library's, over the operations it has.
#pragma once

#include "engine/book/precedence.h"
#include "engine/labour/labour.h"

#include <array>
#include <bitset>
#include <span>
#include <vector>

namespace endband {

class StepOrder {
 public:
  // `present`: the operations that the order has.
  StepOrder(StepLibrary const& library, std::bitset<operation_count> const& present);

  // The nearest before it that the order has, in the order of the operations.
  std::vector<OperationKind> const& before(OperationKind kind) const;
  // Of each of these, itself where the order has it, else the nearest before it.
  std::vector<OperationKind> nearest(std::span<OperationKind const> kinds) const;

 private:
  using Kinds = std::bitset<operation_count>;
  void collect(OperationKind kind, Kinds& seen, Kinds& found) const;
  void collect_before(OperationKind kind, Kinds& seen, Kinds& found) const;

  StepIndex steps_;
  Kinds present_;
  bool box_alone_;  // a box to build, and no book to press: once that is pressed, nothing of it is left but
                    // the box
  std::array<std::vector<OperationKind>, operation_count> before_;
};

}  // namespace endband
