#include "engine/job/heads.h"

#include <algorithm>
#include <stdexcept>

namespace endband {
namespace {

bool was_taken(JobRecord const& record, MaterialId material) {
  Holding const* const holding = holding_of(record, material);
  return holding != nullptr &&
         (holding->used != 0 || holding->cut_away != 0 || holding->spoiled != 0 || holding->kept != 0);
}

bool is_without(JobRecord const& record, MaterialId material) {
  return std::find(record.without.begin(), record.without.end(), material) != record.without.end();
}

bool is_billed(JobRecord const& record, Outside const& outside) {
  return std::any_of(record.billed.begin(), record.billed.end(),
                     [&](Billed const& bill) { return same_words(bill.words, outside.words); });
}

std::string const& code_of(FrozenQuote const& quote, MaterialId id) {
  for (Material const& material : quote.materials)
    if (material.id == id) return material.code;
  throw std::logic_error("a bill of a material that the quote does not have");
}

}  // namespace

std::vector<StillOpen> still_open(FrozenQuote const& agreed, JobRecord const& record) {
  std::vector<StillOpen> open;
  for (Gate const& gate : record.gates) open.push_back({OpenPoint::gate, gate.name});
  for (BillLine const& line : agreed.bill.lines)
    if (!line.customer_supplied && needed(line).n > 0 && !was_taken(record, line.material) &&
        !is_without(record, line.material))
      open.push_back({OpenPoint::material, code_of(agreed, line.material)});
  bool const worked = std::any_of(record.worked.begin(), record.worked.end(),
                                  [](Worked const& each) { return each.time.n > 0; });
  if (!worked && agreed.work.mean_seconds() > Ratio(0)) open.push_back({OpenPoint::no_time, ""});
  for (Outside const& outside : agreed.outside)
    if (!is_billed(record, outside)) open.push_back({OpenPoint::outside, outside.words});
  if (record.custody_here) open.push_back({OpenPoint::custody, ""});
  return open;
}

}  // namespace endband
