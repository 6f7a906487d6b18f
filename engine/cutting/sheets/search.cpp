#include "engine/cutting/sheets/search.h"

#include "engine/cutting/sheets/cover.h"
#include "engine/cutting/sheets/finish.h"
#include "engine/cutting/sheets/shape.h"
#include "engine/cutting/sheets/stock.h"

#include <algorithm>
#include <limits>

namespace endband::cutting::many {
namespace {

std::size_t at(std::int64_t i) { return static_cast<std::size_t>(i); }
constexpr std::int64_t no_limit = std::numeric_limits<std::int64_t>::max();
constexpr std::int64_t many_pieces = 300;
constexpr std::int64_t most_value = std::int64_t{1} << 43;

std::uint64_t mixed(std::uint64_t x) {  // splitmix64 (Steele, Lea, Flood 2014)
  x += 0x9e3779b97f4a7c15U;
  x = (x ^ (x >> 30U)) * 0xbf58476d1ce4e5b9U;
  x = (x ^ (x >> 27U)) * 0x94d049bb133111ebU;
  return x ^ (x >> 31U);
}

}  // namespace

std::int64_t Chance::below(std::int64_t n) {
  return static_cast<std::int64_t>(mixed(seed_ ^ mixed(++count_)) % static_cast<std::uint64_t>(n));
}

Rest whole(Job const& job) {
  Rest rest;
  for (Type const& type : job.types) rest.pieces.push_back(type.count);
  for (Kind const& kind : job.kinds) rest.copies.push_back(kind.copies);
  rest.count = job.pieces;
  rest.area = job.area;
  return rest;
}

void take(Job const&, Rest& rest, Pattern const& pattern, std::int64_t n) {
  for (Use const& use : pattern.uses) {
    rest.pieces[at(use.type)] -= use.count * n;
    rest.count -= use.count * n;
  }
  rest.area -= pattern.area * n;
  rest.copies[at(pattern.kind)] -= n;
}

std::int64_t most_times(Rest const& rest, Pattern const& pattern) {
  std::int64_t n = rest.copies[at(pattern.kind)];
  for (Use const& use : pattern.uses) n = std::min(n, rest.pieces[at(use.type)] / use.count);
  return n;
}

std::int64_t area_cost(Job const& job, std::vector<std::int64_t> const& copies, std::int64_t area) {
  std::int64_t cost = 0;
  for (std::size_t k = 0; k < job.kinds.size() && area > 0; ++k) {
    Kind const& kind = job.kinds[k];
    std::int64_t const full = std::min(copies[k], area / kind.area);
    cost += full * kind.cost;
    area -= full * kind.area;
    if (full == copies[k] || area == 0) continue;
    cost += static_cast<std::int64_t>(static_cast<Wide>(kind.cost) * area / kind.area);
    area = 0;
  }
  return cost;
}

void Pool::add(Pattern const& pattern) {
  constexpr std::size_t most = 6000;
  if (patterns_.size() >= most) return;
  std::uint64_t key = mixed(static_cast<std::uint64_t>(pattern.kind));
  for (Use const& use : pattern.uses)
    key = mixed(key ^ (static_cast<std::uint64_t>(use.type) << 24U) ^ static_cast<std::uint64_t>(use.count));
  if (keys_.insert(key).second) patterns_.push_back(pattern);
}

Strand::Strand(Job const& job, std::int64_t bound, int number)
    : job_(job),
      bound_(bound),
      filler_(job),
      chance_(mixed(static_cast<std::uint64_t>(number) + 1)),
      number_(number) {
  for (Kind const& kind : job.kinds) (kind.roll ? rolls_ : sheets_) = true;
}

Strand::~Strand() = default;

void Strand::adopt(Plan const& plan) {
  if (!best_ || plan.better_than(*best_)) best_ = plan;
}

void Strand::offer(Plan plan) {
  plan.kept = 0;
  for (Planned const& planned : plan.patterns)
    plan.kept = std::max(plan.kept, largest_kept(job_, planned.pattern));
  adopt(plan);
  constexpr std::size_t most = 8;
  if (job_.request->least_kept == 0) return;
  auto const place =
      std::find_if(near_.begin(), near_.end(), [&](Plan const& other) { return plan.better_than(other); });
  if (near_.size() == most && place == near_.end()) return;
  near_.insert(place, std::move(plan));
  if (near_.size() > most) near_.pop_back();
}

void Strand::shape_best(std::int64_t work) {
  if (!best_) return;
  auto plans = std::move(near_);
  near_.clear();
  plans.insert(plans.begin(), *best_);
  int const beam = work < 500'000 || job_.pieces > many_pieces ? 2 : 16;
  std::int64_t const until = this->work() + work;
  for (Plan& plan : plans) {
    if (!job_.worth_counts() && plan.cost > best_->cost) continue;
    for (Planned& planned : plan.patterns) {
      if (this->work() > until && &plan != &plans.front()) return;
      plan.cost -= planned.pattern.cost * planned.times;
      if (plan.patterns.size() <= 60) shape(job_, filler_, planned.pattern, beam);
      plan.cost += planned.pattern.cost * planned.times;
    }
    offer(plan);
  }
}

void Strand::shorten_rolls(std::int64_t work) {
  if (!best_ || (number_ > 0 && job_.pieces > many_pieces)) return;
  Plan others;
  Rest rest = whole(job_);
  for (Planned const& planned : best_->patterns) {
    if (job_.kinds[at(planned.pattern.kind)].roll) continue;
    take(job_, rest, planned.pattern, planned.times);
    others.cost += planned.pattern.cost * planned.times;
    others.patterns.push_back(planned);
  }
  if (rest.count == 0) return;
  auto planned = off_rolls(job_, filler_, rest, best_->cost - others.cost, work, other_work_);
  if (!planned) return;
  for (Planned& p : *planned) {
    others.cost += p.pattern.cost * p.times;
    others.patterns.push_back(std::move(p));
  }
  offer(std::move(others));
}

std::vector<std::int64_t> Strand::plain_values(int large) const {
  std::int64_t const most = std::max<std::int64_t>(1, job_.types.front().area >> job_.shift);
  std::vector<std::int64_t> values;
  for (Type const& type : job_.types) {
    std::int64_t const area = std::max<std::int64_t>(1, type.area >> job_.shift);
    values.push_back(area * (1024 + large * area / most));
  }
  return values;
}

std::optional<Pattern> Strand::fill_kind(std::size_t k, Rest const& rest,
                                         std::vector<std::int64_t> const& values, int beam, int eager) {
  Kind const& kind = job_.kinds[k];
  Pattern pattern = filler_.fill({kind.width, kind.height, rest.pieces, values, beam, eager});
  if (pattern.steps.empty()) return std::nullopt;
  pattern.kind = static_cast<int>(k);
  if (job_.request->least_kept > 0) tidy(job_, pattern);
  set_cost(job_, pattern);
  if (rest.count <= many_pieces) pool_.add(pattern);
  return pattern;
}

// The pattern of most value by cost, of those of one sheet; `last`: the cheapest that takes all the rest. All
// kinds are looked at with a narrow beam, and the promising ones with the wide.
std::optional<Pattern> Strand::next_sheet(Rest const& rest, std::vector<std::int64_t> const& values,
                                          Taste const& taste, std::int64_t budget,
                                          std::optional<Pattern>& last) {
  std::vector<Choice> choices;
  auto const look = [&](std::size_t k, int beam, std::int64_t whim) -> std::optional<Choice> {
    auto pattern = fill_kind(k, rest, values, beam, taste.eager);
    if (!pattern) return std::nullopt;
    if (pattern->all && (!last || pattern->cost < last->cost)) last = pattern;
    Wide const value = static_cast<Wide>(pattern->value) * (1024 + whim);
    std::int64_t const cost =
        taste.full ? job_.kinds[k].area >> job_.shift : std::max<std::int64_t>(pattern->cost, 0);
    return Choice{std::move(*pattern), value, cost, whim};
  };
  std::size_t open = 0;
  for (std::size_t k = 0; k < job_.kinds.size(); ++k) {
    Kind const& kind = job_.kinds[k];
    if (kind.roll || rest.copies[k] <= 0 || (kind.cost > budget && !job_.worth_counts())) continue;
    ++open;
  }
  int const narrow = open <= 2 ? taste.beam : 1;
  for (std::size_t k = 0; k < job_.kinds.size(); ++k) {
    Kind const& kind = job_.kinds[k];
    if (kind.roll || rest.copies[k] <= 0 || (kind.cost > budget && !job_.worth_counts())) continue;
    auto choice = look(k, narrow, taste.whim > 0 ? chance_.below(taste.whim) : 0);
    if (choice) choices.push_back(std::move(*choice));
  }
  std::stable_sort(choices.begin(), choices.end(),
                   [](Choice const& a, Choice const& b) { return a.before(b); });
  if (narrow < taste.beam)
    for (std::size_t i = 0; i < choices.size(); ++i) {
      Pattern const& pattern = choices[i].pattern;
      bool const may_be_last = !pattern.all && job_.kinds[at(pattern.kind)].area >= rest.area &&
                               pattern.area >= rest.area - rest.area / 5;
      if (i >= 2 && !may_be_last) continue;
      auto wide = look(at(pattern.kind), taste.beam, choices[i].whim);
      if (wide && wide->pattern.value > pattern.value) choices[i] = std::move(*wide);
    }
  auto const first = std::min_element(choices.begin(), choices.end(),
                                      [](Choice const& a, Choice const& b) { return a.before(b); });
  if (first == choices.end()) return std::nullopt;
  return std::move(first->pattern);
}

// The plan with all that rests off rolls.
std::optional<Plan> Strand::with_rolls(Plan const& plan, Rest const& rest, Taste const& taste,
                                       std::int64_t below) {
  std::int64_t const most_work = 600 * std::int64_t{taste.beam};
  auto const planned = off_rolls(job_, filler_, rest, below - plan.cost, most_work, other_work_);
  if (!planned) return std::nullopt;
  Plan all = plan;
  for (Planned const& p : *planned) {
    all.cost = plus(all.cost, times(p.pattern.cost, p.times));
    all.patterns.push_back(p);
  }
  return all;
}

// Now and then; with many pieces, which take long, once at first.
bool Strand::roll_now(Plan const& plan, Rest const& rest) {
  if (rest.count > many_pieces) return round_ == 0 && number_ == 0 && plan.patterns.empty();
  return chance_.below(3) == 0;
}

// One sheet after another. Nothing where it cannot be done for less than `below`.
std::optional<Plan> Strand::pass(Rest rest, std::vector<std::int64_t> const& values, Taste const& taste,
                                 std::int64_t below) {
  std::optional<Plan> best;
  Plan plan;
  unplaced_.clear();
  while (rest.count > 0) {
    if (plan.cost + area_cost(job_, rest.copies, rest.area) >= below) break;
    std::optional<Pattern> last;
    auto chosen = next_sheet(rest, values, taste, below - plan.cost - 1, last);
    if (last && job_.worth_counts() && chance_.below(4) == 0)
      shape(job_, filler_, *last, std::min(taste.beam, 8));
    if (rolls_ && (!chosen || roll_now(plan, rest)))
      if (auto rolled = with_rolls(plan, rest, taste, below)) {
        below = rolled->cost;
        best = std::move(rolled);
      }
    if (last && plan.cost + last->cost < below) {
      best = plan;
      best->cost += last->cost;
      below = best->cost;
      best->patterns.push_back({*last, 1});
    }
    if (!chosen) {
      if (!best) {
        unplaced_ = rest.pieces;
        failed_ = plan;
      }
      break;
    }
    if (chosen->all) break;
    std::int64_t const most = most_times(rest, *chosen);
    std::int64_t const n = most <= 2 ? 1 : std::max<std::int64_t>(1, most * 3 / 4);
    plan.cost = plus(plan.cost, times(chosen->cost, n));
    take(job_, rest, *chosen, n);
    plan.patterns.push_back({std::move(*chosen), n});
  }
  if (rest.count == 0 && plan.cost < below) best = std::move(plan);
  return best;
}

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
    take(job_, rest, planned.pattern, stay);
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
