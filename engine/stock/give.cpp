// Back from a job to the lots it took from.
#include "engine/stock/stock.h"

#include <algorithm>
#include <stdexcept>

namespace endband {

std::vector<Posting> give_back(std::span<Held const> held_newest_first, std::int64_t quantity) {
  if (quantity < 0) throw std::logic_error("less than nothing is given back");
  std::vector<Posting> postings;
  for (Held const& held : held_newest_first) {
    std::int64_t const given = std::min(held.quantity, quantity);
    if (given < 0) throw std::logic_error("a job holds less than nothing of a lot");
    if (given == 0) continue;
    postings.push_back({held.lot, given, value_of_part(held.value, held.quantity, given)});
    quantity -= given;
  }
  return postings;
}

}  // namespace endband
