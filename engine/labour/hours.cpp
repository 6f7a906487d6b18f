#include "engine/labour/hours.h"

#include "engine/labour/seconds.h"

#include <algorithm>
#include <cmath>

namespace endband {
namespace {

double value(Ratio ratio) { return static_cast<double>(ratio.num()) / static_cast<double>(ratio.den()); }

template <class Chosen>
Hours sum_of(Work const& work, Chosen const& chosen) {
  SecondsSum mean;
  Hours hours;
  for (WorkLine const& line : work.lines) {
    if (!chosen(line)) continue;
    mean.add(line.mean_seconds);
    hours.variance += pert_variance(points_of(line));
  }
  hours.mean = mean.total();
  return hours;
}

}  // namespace

// What is learned is rounded, so that the likely time of a line without spread may miss it by a thousandth.
ThreePoints points_of(WorkLine const& line) {
  double const low = value(line.low_seconds);
  double const high = std::max(low, value(line.high_seconds));
  double const likely = (6 * value(line.mean_seconds) - low - high) / 4;
  return {low, std::clamp(likely, low, high), high};
}

double Hours::deviation() const { return std::sqrt(variance); }

double Hours::quantile(double p) const {
  return std::max(0.0, value(mean) + normal_quantile(p) * deviation());
}

double Hours::chance_within(double seconds) const {
  if (variance == 0) return seconds >= value(mean) ? 1 : 0;
  return normal_cdf((seconds - value(mean)) / deviation());
}

Hours hours_of(WorkLine const& line) { return {line.mean_seconds, pert_variance(points_of(line))}; }

Hours hours_of(Work const& work, Part part) {
  return sum_of(work, [part](WorkLine const& line) { return line.part == part; });
}

Hours hours_of(Work const& work) {
  return sum_of(work, [](WorkLine const&) { return true; });
}

double quantile(WorkLine const& line, double p) { return pert_quantile(points_of(line), p); }

}  // namespace endband
