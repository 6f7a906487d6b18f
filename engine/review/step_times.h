// Hours told of steps beside what those steps are timed at now.
#pragma once

#include "engine/labour/labour.h"
#include "engine/review/learned.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace endband {

struct StepTimes {  // of a version of a step that quotes were made with
  std::int64_t version = 0;
  Ratio set_up, each;  // mean seconds
};
// Set-up and count x each; of a line of an operation that another had before it, without the set-up.
Ratio time_of(Ratio set_up, Ratio each, Count count, bool with_set_up);

// Jobs are told by their place in a list of them.
struct ToldStep {
  std::size_t job = 0;
  std::optional<OperationKind> operation;
  std::optional<Part> part;  // exactly one of the two
  Duration time;
};
struct QuotedStep {
  std::size_t job = 0;
  OperationKind operation{};
  Part part{};
  std::int64_t version = 0;
  Count count;
  Ratio seconds;
};

// Hours of one step in each job that told of it.
struct StepSeen {
  OperationKind operation{};
  std::vector<std::size_t> jobs;
  std::vector<Seen> times;  // seconds, in step with `jobs`; believed: quoted, at the times of now
};
struct StepsSeen {
  std::vector<StepSeen> steps;    // by operation
  std::int64_t jobs_by_part = 0;  // told hours of a whole part, which teach no single step
};
// What was quoted counts at today's times: the same count at the step as it is now, so that a step that was
// learned is not learned again. Hours told of a step of a part that was told whole, too, are left out; so is
// what was not quoted, or is not timed now.
StepsSeen steps_seen(std::span<ToldStep const> told, std::span<QuotedStep const> quoted,
                     std::span<StepTimes const> quoted_with, StepLibrary const& now);

}  // namespace endband
