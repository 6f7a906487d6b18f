// A sheet cut anew so that what is left lies together, and the least of a roll that will do; for the .cpp
// files of this folder only.
#pragma once

#include "engine/cutting/sheets/search.h"

namespace endband::cutting::many {

// The pieces laid within a width x height that is as low (`across`) or as narrow as was found. Rectangle 0 is
// that rectangle; nothing where they were not laid at all.
struct Tight {
  std::vector<Step> steps;
  std::int64_t width = 0, height = 0;
};
std::optional<Tight> tightest(Job const& job, Filler& filler, std::int64_t width, std::int64_t height,
                              bool across, std::span<std::int64_t const> left, int beam);

// The same pieces on the same sheet for less, or with a larger rectangle kept; never worse.
void shape(Job const& job, Filler& filler, Pattern& pattern, int beam);

// All that rests, off rolls: lengths torn off until nothing rests. Nothing where that costs `below` or more,
// or fails. About `most_work` is spent on each roll, and added to `work`.
std::optional<std::vector<Planned>> off_rolls(Job const& job, Filler& filler, Rest const& rest,
                                              std::int64_t below, std::int64_t most_work, std::int64_t& work);

}  // namespace endband::cutting::many
