// Which draws the spread of the cost comes from. Every draw is independent of the others, so the variance of
// the cost is the sum of theirs:
//   a line   its beta-PERT variance x (rate + overhead)^2
//   spoil    mean x what a piece costs^2 (Poisson)
//   redo     p / (1 - p)^2 x price^2 (geometric)
//   ruin     E[N] Var[X] + Var[N] E[X]^2, N geometric, X the piece and its repeated steps
#include "engine/labour/hours.h"
#include "engine/risk/runs.h"

#include <algorithm>
#include <tuple>

namespace endband::risk {
namespace {

constexpr double seconds_an_hour = 3600;

double square(double x) { return x * x; }

// Minor units a second, overhead too.
double rate_of(WorkLine const& line, Rates const& rates) {
  double const labour =
      line.rate ? static_cast<double>(line.rate->minor) / seconds_an_hour : value(rates.labour);
  return labour + value(rates.overhead);
}

double variance_of(WorkLine const& line, Rates const& rates) {
  return pert_variance(points_of(line)) * square(rate_of(line, rates));
}

double minor(std::int64_t cost) { return static_cast<double>(cost) / static_cast<double>(thousandths); }

double variance_of(RuinModel const& ruin, Work const& work, Rates const& rates) {
  double mean = minor(ruin.piece);
  double variance = 0;
  for (std::uint32_t const step : ruin.again) {
    WorkLine const& line = work.lines[step];
    mean += value(line.mean_seconds) * rate_of(line, rates);
    variance += variance_of(line, rates);
  }
  double const expected = odds(ruin.chance);
  return expected * variance + expected / (1 - ruin.chance) * square(mean);
}

double variance_of(RedoModel const& redo) {
  return odds(redo.chance) / (1 - redo.chance) * square(minor(redo.price));
}

double spoil_variance(BillLine const& line, std::span<Piece const> pieces) {
  Lots const lots = lots_of(line, pieces);
  return lots.mean * square(minor(lots.cost) / static_cast<double>(lots.pieces));
}

}  // namespace

std::vector<RiskDriver> drivers_of(Model const& model, RiskInput const& input) {
  std::vector<RiskDriver> drivers;  // `share` holds the variance until they are all known
  double all = 0;
  auto const add = [&](RiskSource source, std::size_t index, double variance) {
    if (variance <= 0) return;
    drivers.push_back({source, static_cast<int>(index), variance});
    all += variance;
  };
  for (std::size_t i = 0; i < input.work.lines.size(); ++i)
    add(RiskSource::step, i, variance_of(input.work.lines[i], model.rates));
  for (SpoilModel const& spoil : model.spoils)
    add(RiskSource::spoil, spoil.line, spoil_variance(input.bill.lines[spoil.line], input.pieces));
  for (RuinModel const& ruin : model.ruins)
    add(RiskSource::ruin, ruin.line, variance_of(ruin, input.work, model.rates));
  for (RedoModel const& redo : model.redos) add(RiskSource::redo, redo.index, variance_of(redo));
  for (RiskDriver& driver : drivers) driver.share /= all;
  std::stable_sort(drivers.begin(), drivers.end(),
                   [](RiskDriver const& a, RiskDriver const& b) { return a.share > b.share; });
  return drivers;
}

}  // namespace endband::risk
