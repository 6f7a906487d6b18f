// Out of the lots, oldest first: each at its own cost, or at the average of its material.
#include "engine/stock/stock.h"

#include <algorithm>
#include <stdexcept>

namespace endband {

std::int64_t value_of_part(std::int64_t value, std::int64_t quantity, std::int64_t taken) {
  if (value < 0 || taken < 0 || taken > quantity)
    throw std::logic_error("a part is valued of what does not lie there");
  if (taken == quantity) return value;
  return mul_div(value, taken, quantity, Rounding::half_away);
}

std::vector<Posting> take(std::span<LotBalance const> lots, PoolBalance& pool, std::int64_t wanted) {
  if (wanted < 0) throw std::logic_error("less than nothing is taken");
  std::vector<Posting> postings;
  for (LotBalance const& lot : lots) {
    std::int64_t const taken = std::min(lot.quantity, wanted);
    if (taken < 0) throw std::logic_error("a lot holds less than nothing");
    if (taken == 0) continue;
    Posting posting{lot.lot, taken, 0};
    if (lot.costed == Costed::own) {
      posting.value = value_of_part(lot.value, lot.quantity, taken);
    } else {
      posting.value = value_of_part(pool.value, pool.quantity, taken);
      pool.quantity -= posting.quantity;
      pool.value -= posting.value;
    }
    postings.push_back(posting);
    wanted -= taken;
  }
  return postings;
}

}  // namespace endband
