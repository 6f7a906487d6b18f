// Past commissions out of a notebook: each priced as of its day, then kept as quote, job, hours and sale.
#pragma once

#include "cli/commands/quote_made.h"
#include "db/jobs.h"
#include "engine/review/past_text.h"

#include <optional>
#include <string>
#include <vector>

namespace endband::cli {

// One that was computed and is not kept yet.
struct PastComputed {
  PastCommission said;
  Computed computed;
  std::vector<Amount> spoiled;  // of said.spoiled, in its order
};

// Nothing is locked meanwhile: importing changes nothing that a price follows from. `folder`: where
// descriptions are looked for. Faults of all commissions at once, at their place in the text or in the
// description.
Read<std::vector<PastComputed>> compute_past(Context& context, db::Workshop& workshop, PastText const& past,
                                             std::string const& folder);

struct PastKept {
  db::QuoteHeader quote;
  std::optional<db::JobHeader> job;  // as it is now
};
// Materials are received for the job alone, at what they cost on the day it was accepted, and taken as
// quoted.
Read<std::vector<PastKept>> keep_past(db::Writing& writing, PastText const& past,
                                      std::vector<PastComputed> const& computed);

}  // namespace endband::cli
