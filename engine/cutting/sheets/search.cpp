#include "engine/cutting/sheets/search.h"

#include "engine/chance/mixed.h"
#include "engine/cutting/sheets/finish.h"
#include "engine/cutting/sheets/shape.h"
#include "engine/cutting/sheets/stock.h"

#include <algorithm>

namespace endband::cutting::many {
namespace {

std::size_t at(std::int64_t i) { return static_cast<std::size_t>(i); }

}  // namespace

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
    take(rest, planned.pattern, planned.times);
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
    take(rest, *chosen, n);
    plan.patterns.push_back({std::move(*chosen), n});
  }
  if (rest.count == 0 && plan.cost < below) best = std::move(plan);
  return best;
}

}  // namespace endband::cutting::many
