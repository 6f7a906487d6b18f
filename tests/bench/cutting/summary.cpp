#include "tests/bench/cutting/summary.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cutting::bench {
namespace {

constexpr double nearly = 1e-9;

}  // namespace

Json line_of(std::string const& family, std::string const& file, Result const& result) {
  auto const or_null = [](std::optional<double> value) { return value ? Json(*value) : Json(nullptr); };
  Json line{{"family", family}, {"file", file}, {"name", result.name}};
  if (!result.variant.empty()) line["variant"] = result.variant;
  line["outcome"] = result.outcome;
  line[result.greatest ? "value" : "cost"] =
      result.outcome == "planned" ? Json(result.stated) : Json(nullptr);
  line["bound"] = result.bound;
  line["proved"] = result.proved;
  line["ms"] = result.took.wall;
  line["core_ms"] = result.took.cores;
  line["work"] = result.work;
  line["best_known"] = or_null(result.best_known);
  line["gap"] = or_null(result.gap());
  line["valid"] = result.faults.empty();
  if (!result.faults.empty()) line["faults"] = result.faults;
  line.update(result.more);
  line["placements"] = result.placements;
  return line;
}

void Summary::Mean::add(double value) {
  most = count == 0 ? value : std::max(most, value);
  sum += value;
  ++count;
}

void Summary::add(std::string const& name, Result const& result) {
  Family& family = families_[result.variant.empty() ? name : name + " " + result.variant];
  ++family.instances;
  if (result.outcome == "planned") ++family.planned;
  if (result.best_known) ++family.known;
  if (auto const gap = result.gap()) {
    family.excess.add(100 * *gap);
    if (*gap < nearly) ++family.at_best;
  }
  if (result.proved) ++family.proved;
  if (!result.faults.empty()) ++family.invalid;
  family.wall.add(result.took.wall);
  family.cores.add(result.took.cores);
  Json const& more = result.more;
  if (more.value("all_placed", false)) ++family.all_placed;
  if (more.contains("area_share_pct")) family.share.add(more["area_share_pct"].get<double>());
  if (more.contains("fill_pct"))
    (more.value("zones", 0) > 0 ? family.fill_zones : family.fill_plain).add(more["fill_pct"].get<double>());
}

std::string Summary::text_of(std::string const& name, Family const& family) {
  std::string line = fmt::format(
      "{:<52} {:>4} instances, {:>4} planned, {:>4} of {:>4} at best known, {:>4} proved, excess mean "
      "{:6.2f} % max {:6.2f} %, {} invalid, ms mean {:.1f} max {:.1f}, of cores {:.1f} {:.1f}\n",
      name, family.instances, family.planned, family.at_best, family.known, family.proved,
      family.excess.mean(), family.excess.most, family.invalid, family.wall.mean(), family.wall.most,
      family.cores.mean(), family.cores.most);
  if (family.share.count > 0 || family.fill_plain.count + family.fill_zones.count > 0)
    line += fmt::format(
        "{:<52} {:>4} all placed, area share {:.2f} %, fill {:.2f} % without zones ({}), {:.2f} % with "
        "({})\n",
        "", family.all_placed, family.share.mean(), family.fill_plain.mean(), family.fill_plain.count,
        family.fill_zones.mean(), family.fill_zones.count);
  return line;
}

std::string Summary::text() const {
  std::string text;
  for (auto const& [name, family] : families_) text += text_of(name, family);
  for (auto const& [why, count] : skipped_) text += fmt::format("skipped: {} ({})\n", why, count);
  return text;
}

bool Summary::all_valid() const {
  return std::all_of(families_.begin(), families_.end(),
                     [](auto const& family) { return family.second.invalid == 0; });
}

}  // namespace endband::cutting::bench
