#include "engine/job/heads.h"

#include <algorithm>

namespace endband {

std::vector<MaterialBeside> materials_beside(FrozenQuote const& agreed, JobRecord const& record) {
  Money const none{0, agreed.shop.currency};
  std::vector<MaterialBeside> rows;
  for (BillLine const& line : agreed.bill.lines) {
    MaterialBeside& row = rows.emplace_back();
    row.material = line.material;
    row.quoted = line.charged;
    row.quoted_cost = line.customer_supplied ? none : material_cost(line);
    Holding const* const holding = holding_of(record, line.material);
    row.taken = {line.charged.dimension, holding == nullptr ? 0 : holding->quantity()};
    row.taken_value = holding == nullptr ? none : holding->value;
  }
  for (Holding const& holding : record.taken)
    if (line_of(agreed.bill, holding.material) == nullptr)
      rows.push_back({holding.material,
                      {holding.dimension, 0},
                      none,
                      {holding.dimension, holding.quantity()},
                      holding.value});
  return rows;
}

std::vector<WorkBeside> work_beside(FrozenQuote const& agreed, JobRecord const& record) {
  Heads const heads(record.worked);
  std::vector<WorkBeside> rows;
  Ratio sum;
  std::int64_t shown = 0;  // differences of the rounded sums: they sum to the rounded whole
  for (HeadTimes const& times : times_by_head(heads, agreed.work, record.worked)) {
    sum = sum + times.quoted.total();
    std::int64_t const upto = round(sum, Rounding::half_away);
    rows.push_back({times.head.operation, times.head.part, {upto - shown}, {times.worked}});
    shown = upto;
  }
  return rows;
}

}  // namespace endband
