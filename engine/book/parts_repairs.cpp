// What is mended of a block or a binding that the customer brings, and taking it in.
#include "engine/book/making.h"

namespace endband {

using enum FigureId;

namespace {

void repair(Making& making, std::size_t row) {
  Repair const& of = making.spec.repairs[row];
  auto const said_or = [&](FigureId all, double share = 1) {
    return of.count ? *of.count : making[all] * share;
  };
  switch (of.kind) {
    case RepairKind::collate: return making.operation(OperationKind::collate_block, said_or(leaves));
    case RepairKind::clean: return making.operation(OperationKind::clean_leaves, said_or(leaves));
    case RepairKind::pull: return making.operation(OperationKind::pull_block, said_or(sections));
    case RepairKind::guard:
      return making.operation(OperationKind::guard_folds, said_or(leaves, 0.5));  // two leaves a fold
    case RepairKind::mend: return making.operation(OperationKind::mend_leaves, of.count.value());
    case RepairKind::resew: return;  // it is how this block is sewn
    case RepairKind::reback: return making.operation(OperationKind::reback_book, 1);
    case RepairKind::other:
      making.book.operations.push_back(Operation{.kind = OperationKind::other_repair,
                                                 .part = Part::repairs,
                                                 .count = Count{1000 * of.count.value_or(1)},
                                                 .extra = static_cast<int>(row)});
  }
}

}  // namespace

void make_repairs(Making& making) {
  for (std::size_t i = 0; i < making.spec.repairs.size(); ++i) repair(making, i);
  bool const brought =
      !making.spec.custody.empty() || (making.spec.has(Part::text_block) && making[block_given] != 0);
  making.operation(OperationKind::receive_custody, brought ? 1 : 0);
}

}  // namespace endband
