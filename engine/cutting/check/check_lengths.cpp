#include "engine/cutting/check/faults.h"

namespace endband::cutting {
namespace {

void check_roll(LengthRequest const& request, CutRoll const& cut, int used, Faults& faults) {
  Wide taken = 0;
  Wide pieces = 0;
  for (std::size_t i = 0; i < cut.counts.size(); ++i) {
    faults.unless(cut.counts[i] >= 0, Broken::counts, used, static_cast<int>(i));
    pieces += cut.counts[i];
    taken += Wide{cut.counts[i]} * (Wide{request.pieces[i].length} + request.kerf);
  }
  faults.unless(pieces > 0, Broken::counts, used);
  if (has(request.rolls, cut.roll) && pieces > 0)
    faults.unless(taken - request.kerf <= at(request.rolls, cut.roll).length, Broken::too_long, used);
}

}  // namespace

std::vector<PlanFault> check(LengthRequest const& request, Answer<CutRoll> const& answer) {
  Faults faults;
  if (!check_outcome(answer, request.pieces, faults)) return faults.take();
  std::vector<Wide> taken(request.rolls.size(), 0);
  std::vector<Wide> placed(request.pieces.size(), 0);
  Wide cost = 0;
  for (std::size_t u = 0; u < answer.used.size(); ++u) {
    CutRoll const& cut = answer.used[u];
    int const used = static_cast<int>(u);
    faults.unless(cut.times > 0, Broken::times, used);
    if (has(request.rolls, cut.roll)) {
      at(taken, cut.roll) += cut.times;
      cost += Wide{at(request.rolls, cut.roll).cost} * cut.times;
    } else {
      faults.add(Broken::no_such_stock, used);
    }
    if (cut.counts.size() != request.pieces.size()) {
      faults.add(Broken::counts, used);
      continue;
    }
    for (std::size_t i = 0; i < placed.size(); ++i) placed[i] += Wide{cut.counts[i]} * cut.times;
    check_roll(request, cut, used, faults);
  }
  check_copies(request.rolls, taken, faults);
  check_demand(request.pieces, placed, Demand::exact, faults);
  check_proof(answer.proof, cost, faults);
  return faults.take();
}

}  // namespace endband::cutting
