// The plan of the bench as people follow it: who is at what from when to when.
#pragma once

#include "engine/promise/promise.h"

#include <string>
#include <vector>

namespace endband::cli {

// Hands at one step in one stretch of a day.
struct Stint {
  schedule::Time begin = 0, end = 0;  // seconds from midnight of the plan's first day
  int person = 0, task = 0;
};
std::vector<Stint> stints_of(BenchPlan const& plan, schedule::Time until);  // by time

std::string clock_words(schedule::Time moment);  // "09:30"
std::string day_words(Date date);                // "Monday 2026-11-30"

}  // namespace endband::cli
