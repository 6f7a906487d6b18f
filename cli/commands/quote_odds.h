// A quote made many times over, for the commands that tell its odds and for the price that covers them.
#pragma once

#include "cli/command/args.h"
#include "cli/command/flag.h"
#include "db/workshop.h"
#include "engine/commission/commission.h"
#include "engine/risk/risk.h"

#include <vector>

namespace endband::cli {

// --runs, --seed and --confidence, else the workshop's.
RiskRules risk_rules(Args const& args, db::Workshop& workshop, Date on);
std::vector<Flag> risk_flags();

Read<Risk> odds_of(FrozenQuote const& quote, RiskRules const& rules);

}  // namespace endband::cli
