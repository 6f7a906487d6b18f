// Finished jobs as the binder looks back on them: which, how they are told, for several commands.
#pragma once

#include "cli/command/args.h"
#include "cli/command/command.h"
#include "cli/command/context.h"
#include "cli/document/document.h"
#include "cli/document/json.h"
#include "db/past.h"

#include <optional>
#include <string>
#include <vector>

namespace endband::cli {

// --since, --until, --binding, --outlet (own: the workshop itself), --customer.
std::vector<Flag> past_flags();
Read<db::PastFilter> past_filter(db::Workshop& workshop, Args const& args, Date on);

Json past_job_json(PastJob const& job);
Json past_sum_json(PastSum const& sum);
Json ranged_json(Ranged const& ranged);  // thousandths as whole numbers

// For figures and bars only: no sum of money is reckoned with it.
double decimal(Ratio value);
double major(Money money);

// "18.4 %"; empty: there is no price to take it of.
std::string margin_words(std::optional<Ratio> share);
// "+2 h 10 min", "-0 h 20 min"
std::string more_hours(std::int64_t seconds);
// "at the workshop itself", "through gallery"
std::string outlet_words(std::string const& code);
std::string period_words(
    std::vector<PastJob> const& jobs);  // "from 2026-02-02 to 2027-03-30"; by the day they ended

}  // namespace endband::cli
