#include "engine/cutting/sheets/fill.h"

#include "engine/chance/mixed.h"

#include <algorithm>
#include <tuple>

namespace endband::cutting::many {
namespace {

std::size_t at(std::int64_t i) { return static_cast<std::size_t>(i); }

constexpr std::size_t most_types = 192;  // looked at in one filling; of more, a sample
constexpr std::int64_t most_left = 30000;

}  // namespace

void count_up(Job const& job, Pattern& pattern) {
  pattern.uses.clear();
  pattern.area = 0;
  std::vector<int> types;
  for (Step const& step : pattern.steps)
    if (step.shape >= 0) types.push_back(job.shapes[at(step.shape)].type);
  std::sort(types.begin(), types.end());
  for (int const type : types) {
    if (pattern.uses.empty() || pattern.uses.back().type != type) pattern.uses.push_back({type, 0});
    ++pattern.uses.back().count;
    pattern.area += job.types[at(type)].area;
  }
}

// The largest types are all looked at; of the rest every n-th, so that time stays bounded.
void Filler::gather(Filling const& filling) {
  types_.clear();
  locals_.clear();
  all_pieces_ = 0;
  std::vector<int> fitting;
  std::int64_t value = 0, area = 0;
  for (std::size_t t = 0; t < job_.types.size(); ++t) {
    if (filling.left[t] <= 0) continue;
    all_pieces_ += filling.left[t];
    Type const& type = job_.types[t];
    bool const upright = type.width <= filling.width && type.height <= filling.height;
    bool const turned = type.turns && type.height <= filling.width && type.width <= filling.height;
    if (!upright && !turned) continue;
    fitting.push_back(static_cast<int>(t));
  }
  work_ += static_cast<std::int64_t>(job_.types.size()) / 8;
  std::size_t const sure = std::min(fitting.size(), most_types / 2);
  std::size_t const rest = fitting.size() - sure;
  std::size_t const stride = rest <= most_types / 2 ? 1 : (rest + most_types / 2 - 1) / (most_types / 2);
  for (std::size_t i = 0; i < fitting.size(); i += i < sure ? 1 : stride) types_.push_back(fitting[i]);
  left_.clear();
  for (std::size_t i = 0; i < types_.size(); ++i) {
    std::size_t const t = at(types_[i]);
    Type const& type = job_.types[t];
    std::int64_t const left = std::min(filling.left[t], most_left);
    left_.push_back(static_cast<std::int16_t>(left));
    std::int64_t const piece = type.area >> job_.shift;
    std::int64_t const count = std::min<std::int64_t>(left, 1000);
    value += (filling.values[t] >> 8) * count;
    area += piece * count;
    Local local{type.width, type.height, filling.values[t], piece, static_cast<int>(i), 0};
    auto const add = [&](std::int64_t width, std::int64_t height, bool turned) {
      if (width > filling.width || height > filling.height) return;
      local.width = width;
      local.height = height;
      local.shape = turned ? 1 : 0;
      locals_.push_back(local);
    };
    add(type.width, type.height, false);
    if (type.turns) add(type.height, type.width, true);
  }
  std::stable_sort(locals_.begin(), locals_.end(), [](Local const& a, Local const& b) {
    return std::tie(a.width, a.height) < std::tie(b.width, b.height);
  });
  Wide const mean = area > 0 ? (static_cast<Wide>(value) << 18) / area : 0;
  density_ = static_cast<std::int64_t>(mean * (1024 - filling.eager) / 1024);
}

void Filler::least_sides(std::int16_t const* left) {
  corners_.clear();
  for (Local const& local : locals_)
    if (left[local.type] > 0 && (corners_.empty() || local.height < corners_.back().height))
      corners_.push_back({local.width, local.height});
}

bool Filler::dead(std::int64_t width, std::int64_t height) const {
  for (Corner const& corner : corners_) {
    if (corner.width > width) return true;
    if (corner.height <= height) return false;
  }
  return true;
}

void Filler::expand(int index) {
  Node& node = nodes_[at(index)];
  std::int16_t const* const left = left_.data() + at(index) * types_.size();
  least_sides(left);
  while (node.depth > 0) {
    Rest const& top = node.rests[at(node.depth - 1)];
    if (!dead(top.width, top.height)) break;
    node.spent += scaled(top.width, top.height);
    --node.depth;
  }
  if (node.depth == 0) return;
  Rest const room = node.rests[at(node.depth - 1)];
  // What is beyond a strip is as high, or as wide, as the room: one length decides whether something fits
  // there.
  std::int64_t least_right = room.width + 1, least_above = room.height + 1;
  for (Corner const& corner : corners_) {
    if (corner.width > room.width) break;
    least_above = corner.height;
    if (corner.height <= room.height) least_right = std::min(least_right, corner.width);
  }
  std::int64_t tried = 4;
  for (std::size_t i = 0; i < locals_.size(); ++i) {
    Local const& local = locals_[i];
    if (local.width > room.width) break;
    ++tried;
    if (local.height > room.height || left[local.type] == 0) continue;
    std::int64_t const value = node.value + local.value;
    std::int64_t const spent = node.spent + local.area;
    std::int64_t const right = room.width - local.width, above = room.height - local.height;
    auto const add = [&](bool upright, std::int64_t beside_w, std::int64_t beside_h, std::int64_t beyond) {
      std::int64_t wasted = beyond;
      if (beside_w > 0 && beside_h > 0 && dead(beside_w, beside_h)) wasted += scaled(beside_w, beside_h);
      Wide const merit = (static_cast<Wide>(value) << 10) - static_cast<Wide>(density_) * (spent + wasted);
      children_.push_back({static_cast<std::int64_t>(merit >> 4), index, static_cast<int>(i), upright});
    };
    add(true, local.width, above, right < least_right ? scaled(right, room.height) : 0);
    if (right > 0 && above > 0)
      add(false, right, local.height, above < least_above ? scaled(room.width, above) : 0);
    tried += 2;
  }
  work_ += tried / 2;
}

std::uint64_t Filler::state_hash(Node const& node) const {
  std::uint64_t hash = node.hash;
  for (int i = 0; i < node.depth; ++i) {
    Rest const& rest = node.rests[at(i)];
    hash = mixed(hash ^ mixed(static_cast<std::uint64_t>(rest.width) * 3 +
                              static_cast<std::uint64_t>(rest.height) * 0x10001));
  }
  return hash;
}

// False: the same state has been reached already.
bool Filler::lay(Child const& child, int index) {
  Node const& from = nodes_[at(child.node)];
  Local const& local = locals_[at(child.local)];
  if (next_.size() <= at(index)) next_.emplace_back();
  Node& node = next_[at(index)];
  node.value = from.value + local.value;
  node.spent = from.spent + local.area;
  node.laid = from.laid + 1;
  node.depth = from.depth - 1;
  std::copy_n(from.rests.begin(), node.depth, node.rests.begin());
  Rest const room = from.rests[at(from.depth - 1)];
  int const step = static_cast<int>(links_.size());
  auto const rest = [&](std::int64_t width, std::int64_t height, int id) {
    if (width <= 0 || height <= 0) return;
    if (node.depth == deepest)
      node.spent += scaled(width, height);
    else
      node.rests[at(node.depth++)] = {width, height, id};
  };
  std::int64_t const right = room.width - local.width, above = room.height - local.height;
  if (child.upright) {
    rest(right, room.height, 2 * step + 2);
    rest(local.width, above, 2 * step + 1);
  } else {
    rest(room.width, above, 2 * step + 2);
    rest(right, local.height, 2 * step + 1);
  }
  std::int16_t const left = left_[at(child.node) * types_.size() + at(local.type)];
  std::uint64_t const key = static_cast<std::uint64_t>(local.type) << 32U;
  node.hash = from.hash - mixed(key + static_cast<std::uint64_t>(left)) +
              mixed(key + static_cast<std::uint64_t>(left - 1));
  std::uint64_t const state = state_hash(node);
  if (std::find(states_.begin(), states_.end(), state) != states_.end()) return false;
  states_.push_back(state);
  node.link = step;
  links_.push_back({from.link, {room.id, child.local, child.upright, local.width, local.height}});
  std::int16_t const* const source = left_.data() + at(child.node) * types_.size();
  next_left_.insert(next_left_.end(), source, source + types_.size());
  --next_left_[at(index) * types_.size() + at(local.type)];
  return true;
}

void Filler::seen(Node const& node) {
  if (node.value <= best_value_) return;
  best_value_ = node.value;
  best_link_ = node.link;
  all_ = node.laid == all_pieces_;
}

Pattern Filler::fill(Filling const& filling) {
  gather(filling);
  best_value_ = 0;
  best_link_ = -1;
  all_ = false;
  links_.clear();
  if (nodes_.empty()) nodes_.emplace_back();
  Node& root = nodes_.front();
  root = Node{};
  root.rests[0] = {filling.width, filling.height, 0};
  root.depth = 1;
  int count = 1;
  std::size_t const beam = static_cast<std::size_t>(std::max(filling.beam, 1));
  auto const better = [](Child const& a, Child const& b) {
    if (a.merit != b.merit) return a.merit > b.merit;
    return std::tie(a.node, a.local, a.upright) < std::tie(b.node, b.local, b.upright);
  };
  while (count > 0 && !all_) {
    children_.clear();
    states_.clear();
    next_left_.clear();
    for (int i = 0; i < count; ++i) expand(i);
    std::size_t const ready = std::min(children_.size(), 2 * beam);
    auto const cut = children_.begin() + static_cast<std::ptrdiff_t>(ready);
    std::nth_element(children_.begin(), cut, children_.end(), better);
    std::sort(children_.begin(), cut, better);
    int made = 0;
    for (std::size_t i = 0; i < ready && at(made) < beam; ++i)
      if (lay(children_[i], made)) {
        seen(next_[at(made)]);
        ++made;
      }
    work_ += static_cast<std::int64_t>(children_.size()) / 4 + 3 * made;
    std::swap(nodes_, next_);
    std::swap(left_, next_left_);
    count = made;
  }
  return result();
}

// The links on the way to the best node, numbered anew.
Pattern Filler::result() const {
  std::vector<int> way;
  for (int link = best_link_; link >= 0; link = links_[at(link)].parent) way.push_back(link);
  std::reverse(way.begin(), way.end());
  Pattern pattern;
  for (int const link : way) {
    Step step = links_[at(link)].step;
    if (step.rect > 0) {
      auto const parent = std::lower_bound(way.begin(), way.end(), (step.rect - 1) / 2) - way.begin();
      step.rect = 2 * static_cast<int>(parent) + ((step.rect - 1) % 2) + 1;
    }
    Local const& local = locals_[at(step.shape)];
    step.shape = job_.types[at(types_[at(local.type)])].shape + local.shape;
    pattern.steps.push_back(step);
  }
  pattern.value = best_value_;
  pattern.all = all_;
  count_up(job_, pattern);
  return pattern;
}

}  // namespace endband::cutting::many
