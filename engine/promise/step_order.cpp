#include "engine/promise/step_order.h"

#include <cstddef>

namespace endband {
namespace {

std::size_t index_of(OperationKind kind) { return static_cast<std::size_t>(kind); }

std::vector<OperationKind> listed(std::bitset<operation_count> const& kinds) {
  std::vector<OperationKind> list;
  for (std::size_t i = 0; i < operation_count; ++i)
    if (kinds[i]) list.push_back(static_cast<OperationKind>(i));
  return list;
}

}  // namespace

StepOrder::StepOrder(StepLibrary const& library, std::bitset<operation_count> const& present)
    : steps_(library),
      present_(present),
      box_alone_(present[index_of(OperationKind::build_box)] &&
                 !present[index_of(OperationKind::final_press)]) {
  for (std::size_t i = 0; i < operation_count; ++i) {
    if (!present_[i]) continue;
    Kinds seen, found;
    collect_before(static_cast<OperationKind>(i), seen, found);
    before_[i] = listed(found);
  }
}

std::vector<OperationKind> const& StepOrder::before(OperationKind kind) const {
  return before_.at(index_of(kind));
}

std::vector<OperationKind> StepOrder::nearest(std::span<OperationKind const> kinds) const {
  Kinds seen, found;
  for (OperationKind const kind : kinds) collect(kind, seen, found);
  return listed(found);
}

void StepOrder::collect(OperationKind kind, Kinds& seen, Kinds& found) const {
  if (seen[index_of(kind)]) return;
  seen.set(index_of(kind));
  if (present_[index_of(kind)])
    found.set(index_of(kind));
  else
    collect_before(kind, seen, found);
}

void StepOrder::collect_before(OperationKind kind, Kinds& seen, Kinds& found) const {
  for (OperationKind const before : box_alone_ ? comes_after_in_a_box_alone(kind) : comes_after(kind))
    collect(before, seen, found);
  if (Step const* const step = steps_.find(kind))
    for (OperationKind const before : step->after) collect(before, seen, found);
}

}  // namespace endband
