// Sets are built group by group, the group that saves most first, so that the first ones seen are good and
// bounds soon leave the rest unseen. The bound: a change is charged with what it does together with changes
// of earlier groups; of each group the least that this can come to is known, and the least of any so many
// groups.
#include "engine/commission/foretold.h"

#include "engine/measure/measure.h"

#include <algorithm>
#include <numeric>
#include <stdexcept>

namespace endband {
namespace {

std::int64_t magnitude(std::int64_t n) { return n < 0 ? checked_sub(0, n) : n; }

ForetoldEffect effect_of(Outcome const& outcome) {
  return {outcome.any_total.value_or(outcome.total).minor, outcome.any_left.value_or(outcome.left).minor};
}

}  // namespace

bool comes_first(Choices const& a, Choices const& b) {
  auto const [at_a, at_b] = std::mismatch(a.begin(), a.end(), b.begin(), b.end());
  if (at_a == a.end() || at_b == b.end()) return false;
  if (*at_a == 0 || *at_b == 0) return *at_b == 0;
  return *at_a < *at_b;
}

Differences::Differences(std::span<int const> alternatives, Outcome const& as_it_is)
    : first_{0}, as_it_is_(effect_of(as_it_is)) {
  for (int const many : alternatives) first_.push_back(first_.back() + static_cast<std::size_t>(many));
  own_.resize(first_.back());
  pairs_.resize(own_.size() * own_.size());
}

// Every sum of differences is no more than that of all of them: what is summed later needs no check.
ForetoldEffect Differences::beyond(Outcome const& outcome, std::span<std::size_t const> changes) {
  ForetoldEffect effect = effect_of(outcome);
  effect = {checked_sub(effect.total, as_it_is_.total), checked_sub(effect.left, as_it_is_.left)};
  for (std::size_t const change : changes) {
    effect.total = checked_sub(effect.total, own_[change].total);
    effect.left = checked_sub(effect.left, own_[change].left);
  }
  for (std::int64_t const part : {effect.total, effect.left})
    largest_ = checked_add(largest_, magnitude(part));
  for (std::int64_t const part : {as_it_is_.total, as_it_is_.left}) checked_add(largest_, magnitude(part));
  return effect;
}

void Differences::tell(Choices const& choices, std::optional<Outcome> const& outcome) {
  std::vector<std::size_t> changes;
  for (std::size_t group = 0; group < choices.size(); ++group)
    if (choices[group] != 0) changes.push_back(change(group, choices[group]));
  if (changes.size() == 1) {
    if (outcome) own_[changes[0]] = beyond(*outcome, {});
    return;
  }
  if (changes.size() != 2) throw std::logic_error("differences are those of one change or two");
  Pair const pair{outcome ? beyond(*outcome, changes) : ForetoldEffect{}, outcome.has_value()};
  pairs_[changes[0] * own_.size() + changes[1]] = pairs_[changes[1] * own_.size() + changes[0]] = pair;
}

namespace {

ForetoldEffect operator+(ForetoldEffect a, ForetoldEffect b) { return {a.total + b.total, a.left + b.left}; }

struct Candidate {
  bool over = false;     // the budget
  std::int64_t key = 0;  // less is better: what is left, negated; of one that is over the total
  Choices choices;
  friend bool operator<(Candidate const& a, Candidate const& b) {
    if (a.over != b.over) return b.over;
    if (a.key != b.key) return a.key < b.key;
    return comes_first(a.choices, b.choices);
  }
};

// The least total, and the most left, that any so many of the groups from one on can add.
class Bounds {
 public:
  Bounds(Differences const& differences, std::vector<std::vector<std::size_t>> const& groups)
      : differences_(differences), groups_(groups) {
    for (std::size_t at = 0; at < groups.size(); ++at) of_group_.push_back(bound_of(at));
    for (std::size_t from = 0; from <= groups.size(); ++from) best_.push_back(best_from(from));
  }
  ForetoldEffect best(std::size_t from, std::size_t many) const { return best_[from][many]; }

 private:
  ForetoldEffect bound_of(std::size_t at) const {
    ForetoldEffect bound;
    bool first = true;
    for (std::size_t const change : groups_[at]) {
      ForetoldEffect const least = differences_.own(change) + with_earlier(change, at);
      bound = first ? least
                    : ForetoldEffect{std::min(bound.total, least.total), std::max(bound.left, least.left)};
      first = false;
    }
    return bound;
  }

  ForetoldEffect with_earlier(std::size_t change, std::size_t at) const {
    ForetoldEffect sum;
    for (std::size_t earlier = 0; earlier < at; ++earlier) {
      ForetoldEffect best;  // nothing: the group is not changed
      for (std::size_t const other : groups_[earlier]) {
        if (!differences_.possible(change, other)) continue;
        ForetoldEffect const effect = differences_.together(change, other);
        best = {std::min(best.total, effect.total), std::max(best.left, effect.left)};
      }
      sum = sum + best;
    }
    return sum;
  }

  std::vector<ForetoldEffect> best_from(std::size_t from) const {
    std::vector<std::int64_t> totals;
    std::vector<std::int64_t> lefts;
    for (std::size_t at = from; at < groups_.size(); ++at) {
      totals.push_back(of_group_[at].total);
      lefts.push_back(of_group_[at].left);
    }
    std::sort(totals.begin(), totals.end());
    std::sort(lefts.rbegin(), lefts.rend());
    std::vector<ForetoldEffect> best{{}};
    for (std::size_t i = 0; i < totals.size(); ++i)
      best.push_back(best.back() + ForetoldEffect{totals[i], lefts[i]});
    return best;
  }

  Differences const& differences_;
  std::vector<std::vector<std::size_t>> const& groups_;
  std::vector<ForetoldEffect> of_group_;
  std::vector<std::vector<ForetoldEffect>> best_;
};

// Changes by group, those that save most first.
std::vector<std::vector<std::size_t>> savers_first(Differences const& differences) {
  std::vector<std::vector<std::size_t>> groups;
  auto const saves_more = [&](std::size_t a, std::size_t b) {
    return differences.own(a).total < differences.own(b).total;
  };
  for (std::size_t group = 0; group < differences.groups(); ++group) {
    if (differences.alternatives(group) == 0) continue;
    std::vector<std::size_t> changes(static_cast<std::size_t>(differences.alternatives(group)));
    std::iota(changes.begin(), changes.end(), differences.change(group, 1));
    std::stable_sort(changes.begin(), changes.end(), saves_more);
    groups.push_back(std::move(changes));
  }
  std::stable_sort(groups.begin(), groups.end(),
                   [&](auto const& a, auto const& b) { return saves_more(a.front(), b.front()); });
  return groups;
}

class Ranking {
 public:
  Ranking(Differences const& differences, std::int64_t budget, std::size_t most, std::int64_t work)
      : differences_(differences),
        groups_(savers_first(differences)),
        bounds_(differences, groups_),
        budget_(budget),
        most_(most),
        work_(work) {}

  Ranked rank(std::size_t changes) {
    if (most_ > 0 && changes <= groups_.size()) extend(0, changes, differences_.as_it_is());
    std::sort_heap(kept_.begin(), kept_.end());
    Ranked ranked{{}, 0, looked_at_, all_};
    for (Candidate& candidate : kept_) {
      ranked.within += candidate.over ? 0 : 1;
      ranked.sets.push_back(std::move(candidate.choices));
    }
    return ranked;
  }

 private:
  // `wanted` changes more, of the groups from `from` on.
  void extend(std::size_t from, std::size_t wanted, ForetoldEffect sum) {
    if (wanted == 0) return offer(sum);
    for (std::size_t at = from; at + wanted <= groups_.size() && all_; ++at) {
      if (hopeless(sum + bounds_.best(at, wanted))) return;  // nor of fewer groups
      for (std::size_t const change : groups_[at]) {
        if (!look()) return;
        if (auto const more = added(change)) take(change, at, wanted, sum + *more);
      }
    }
  }

  void take(std::size_t change, std::size_t at, std::size_t wanted, ForetoldEffect sum) {
    if (hopeless(sum + bounds_.best(at + 1, wanted - 1))) return;
    taken_.push_back(change);
    extend(at + 1, wanted - 1, sum);
    taken_.pop_back();
  }

  bool look() {
    all_ = looked_at_ < work_;
    if (all_) ++looked_at_;
    return all_;
  }

  // What a change adds to those that were taken; nothing: they cannot be made together.
  std::optional<ForetoldEffect> added(std::size_t change) const {
    ForetoldEffect effect = differences_.own(change);
    for (std::size_t const other : taken_) {
      if (!differences_.possible(change, other)) return std::nullopt;
      effect = effect + differences_.together(change, other);
    }
    return effect;
  }

  // Whether a set that is at best so cannot be kept, whatever its place in the order.
  bool hopeless(ForetoldEffect best) const {
    if (kept_.size() < most_) return false;
    Candidate const& worst = kept_.front();
    if (worst.over) return best.total > worst.key;
    return best.total > budget_ || -best.left > worst.key;
  }

  void offer(ForetoldEffect sum) {
    bool const over = sum.total > budget_;
    Candidate candidate{over, over ? sum.total : -sum.left, choices()};
    if (kept_.size() == most_) {
      if (!(candidate < kept_.front())) return;
      std::pop_heap(kept_.begin(), kept_.end());
      kept_.pop_back();
    }
    kept_.push_back(std::move(candidate));
    std::push_heap(kept_.begin(), kept_.end());
  }

  Choices choices() const {
    Choices choices(differences_.groups());
    for (std::size_t const change : taken_) {
      std::size_t group = 0;
      while (change >=
             differences_.change(group, 1) + static_cast<std::size_t>(differences_.alternatives(group)))
        ++group;
      choices[group] = static_cast<int>(change - differences_.change(group, 1)) + 1;
    }
    return choices;
  }

  Differences const& differences_;
  std::vector<std::vector<std::size_t>> const groups_;
  Bounds const bounds_;
  std::int64_t const budget_;
  std::size_t const most_;
  std::int64_t const work_;
  std::int64_t looked_at_ = 0;
  bool all_ = true;
  std::vector<std::size_t> taken_;
  std::vector<Candidate> kept_;  // a heap, the worst in front
};

}  // namespace

Ranked best_expected(Differences const& differences, int changes, std::int64_t budget, std::size_t most,
                     std::int64_t work) {
  return Ranking(differences, budget, most, work).rank(static_cast<std::size_t>(changes));
}

}  // namespace endband
