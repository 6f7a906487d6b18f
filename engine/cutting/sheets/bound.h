// What no plan can cost less than; for the .cpp files of this folder only.
#pragma once

#include "engine/cutting/sheets/job.h"

#include <optional>

namespace endband::cutting::many {

// nullopt: proved that all the stock together does not hold the pieces.
std::optional<std::int64_t> bound_of(Job const& job);

}  // namespace endband::cutting::many
