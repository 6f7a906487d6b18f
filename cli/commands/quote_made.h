// Pricing the book of a description as a quote, for all commands that keep one.
#pragma once

#include "cli/commands/described.h"
#include "cli/commands/promised.h"
#include "cli/commands/quote_options.h"
#include "cli/commands/relied_on.h"
#include "cli/document/document.h"
#include "cli/document/json.h"
#include "db/quotes.h"
#include "engine/commission/commission.h"

#include <string>
#include <vector>

namespace endband::cli {

// A quote that was computed and is not kept yet.
struct Computed {
  Asked asked;
  FrozenQuote quote;
  std::vector<std::string> codes;
  Versions relied_on;
  PlanTable new_plans;  // solved for it, to be kept with it
  std::optional<SimulatedWith> simulated;
  std::optional<Promised> promised;
  std::optional<BudgetAnswer> budget;
};
// All that the price follows from is read of one state of the file, and nothing is locked while it is
// computed; then the bench is looked at, for the day to name.
Read<Computed> compute_quote(Context& context, db::Workshop& workshop, Args const& args,
                             std::string const& file);
// The same of a description read already, with what is asked beside it; no day is named.
struct ToCompute {
  Described described;
  Asked asked;
  PlanTable const* known = nullptr;  // plans beside those that the workshop remembers
};
Read<Computed> compute_quote(db::Workshop& workshop, ToCompute book, Date on);
// One changed_meanwhile for each thing that was computed with and no longer holds.
std::vector<Fault> changed_since(Computed const& computed, db::Workshop& workshop, Args const& args, Date on);

// The flags of a quote beside its book; `--customer` where it is new.
std::vector<Flag> asking_flags(bool with_customer);

struct Made {
  db::QuoteHeader header;
  FrozenQuote quote;
  std::optional<Promised> promised;
  bool dry_run = false;
  std::optional<BudgetAnswer> budget = {};
};
Json to_json(Made const& view);
Document to_document(Made const& view);

}  // namespace endband::cli
