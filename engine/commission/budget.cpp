// Sets of changes by how many they change: none, one and two in full, larger ones by what is expected.
#include "engine/commission/foretold.h"
#include "engine/commission/options.h"

#include <algorithm>
#include <limits>
#include <numeric>
#include <set>
#include <stdexcept>
#include <utility>

namespace endband {
namespace {

constexpr std::int64_t greatest = std::numeric_limits<std::int64_t>::max();
constexpr std::int64_t nothing_within = std::numeric_limits<std::int64_t>::min();

// Of what is too many to count the greatest number stands.
std::int64_t sum_at_most(std::int64_t a, std::int64_t b) { return a > greatest - b ? greatest : a + b; }
std::int64_t product_at_most(std::int64_t a, std::int64_t b) {
  return b != 0 && a > greatest / b ? greatest : a * b;
}

// How many sets there are of no change, of one, and so on.
std::vector<std::int64_t> sets_by_size(std::span<int const> alternatives) {
  std::vector<std::int64_t> sets{1};
  for (int const many : alternatives) {
    if (many < 0) throw std::logic_error("a group of fewer than no alternatives");
    if (many == 0) continue;
    sets.push_back(0);
    for (std::size_t size = sets.size() - 1; size > 0; --size)
      sets[size] = sum_at_most(sets[size], product_at_most(sets[size - 1], many));
  }
  return sets;
}

class BudgetSearching {
 public:
  BudgetSearching(std::span<int const> alternatives, Money budget, PriceChoices const& price,
                  BudgetLimits limits)
      : alternatives_(alternatives),
        budget_(budget),
        price_(price),
        limits_(limits),
        sets_(sets_by_size(alternatives)),
        priced_(sets_.size(), 0),
        choices_(alternatives.size(), 0) {}

  BudgetSearch search() {
    for (std::int64_t const sets : sets_) result_.possible = sum_at_most(result_.possible, sets);
    price_as_it_is();
    if (result_.found.empty()) price_few();
    if (result_.found.empty()) price_larger();
    finish();
    return std::move(result_);
  }

 private:
  std::size_t largest() const { return sets_.size() - 1; }

  void price_as_it_is() {
    auto const outcome = priced(choices_);
    if (!outcome) throw std::logic_error("a book that cannot be made as it is");
    result_.as_it_is = *outcome;
  }

  void price_few() {
    Differences differences(alternatives_, result_.as_it_is);
    for (std::size_t size = 1; size <= std::min<std::size_t>(2, largest()); ++size)
      each_of(size, 0, [&] { differences.tell(choices_, priced(choices_)); });
    leave_out_needless();
    differences_ = std::move(differences);
  }

  // Where one change is enough, a pair that holds it has one that is not needed.
  void leave_out_needless() {
    auto const holds = [](WithinBudget const& pair, WithinBudget const& single) {
      for (std::size_t group = 0; group < single.choices.size(); ++group)
        if (single.choices[group] != 0) return pair.choices[group] == single.choices[group];
      return false;
    };
    std::vector<WithinBudget> singles;
    for (WithinBudget const& set : result_.found)
      if (set.changes == 1) singles.push_back(set);
    std::erase_if(result_.found, [&](WithinBudget const& set) {
      return set.changes == 2 && std::any_of(singles.begin(), singles.end(),
                                             [&](WithinBudget const& single) { return holds(set, single); });
    });
  }

  void price_larger() {
    std::int64_t beyond = 0;
    for (std::size_t size = 3; size <= largest(); ++size) beyond = sum_at_most(beyond, sets_[size]);
    for (std::size_t size = 3; size <= largest() && result_.found.empty(); ++size)
      if (beyond <= limits_.larger)
        each_of(size, 0, [&] { priced(choices_); });
      else
        price_best_expected(size);
  }

  // Each size has its share of what may still be priced; one at which a set is found within is the last, and
  // has all of it. What is foretold is not certain: where more are expected within than can be tried, half of
  // the share goes to the least totals.
  void price_best_expected(std::size_t size) {
    auto const sizes = static_cast<std::int64_t>(largest() - size + 1);
    auto const share = static_cast<std::size_t>((may_still_be_priced() + sizes - 1) / sizes);
    auto const all = static_cast<std::size_t>(may_still_be_priced());
    Ranked const best = ranked(size, budget_.minor, all);
    std::set<Choices> tried;
    if (best.within > share) {
      price_some(best.sets, share - share / 2, tried);
      price_some(ranked(size, nothing_within, share).sets, share, tried);
    }
    price_some(best.sets, share, tried);
    if (!result_.found.empty()) price_some(best.sets, all, tried);
  }

  void price_some(std::span<Choices const> sets, std::size_t most, std::set<Choices>& tried) {
    for (Choices const& choices : sets) {
      if (tried.size() >= most) return;
      if (tried.insert(choices).second) priced(choices);
    }
  }

  std::int64_t may_still_be_priced() const {
    std::int64_t const larger = std::accumulate(priced_.begin() + 3, priced_.end(), std::int64_t{0});
    return std::max<std::int64_t>(0, limits_.larger - larger);
  }

  Ranked ranked(std::size_t size, std::int64_t budget, std::size_t most) {
    auto const sizes = static_cast<std::int64_t>(largest() - size + 1);
    std::int64_t const work = std::max<std::int64_t>(0, limits_.work - looked_at_);
    Ranked best =
        best_expected(*differences_, static_cast<int>(size), budget, most, (work + sizes - 1) / sizes);
    looked_at_ += best.looked_at;
    result_.all_looked_at = result_.all_looked_at && best.all;
    return best;
  }

  // Every set of so many changes of the groups from one on, in order, beside those that stand in `choices_`.
  template <class Visit>
  void each_of(std::size_t changes, std::size_t from, Visit const& visit) {
    if (changes == 0) return visit();
    for (std::size_t group = from; group < alternatives_.size(); ++group) {
      for (int alternative = 1; alternative <= alternatives_[group]; ++alternative) {
        choices_[group] = alternative;
        each_of(changes - 1, group + 1, visit);
      }
      choices_[group] = 0;
    }
  }

  std::optional<Outcome> priced(Choices const& choices) {
    auto const outcome = price_(choices);
    auto const changes =
        std::count_if(choices.begin(), choices.end(), [](int choice) { return choice != 0; });
    ++result_.priced;
    ++priced_[static_cast<std::size_t>(changes)];
    if (!outcome) return outcome;
    WithinBudget set{choices, static_cast<int>(changes), *outcome};
    if (!result_.nearest || nearer(set, *result_.nearest)) result_.nearest = set;
    if (outcome->total <= budget_) result_.found.push_back(std::move(set));
    return outcome;
  }

  static bool nearer(WithinBudget const& a, WithinBudget const& b) {
    if (a.outcome.total != b.outcome.total) return a.outcome.total < b.outcome.total;
    return a.changes != b.changes ? a.changes < b.changes : comes_first(a.choices, b.choices);
  }

  static bool better(WithinBudget const& a, WithinBudget const& b) {
    if (a.changes != b.changes) return a.changes < b.changes;
    if (a.outcome.left != b.outcome.left) return a.outcome.left > b.outcome.left;
    return comes_first(a.choices, b.choices);
  }

  void finish() {
    std::vector<WithinBudget>& found = result_.found;
    std::sort(found.begin(), found.end(), better);
    std::size_t const last = found.empty() ? largest() : static_cast<std::size_t>(found.front().changes);
    for (std::size_t size = 0; size <= last; ++size)
      result_.all_priced = result_.all_priced && priced_[size] == sets_[size];
    if (!found.empty()) result_.nearest.reset();
    auto const shown = static_cast<std::size_t>(std::max(0, limits_.shown));
    if (found.size() > shown) found.resize(shown);
  }

  std::span<int const> alternatives_;
  Money budget_;
  PriceChoices const& price_;
  BudgetLimits limits_;
  std::vector<std::int64_t> sets_, priced_;  // by size
  Choices choices_;                          // the set that each_of has come to
  std::optional<Differences> differences_;
  BudgetSearch result_;
  std::int64_t looked_at_ = 0;
};

}  // namespace

BudgetSearch within_budget(std::span<int const> alternatives, Money budget, PriceChoices const& price,
                           BudgetLimits limits) {
  return BudgetSearching(alternatives, budget, price, limits).search();
}

}  // namespace endband
