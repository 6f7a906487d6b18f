// How a strand betters its best plan: sheet by sheet with corrected values, by emptying a few sheets, by
// cheaper stock, by putting fillings together anew.
#include "engine/cutting/sheets/cover.h"
#include "engine/cutting/sheets/search.h"
#include "engine/cutting/sheets/stock.h"

#include <algorithm>
#include <array>
#include <limits>

namespace endband::cutting::many {
namespace {

std::size_t at(std::int64_t i) { return static_cast<std::size_t>(i); }
constexpr std::int64_t no_limit = std::numeric_limits<std::int64_t>::max();
constexpr std::int64_t most_value = std::int64_t{1} << 43;

}  // namespace

// What a piece paid in this plan moves what it counts in the next (Mukhacheva; Belov, Scheithauer 2008).
void Strand::correct(Plan const& plan, std::vector<std::int64_t>& values) {
  std::int64_t const step = 150 + chance_.below(500);
  bool const by_cost = plan.cost > 0 && chance_.below(2) == 0;
  for (Planned const& planned : plan.patterns) {
    Pattern const& pattern = planned.pattern;
    Wide num = job_.kinds[at(pattern.kind)].area, den = pattern.area;
    if (by_cost) {
      num = static_cast<Wide>(std::max<std::int64_t>(pattern.cost, 1)) * (job_.area >> job_.shift);
      den = static_cast<Wide>(plan.cost) * ((pattern.area >> job_.shift) + 1);
    }
    std::int64_t const paid =
        std::clamp<std::int64_t>(static_cast<std::int64_t>(num * 1024 / den), 256, 8192);
    for (Use const& use : pattern.uses) {
      std::int64_t& value = values[at(use.type)];
      std::int64_t const area = std::max<std::int64_t>(1, job_.types[at(use.type)].area >> job_.shift);
      value = std::clamp<std::int64_t>(((1024 - step) * value + step * (area * paid)) / 1024, 1, most_value);
    }
  }
}

Strand::Taste Strand::taste_of(int round) {
  static constexpr std::array<int, 4> eager{300, 120, 200, 450};
  static constexpr std::array<int, 4> large{0, 200, 500, 1000};
  Taste taste;
  taste.beam = round < 8 ? 1 : std::min(64, 1 << std::min(6, 1 + (round - 8) / 6));
  taste.eager = eager[at((round + number_) % 4)];
  taste.large = large[at((round / 4 + number_) % 4)];
  taste.whim = round < 4 ? 0 : 100;
  return taste;
}

void Strand::sequence() {
  Taste const taste = taste_of(round_);
  if (round_ < 8 || values_.empty() || chance_.below(12) == 0) values_ = plain_values(taste.large);
  auto plan = pass(whole(job_), values_, taste, best_ ? plus(best_->cost, best_->cost / 16 + 1) : no_limit);
  if (plan) {
    correct(*plan, values_);
    offer(std::move(*plan));
  } else if (!unplaced_.empty()) {
    for (std::size_t t = 0; t < unplaced_.size(); ++t)
      if (unplaced_[t] > 0) values_[t] = std::min(most_value, values_[t] * 3 / 2 + 1);
  } else if (best_) {
    correct(*best_, values_);
  }
}

// A few sheets of the best plan are emptied, and their pieces planned anew for less.
void Strand::repair() {
  if (!best_ || best_->patterns.size() < 2) return sequence();
  std::int64_t const size = static_cast<std::int64_t>(best_->patterns.size());
  std::int64_t const out = std::min<std::int64_t>(size, 2 + chance_.below(2));
  std::vector<bool> emptied(at(size));
  for (std::int64_t i = 0; i < out;) {
    std::int64_t const j = chance_.below(size);
    if (emptied[at(j)]) continue;
    emptied[at(j)] = true;
    ++i;
  }
  Rest rest = whole(job_);
  Plan kept_plan;
  std::int64_t removed = 0;
  for (std::size_t j = 0; j < emptied.size(); ++j) {
    Planned const& planned = best_->patterns[j];
    std::int64_t const stay = emptied[j] ? planned.times - 1 : planned.times;
    if (emptied[j]) removed += planned.pattern.cost;
    if (stay == 0) continue;
    take(rest, planned.pattern, stay);
    kept_plan.cost += planned.pattern.cost * stay;
    kept_plan.patterns.push_back({planned.pattern, stay});
  }
  Taste taste = taste_of(round_);
  taste.beam = std::min(64, taste.beam * 2);
  auto values = chance_.below(2) == 0 ? values_ : plain_values(taste.large);
  for (int i = 0; i < 4 && !done(); ++i) {
    auto plan = pass(rest, values, taste, plus(removed, removed / 16 + 1));
    if (!plan) break;
    correct(*plan, values);
    if (plan->cost >= removed) continue;
    Plan joined = kept_plan;
    joined.cost += plan->cost;
    for (Planned& planned : plan->patterns) joined.patterns.push_back(std::move(planned));
    offer(std::move(joined));
    return;
  }
}

// A choice of stock that would cost less is tried for a while: what it leaves over counts more the next time.
void Strand::make_do() {
  if (!best_ || job_.pieces > many_pieces) return sequence();
  if (selected_below_ != best_->cost) {
    selections_ = selections(job_, *best_, 2000, chance_);
    other_work_ += 20 * static_cast<std::int64_t>(selections_.size()) + 2000;
    selected_below_ = best_->cost;
  }
  if (selections_.empty()) return repair();
  auto const easier = [&](Selection const& a, Selection const& b) {
    auto const hardness = [&](Selection const& s) {
      return static_cast<std::int64_t>(static_cast<Wide>(job_.area) * 10000 / s.area) + 60 * s.tries;
    };
    return hardness(a) < hardness(b);
  };
  Selection& selection = *std::min_element(selections_.begin(), selections_.end(), easier);
  other_work_ += static_cast<std::int64_t>(selections_.size()) / 4;
  ++selection.tries;
  Taste taste = taste_of(round_);
  taste.full = true;
  auto& values = selection.values;
  if (values.empty() || chance_.below(10) == 0) values = plain_values(taste.large);
  Rest rest = whole(job_);
  rest.copies = selection.copies;
  for (int i = 0; i < 3 && !done(); ++i) {
    if (auto plan = pass(rest, values, taste, best_->cost)) return offer(std::move(*plan));
    if (unplaced_.empty()) return;
    correct(failed_, values);
    for (std::size_t t = 0; t < unplaced_.size(); ++t)
      if (unplaced_[t] > 0) values[t] = std::min(most_value, values[t] * 5 / 4 + 1);
  }
}

void Strand::recombine() {
  if (job_.pieces > many_pieces) return sequence();
  std::int64_t const most = std::min<std::int64_t>(100'000, until_ - work());
  auto plan = cover(job_, pool_.patterns(), best_ ? best_->cost : no_limit, most, other_work_);
  if (plan) offer(std::move(*plan));
}

void Strand::run(std::int64_t work) {
  until_ = this->work() + work;
  int const first = job_.pieces > many_pieces ? 2 : 8;  // rounds that are run without work too
  for (; round_ < first || !done(); ++round_) {
    if (best_ && (best_->cost <= bound_ || !sheets_)) return;
    int const turn = round_ % 4;
    if (round_ % 32 == 31)
      recombine();
    else if (round_ < 16 || turn == 0)
      sequence();
    else if (turn == 3)
      make_do();
    else
      repair();
    other_work_ += 10;
  }
}

}  // namespace endband::cutting::many
