#include "engine/cutting/sheets/rest.h"

#include "engine/chance/mixed.h"

#include <algorithm>

namespace endband::cutting::many {
namespace {

std::size_t at(std::int64_t i) { return static_cast<std::size_t>(i); }

}  // namespace

std::int64_t Chance::below(std::int64_t n) {
  return static_cast<std::int64_t>(mixed(seed_ ^ mixed(++count_)) % static_cast<std::uint64_t>(n));
}

Rest whole(Job const& job) {
  Rest rest;
  for (Type const& type : job.types) rest.pieces.push_back(type.count);
  for (Kind const& kind : job.kinds) rest.copies.push_back(kind.copies);
  rest.count = job.pieces;
  rest.area = job.area;
  return rest;
}

void take(Rest& rest, Pattern const& pattern, std::int64_t n) {
  for (Use const& use : pattern.uses) {
    rest.pieces[at(use.type)] -= use.count * n;
    rest.count -= use.count * n;
  }
  rest.area -= pattern.area * n;
  rest.copies[at(pattern.kind)] -= n;
}

std::int64_t most_times(Rest const& rest, Pattern const& pattern) {
  std::int64_t n = rest.copies[at(pattern.kind)];
  for (Use const& use : pattern.uses) n = std::min(n, rest.pieces[at(use.type)] / use.count);
  return n;
}

std::int64_t area_cost(Job const& job, std::vector<std::int64_t> const& copies, std::int64_t area) {
  std::int64_t cost = 0;
  for (std::size_t k = 0; k < job.kinds.size() && area > 0; ++k) {
    Kind const& kind = job.kinds[k];
    std::int64_t const full = std::min(copies[k], area / kind.area);
    cost += full * kind.cost;
    area -= full * kind.area;
    if (full == copies[k] || area == 0) continue;
    cost += static_cast<std::int64_t>(static_cast<Wide>(kind.cost) * area / kind.area);
    area = 0;
  }
  return cost;
}

void Pool::add(Pattern const& pattern) {
  constexpr std::size_t most = 6000;
  if (patterns_.size() >= most) return;
  std::uint64_t key = mixed(static_cast<std::uint64_t>(pattern.kind));
  for (Use const& use : pattern.uses)
    key = mixed(key ^ (static_cast<std::uint64_t>(use.type) << 24U) ^ static_cast<std::uint64_t>(use.count));
  if (keys_.insert(key).second) patterns_.push_back(pattern);
}

}  // namespace endband::cutting::many
