// What else the book might be: alternatives of a description, each priced by computing the whole book anew;
// and the changes that bring a quote under a budget.
#pragma once

#include "engine/description/description.h"
#include "engine/money/money.h"

#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace endband {

// [[options]] of a description. `change` is "key = value; key = value" in the keys of a description, a value
// as a description has it or without quotes.
struct Option {
  std::string words;   // as the buyer reads it: "in half leather"
  std::string either;  // of all options that bear the same word only one can be taken; empty: by itself
  std::vector<Entry> changes;  // where: that of the option
  Where where;
};
// In the order of the file. Faults: missing_key, unknown_key with near, bad_value and all that a value of its
// key can be, contradiction (a change of a key of a repeated table, of an option, of the quote or of the
// form; of one key twice).
Read<std::vector<Option>> options_of(BookText const& said, std::span<KeyRow const> keys);

// The description as it would be with these options: a change replaces what was said of its key, and of keys
// that say the same in another way (a leather is a cover's material; sheets are pages). A later change of the
// same key wins. What `without` names is added to what the book does without, and nothing more is said of it.
// A change may name another model: what it supplies is to be read anew. Throws std::logic_error for two that
// bear the same `either`.
BookText with_options(BookText const& said, std::span<Option const* const> taken);

// Options between which one chooses, in the order of the file: those that bear the same word, or one alone.
using OptionGroup = std::vector<Option const*>;
std::vector<OptionGroup> groups_of(std::span<Option const> options);  // which must outlive them

// What is given up or taken: the choices of one group. 0: as it is; else the n-th alternative of the group.
using Choices = std::vector<int>;
std::vector<Option const*> taken_of(std::span<OptionGroup const> groups, Choices const& choices);

struct Outcome {
  Money total;  // to pay
  Money left;   // for the maker
  // The two as they would be if any price could be asked: price points blur the differences by which larger
  // sets are ranked. None: as above.
  std::optional<Money> any_total = {}, any_left = {};
};
// Prices one set of choices in full; nothing: the book cannot be made so.
using PriceChoices = std::function<std::optional<Outcome>(Choices const&)>;

struct WithinBudget {
  Choices choices;
  int changes = 0;
  Outcome outcome;
};
// Sets come in the order of their changes: those that change the first group before those that do not, its
// first alternative before its second.
struct BudgetSearch {
  Outcome as_it_is;
  // Each of its changes is needed. Fewest changes, then most left, then the first in order; at most `shown`.
  std::vector<WithinBudget> found;
  std::optional<WithinBudget> nearest;  // where none is within: the least total that was priced
  std::int64_t priced = 0;              // sets priced in full, as it is too
  std::int64_t possible = 0;  // sets there are, as it is too; the greatest number where they are more
  // No set of as few changes as the first found, and where none was found no set at all, went unpriced.
  bool all_priced = true;
  // False: `work` ended before all larger sets of the sizes gone through were ranked.
  bool all_looked_at = true;
};
struct BudgetLimits {
  std::int64_t larger = 2000;  // sets of three changes or more that are priced in full
  int shown = 5;
  std::int64_t work = 10'000'000;  // sets, and beginnings of sets, that are looked at to rank larger ones
};
// `alternatives[g]`: how many there are of group g. What is within as it is needs no change. Else singles and
// pairs are all priced. Only where none of them is within, larger sets, fewest changes first: all of them
// where they are no more than `larger`; else of each size those of which the best is expected, total and left
// being foretold by the differences that singles and pairs make, which is exact unless three changes have a
// say together, or price points have. A pair that cannot be made is then taken to be none of any larger set.
// The search ends with the first size at which a set is within. Nothing is found that was not priced. Throws
// std::logic_error for a book that cannot be made as it is, or groups of fewer than no alternatives;
// Overflow.
BudgetSearch within_budget(std::span<int const> alternatives, Money budget, PriceChoices const& price,
                           BudgetLimits limits = {});

}  // namespace endband
