// A disk that fails at a given point: SQLite's own VFS with a layer over it, which keeps what was written in
// memory until it is synced, counts the steps that change a file, and at the n-th of them does what a bad
// disk or a power cut does.
//
// It is put in place of the default in a process of its own (see walk.h), before the workshop is opened
// there. What such a process leaves behind is what had been synced when it ended.
#pragma once

#include <cstdint>

namespace endband::faults {

enum class Failure : std::uint8_t {
  full,         // no room from the n-th step on: writes fail, the rest works
  io_error,     // the n-th step fails, once
  dead_disk,    // the n-th step and all after it fail
  power_cut,    // the process ends at the n-th step; what was not synced is lost
  torn_writes,  // the same, but of what was not synced every other write arrived, and half of the last
};

// Step 1 is the first; only writes, syncs, truncations and deletions count. 0: nothing ever fails.
void fail_at(int step, Failure failure);
int steps_so_far();
bool has_failed();

inline constexpr int ended_by_power_cut = 77;  // the exit status of a process that was cut off

// Makes it SQLite's default in this process.
void install();

}  // namespace endband::faults
