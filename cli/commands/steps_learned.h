// What past jobs teach of steps, materials and enquiries, and taking it over.
#pragma once

#include "cli/commands/margins_seen.h"
#include "engine/review/lessons.h"

#include <string>
#include <vector>

namespace endband::cli {

struct Learned {
  std::size_t jobs = 0;
  std::int64_t jobs_by_part = 0;
  StepLibrary library;             // in force now
  std::vector<LearnedStep> steps;  // by how many hours they were out in all
  std::vector<LearnedSpoil> materials;
  LearnedEnquiries enquiries;
};

Read<Learned> learn(db::Workshop& workshop, Args const& args, Date on);
// Writes a dated version of each thing that --accept names, and says their names. Faults: unknown_code with
// near.
Read<std::vector<std::string>> accept(db::Writing& writing, Learned const& learned, Args const& args,
                                      Date from);

}  // namespace endband::cli
