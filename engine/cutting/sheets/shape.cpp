#include "engine/cutting/sheets/shape.h"

#include "engine/cutting/sheets/finish.h"
#include "engine/cutting/sheets/roll_strips.h"

#include <algorithm>
#include <tuple>

namespace endband::cutting::many {
namespace {

std::size_t at(std::int64_t i) { return static_cast<std::size_t>(i); }

std::vector<std::int64_t> by_area(Job const& job) {
  std::vector<std::int64_t> values;
  for (Type const& type : job.types)
    values.push_back(std::max<std::int64_t>(1, type.area >> job.shift) * 1024);
  return values;
}

// How far up, or to the right, the pieces reach.
std::int64_t reach(Job const& job, std::vector<Step> const& steps, std::int64_t width, std::int64_t height,
                   bool across) {
  std::int64_t far = 0;
  for (Spot const& spot : spots_of(job, steps, width, height))
    far = std::max(far, across ? spot.y + spot.height : spot.x + spot.width);
  return far;
}

// Nothing lower can hold the pieces: by area, and by the piece that needs most.
std::int64_t least_reach(Job const& job, std::span<std::int64_t const> left, std::int64_t side, bool across) {
  Wide area = 0;
  std::int64_t least = 1;
  for (std::size_t t = 0; t < left.size(); ++t) {
    if (left[t] == 0) continue;
    Type const& type = job.types[t];
    area += static_cast<Wide>(type.area) * left[t];
    std::int64_t const upright = across ? type.height : type.width, other = across ? type.width : type.height;
    std::int64_t needs = other <= side ? upright : std::max(type.width, type.height);
    if (type.turns && upright <= side) needs = std::min(needs, other);
    least = std::max(least, needs);
  }
  return std::max(least, static_cast<std::int64_t>((area + side - 1) / side));
}

}  // namespace

std::optional<Tight> tightest(Job const& job, Filler& filler, std::int64_t width, std::int64_t height,
                              bool across, std::span<std::int64_t const> left, int beam) {
  auto const values = by_area(job);
  std::int64_t const side = across ? width : height;
  std::int64_t low = least_reach(job, left, side, across);
  std::int64_t high = across ? height : width;
  std::optional<Tight> best;
  auto const laid = [&](std::int64_t length) {
    std::int64_t const w = across ? width : length, h = across ? length : height;
    Pattern pattern = filler.fill({w, h, left, values, beam, 60});
    if (!pattern.all) return false;
    high = reach(job, pattern.steps, w, h, across);
    best = Tight{std::move(pattern.steps), across ? width : high, across ? high : height};
    return true;
  };
  if (low > high) return std::nullopt;
  std::int64_t const limit = high;
  for (std::int64_t per_cent : {4, 12, 30}) {
    std::int64_t const length = low + (low / 100 + 1) * per_cent;
    if (length >= limit || laid(length)) break;
    low = length;
  }
  if (!best && !laid(limit)) return std::nullopt;
  for (int i = 0; i < 14 && low < high; ++i) {
    std::int64_t const middle = low + (high - low) / 2;
    if (!laid(middle)) low = middle + 1;
  }
  return best;
}

namespace {

// `steps` within the strip that a first cut parts off rectangle 0.
std::vector<Step> behind_cut(std::vector<Step> const& steps, bool across, std::int64_t reached) {
  std::vector<Step> all{{0, -1, !across, across ? 0 : reached, across ? reached : 0}};
  for (Step step : steps) {
    step.rect = step.rect == 0 ? 1 : step.rect + 2;
    all.push_back(step);
  }
  return all;
}

class Shaping {
 public:
  Shaping(Job const& job, Filler& filler, Pattern& pattern, int beam)
      : job_(job), filler_(filler), best_(pattern), beam_(beam), left_(job.types.size()) {
    for (Use const& use : pattern.uses) left_[at(use.type)] = use.count;
    kept_ = largest_kept(job, pattern);
  }

  void shape() {
    Kind const& kind = job_.kinds[at(best_.kind)];
    for (bool const across : {true, false}) {
      auto const outer = tightest(job_, filler_, kind.width, kind.height, across, left_, beam_);
      if (!outer) continue;
      offer(cut_off(*outer, across, kind.width, kind.height));
      auto const inner = tightest(job_, filler_, outer->width, outer->height, !across, left_, beam_);
      if (!inner) continue;
      Tight both = *outer;
      both.steps = cut_off(*inner, !across, outer->width, outer->height);
      offer(cut_off(both, across, kind.width, kind.height));
    }
  }

 private:
  static std::vector<Step> cut_off(Tight const& tight, bool across, std::int64_t width, std::int64_t height) {
    bool const whole = across ? tight.height == height : tight.width == width;
    return whole ? tight.steps : behind_cut(tight.steps, across, across ? tight.height : tight.width);
  }

  void offer(std::vector<Step> steps) {
    Pattern pattern = best_;
    pattern.steps = std::move(steps);
    tidy(job_, pattern);
    set_cost(job_, pattern);
    std::int64_t const kept = largest_kept(job_, pattern);
    if (std::tuple(pattern.cost, -kept) >= std::tuple(best_.cost, -kept_)) return;
    best_ = std::move(pattern);
    kept_ = kept;
  }

  Job const& job_;
  Filler& filler_;
  Pattern& best_;
  int beam_;
  std::vector<std::int64_t> left_;
  std::int64_t kept_ = 0;
};

}  // namespace

void shape(Job const& job, Filler& filler, Pattern& pattern, int beam) {
  if (job.request->least_kept == 0 || job.kinds[at(pattern.kind)].roll) return;
  Shaping(job, filler, pattern, beam).shape();
}

namespace {

Pattern torn(Job const& job, int kind, std::vector<Step> steps, std::int64_t length) {
  Pattern pattern;
  pattern.kind = kind;
  pattern.length = length;
  pattern.steps = std::move(steps);
  count_up(job, pattern);
  set_cost(job, pattern);
  return pattern;
}

// A block of one_sheet within `rect`: pieces, and cuts between them.
void add_steps(Job const& job, std::vector<int> const& types, one_sheet::Tree const& tree, int index,
               int rect, std::vector<Step>& steps) {
  one_sheet::Block const& block = tree.blocks[at(index)];
  int const number = static_cast<int>(steps.size());
  if (block.first < 0) {
    int const shape = job.types[at(types[at(block.want)])].shape + (block.turned ? 1 : 0);
    steps.push_back({rect, shape, true, block.width, block.height});
    return;
  }
  one_sheet::Block const& first = tree.blocks[at(block.first)];
  steps.push_back({rect, -1, !block.above, block.above ? 0 : first.width, block.above ? first.height : 0});
  add_steps(job, types, tree, block.first, 2 * number + 1, steps);
  add_steps(job, types, tree, block.second, 2 * number + 2, steps);
}

// All that rests in one length of the roll.
std::optional<Pattern> at_once(Job const& job, Rest const& rest, int kind, std::int64_t most_work,
                               std::int64_t& work) {
  Kind const& roll = job.kinds[at(kind)];
  one_sheet::Task task;
  task.width = roll.width;
  std::vector<int> types;
  for (std::size_t t = 0; t < job.types.size(); ++t) {
    Type const& type = job.types[t];
    if (rest.pieces[t] == 0) continue;
    if (type.width > roll.width && !(type.turns && type.height <= roll.width)) return std::nullopt;
    task.wants.push_back({type.width, type.height, 1, rest.pieces[t], type.turns});
    types.push_back(static_cast<int>(t));
  }
  one_sheet::RollPacker packer(task, least_reach(job, rest.pieces, roll.width, true));
  packer.run(most_work);
  work += packer.work();
  if (packer.height() > roll.height) return std::nullopt;
  one_sheet::Tree const tree = one_sheet::stack(packer.strips());
  std::vector<Step> steps;
  add_steps(job, types, tree, tree.root, 0, steps);
  return torn(job, kind, std::move(steps), packer.height());
}

// As much as a whole roll holds.
std::optional<Pattern> at_most(Job const& job, Filler& filler, Rest const& rest, int kind) {
  Kind const& roll = job.kinds[at(kind)];
  auto const values = by_area(job);
  Pattern full = filler.fill({roll.width, roll.height, rest.pieces, values, 4, 300});
  if (full.steps.empty()) return std::nullopt;
  std::int64_t const length = reach(job, full.steps, roll.width, roll.height, true);
  return torn(job, kind, std::move(full.steps), length);
}

std::optional<std::vector<Planned>> off_roll(Job const& job, Filler& filler, Rest rest, int kind,
                                             std::int64_t below, std::int64_t most_work, std::int64_t& work) {
  std::vector<Planned> planned;
  std::int64_t cost = 0;
  while (rest.count > 0 && rest.copies[at(kind)] > 0 && cost < below) {
    auto pattern = at_once(job, rest, kind, most_work, work);
    if (!pattern) pattern = at_most(job, filler, rest, kind);
    if (!pattern) return std::nullopt;
    std::int64_t const n = std::max<std::int64_t>(1, most_times(rest, *pattern) * 3 / 4);
    take(rest, *pattern, n);
    cost = plus(cost, times(pattern->cost, n));
    planned.push_back({std::move(*pattern), n});
  }
  if (rest.count > 0 || cost >= below) return std::nullopt;
  return planned;
}

}  // namespace

std::optional<std::vector<Planned>> off_rolls(Job const& job, Filler& filler, Rest const& rest,
                                              std::int64_t below, std::int64_t most_work,
                                              std::int64_t& work) {
  std::optional<std::vector<Planned>> best;
  for (std::size_t k = 0; k < job.kinds.size(); ++k) {
    if (!job.kinds[k].roll) continue;
    auto planned = off_roll(job, filler, rest, static_cast<int>(k), below, most_work, work);
    if (!planned) continue;
    below = 0;
    for (Planned const& p : *planned) below += p.pattern.cost * p.times;
    best = std::move(planned);
  }
  return best;
}

}  // namespace endband::cutting::many
