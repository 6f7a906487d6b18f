// For the .cpp files of this module only: what they all say of indices, copies, demand, outcome and cost.
#pragma once

#include "engine/cutting/check/check.h"

#include <optional>
#include <span>

namespace endband::cutting {

__extension__ using Wide = __int128;

class Faults {
 public:
  void add(Broken broken, int used = -1, int index = -1) { faults_.push_back({broken, used, index}); }
  void unless(bool right, Broken broken, int used = -1, int index = -1) {
    if (!right) add(broken, used, index);
  }
  std::vector<PlanFault> take() { return std::move(faults_); }

 private:
  std::vector<PlanFault> faults_;
};

template <class Items>
bool has(Items const& items, int index) {
  return index >= 0 && static_cast<std::size_t>(index) < items.size();
}
template <class Items>
auto& at(Items& items, int index) {
  return items[static_cast<std::size_t>(index)];
}

enum class Demand : std::uint8_t { exact, at_most };
template <class Pieces>
void check_demand(Pieces const& pieces, std::span<Wide const> placed, Demand demand, Faults& faults) {
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    bool const right =
        demand == Demand::exact ? placed[i] == pieces[i].copies : placed[i] <= pieces[i].copies;
    faults.unless(right, Broken::demand, -1, static_cast<int>(i));
  }
}

template <class Stock>
void check_copies(Stock const& stock, std::span<Wide const> taken, Faults& faults) {
  for (std::size_t i = 0; i < stock.size(); ++i)
    faults.unless(!stock[i].copies || taken[i] <= *stock[i].copies, Broken::too_many_stock, -1,
                  static_cast<int>(i));
}

// A plan comes without obstacles; no plan comes with nothing used, and says why when it is impossible. True:
// look at the plan.
template <class Used, class Pieces>
bool check_outcome(Answer<Used> const& answer, Pieces const& pieces, Faults& faults) {
  for (Obstacle const& obstacle : answer.obstacles)
    faults.unless(has(pieces, obstacle.piece), Broken::no_such_piece);
  if (answer.outcome == Outcome::planned) {
    faults.unless(answer.obstacles.empty(), Broken::outcome);
    return true;
  }
  faults.unless(answer.used.empty(), Broken::outcome);
  faults.unless(answer.outcome == Outcome::not_found || !answer.obstacles.empty(), Broken::outcome);
  return false;
}

// nullopt: the cost could not be counted.
inline void check_proof(Proof const& proof, std::optional<Wide> cost, Faults& faults) {
  faults.unless(cost && *cost == proof.cost, Broken::cost);
  faults.unless(proof.bound <= proof.cost, Broken::bound);
}

}  // namespace endband::cutting
