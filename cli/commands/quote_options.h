// A description's options, each priced by computing the whole book anew, and the changes that bring a quote
// under a budget.
#pragma once

#include "cli/commands/described.h"
#include "cli/document/document.h"
#include "cli/document/json.h"
#include "engine/commission/options.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace endband::cli {

// The options of a description, with the materials of all of them.
struct OptionBooks {
  Described base;
  std::vector<Option> options;
  Catalogue catalogue;
  std::vector<std::string> codes;
};
// Within the transaction that the description was read in. Each option must make a book by itself; what one
// lacks is told where it stands.
Read<OptionBooks> option_books(db::Workshop& workshop, Described const& base, Date on);

// Differences from `asked_for`, of which `base` is the commission. New plans are added to `plans`.
Read<std::vector<OptionPrice>> price_options(OptionBooks const& books, Commission const& base,
                                             Asked const& asked, Priced const& asked_for, PlanTable& plans);

struct BudgetSet {
  std::vector<std::string> words;  // of the options taken
  Money total, left;
};
struct BudgetAnswer {
  Money budget, total, left;    // as it is
  std::vector<BudgetSet> sets;  // each priced in full, with its cutting plans
  std::optional<BudgetSet> nearest;
  std::int64_t priced = 0, possible = 0;
  bool all_priced = true;
};
BudgetAnswer within(Money budget, OptionBooks const& books, Commission const& base, Asked const& asked);

Json budget_json(std::optional<BudgetAnswer> const& answer);
void add_budget(Document& document, std::optional<BudgetAnswer> const& answer);

Json options_json(std::span<OptionPrice const> options);
void add_options(Document& document, std::span<OptionPrice const> options);

}  // namespace endband::cli
