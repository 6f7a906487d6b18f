#include "engine/commission/commission.h"

#include <utility>

namespace endband {
namespace {

template <class T>
void collect(std::vector<Fault>& faults, Read<T>& read) {
  if (!read)
    for (Fault& fault : read.error()) faults.push_back(std::move(fault));
}

}  // namespace

// What the bill and the work refuse is told together; neither needs the other.
Read<Priced> price(Commission const& commission) try {
  Priced priced;
  priced.structure = structure(commission.book, commission.catalogue);
  priced.needs = quantities(priced.structure, commission.book, commission.catalogue);
  Read<Bill> bill = settle(priced.needs, commission.book, commission.catalogue);
  Read<Work> work = work_for(priced.structure, commission.book, commission.steps, commission.work);
  if (!bill || !work) {
    std::vector<Fault> faults;
    collect(faults, bill);
    collect(faults, work);
    return tl::unexpected(std::move(faults));
  }
  priced.bill = std::move(*bill);
  priced.work = std::move(*work);
  priced.sheet = cost(priced.bill, priced.work, commission.outside, commission.shop);
  Read<Offer> offered =
      offer(priced.sheet, commission.delivery, commission.selling, commission.goal, commission.shop);
  if (!offered) return tl::unexpected(std::move(offered.error()));
  priced.offer = std::move(*offered);
  return priced;
} catch (Overflow const&) {
  return refuse({FaultCode::too_large,
                 Where{{}, 0, 0, "book"},
                 "",
                 "a book whose costs fit in the range of money",
                 {}});
}

}  // namespace endband
