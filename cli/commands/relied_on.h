// The immutable versions that a quote was computed from, so that it can be said, before it is saved, whether
// another has changed one of them meanwhile.
#pragma once

#include "db/workshop.h"
#include "engine/fault/fault.h"
#include "engine/measure/measure.h"

#include <cstdint>
#include <map>
#include <span>
#include <string>
#include <vector>

namespace endband::cli {

using Versions = std::map<std::string, std::int64_t>;  // "price of goat-green" -> id of the row in force

Versions versions_in_force(db::Workshop& workshop, std::span<std::string const> codes, Date on);

// One changed_meanwhile for each that differs.
std::vector<Fault> changes_since(Versions const& then, Versions const& now);

}  // namespace endband::cli
