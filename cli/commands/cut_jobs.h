// Jobs of which the pieces are cut together, as `job cut` looks at them.
#pragma once

#include "cli/commands/cut_shown.h"
#include "cli/commands/job_seen.h"

#include <optional>
#include <string>
#include <vector>

namespace endband::cli {

struct LotTaken {
  std::string code, mark;
  SoldBy sold_by = SoldBy::piece;
  Amount used, cut_away;
};

struct JobsCut {
  std::vector<db::JobHeader> jobs;
  CutShown shown;
  bool take = false;
  std::vector<LotTaken> taken;
  std::vector<db::LotRow> kept;
  std::vector<std::string> missing;  // why nothing can be taken
  std::optional<ActualCost> cost;    // after it
};

Json to_json(JobsCut const& view);
Document to_document(JobsCut const& view);

// What is to be cut of them, nothing planned yet: the pieces that were agreed on, of materials that the jobs
// have not begun to take. Faults: unknown_code; rule_refused of a job that ended, or where nothing is cut.
Read<JobsCut> jobs_to_cut(Context const& context, db::Workshop& workshop, Args const& args);
// The same of one open job, with the usual work; of a job that cuts nothing it is empty.
Read<CutShown> job_to_cut(db::Workshop& workshop, db::JobHeader const& job, Date on);

}  // namespace endband::cli
