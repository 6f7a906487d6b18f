// Structures of nothing but operations, and steps in seconds, for the tests of work.
#pragma once

#include "engine/labour/labour.h"

#include <utility>
#include <vector>

namespace endband::testing {

inline Spread3 spread(std::int64_t low, std::int64_t likely, std::int64_t high) {
  return {Duration{low}, Duration{likely}, Duration{high}};
}

inline Step step(OperationKind kind, Spread3 const& set_up, Spread3 const& each) {
  Step step;
  step.version = 7;
  step.kind = kind;
  step.set_up = set_up;
  step.each = each;
  return step;
}

inline Operation operation(OperationKind kind, std::int64_t count_thousandths, Part part = Part::sewing) {
  Operation operation;
  operation.kind = kind;
  operation.part = part;
  operation.count = {count_thousandths};
  return operation;
}

inline Structure structure_of(std::vector<Operation> operations) {
  Structure structure;
  structure.operations = std::move(operations);
  return structure;
}

}  // namespace endband::testing
