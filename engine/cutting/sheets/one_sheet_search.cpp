#include "engine/cutting/sheets/one_sheet_search.h"

#include <algorithm>

namespace endband::cutting::one_sheet {

namespace {

std::uint64_t hash_of(Word const* counts, std::size_t words) {
  std::uint64_t hash = 0x9E3779B97F4A7C15U;
  for (std::size_t i = 0; i < words; ++i) {
    hash ^= counts[i];
    hash *= 0xBF58476D1CE4E5B9U;
    hash ^= hash >> 29;
  }
  return hash;
}

}  // namespace

Search::Search(Task const& task, Packing const& packing, Bounds const& bounds, Limited const& rest,
               std::int64_t value, std::int64_t bound)
    : task_(task),
      packing_(packing),
      bounds_(bounds),
      rest_(rest),
      kinds_(bounds.pricings.size()),
      best_(value),
      bound_(bound) {
  for (std::size_t want = 0; want < task.wants.size(); ++want) {
    add_piece(want, false);
    if (task.wants[want].turns && task.wants[want].width != task.wants[want].height) add_piece(want, true);
  }
}

void Search::add_piece(std::size_t want, bool turned) {
  int const index = static_cast<int>(want);
  Block const block = piece_block(task_.wants[want], index, turned);
  if (block.width > task_.width || block.height > task_.height) return;
  std::vector<Word> counts(packing_.words(), 0);
  counts[packing_.word_of(want)] = packing_.one(want);
  std::vector<std::int64_t> priced;
  for (Pricing const& pricing : bounds_.pricings) priced.push_back(pricing.values[want]);
  add({block.width, block.height, task_.wants[want].value, 0, turned ? -2 - index : index, -1, false, false,
       -1},
      counts.data(), priced.data());
}

void Search::add(Node node, Word const* counts, std::int64_t const* priced) {
  std::size_t const cell = bounds_.grid.x(node.width) * bounds_.grid.ys.count() + bounds_.grid.y(node.height);
  node.most = bound_ * bounds_.scale;
  for (std::size_t i = 0; i < kinds_; ++i) {
    Pricing const& pricing = bounds_.pricings[i];
    node.most = std::min(node.most, priced[i] + pricing.around[cell] + pricing.constant);
  }
  if (node.most < target()) return;
  std::uint64_t const hash = hash_of(counts, packing_.words());
  steps_ += 4;
  if (dominated(node, counts, hash)) return;
  int const index = static_cast<int>(nodes_.size());
  auto const place = same_.try_emplace(hash, -1).first;
  node.next = place->second;
  place->second = index;
  nodes_.push_back(node);
  counts_.insert(counts_.end(), counts, counts + packing_.words());
  priced_.insert(priced_.end(), priced, priced + kinds_);
  if (node.value > best_) {
    best_ = node.value;
    best_node_ = index;
    best_way_ = 0;
  }
  open_.emplace_back(node.most, index);
  std::push_heap(open_.begin(), open_.end());
}

// The same pieces in no larger a block: one of the two is enough.
bool Search::dominated(Node const& node, Word const* counts, std::uint64_t hash) {
  auto const place = same_.find(hash);
  if (place == same_.end()) return false;
  for (int i = place->second; i >= 0; i = nodes_[static_cast<std::size_t>(i)].next) {
    Node& other = nodes_[static_cast<std::size_t>(i)];
    if (!std::equal(counts, counts + packing_.words(), this->counts(i))) continue;
    if (other.width <= node.width && other.height <= node.height) return true;
    if (other.width >= node.width && other.height >= node.height) other.dead = true;
  }
  return false;
}

void Search::run(std::int64_t steps) {
  while (!open_.empty() && steps_ < steps) {
    auto const [most, node] = open_.front();
    if (most < target()) break;
    std::pop_heap(open_.begin(), open_.end());
    open_.pop_back();
    if (nodes_[static_cast<std::size_t>(node)].dead) continue;
    bound_ = std::min(bound_, most / bounds_.scale);
    complete(node);
    expand(node);
  }
  bool const more = !open_.empty() && open_.front().first >= target();
  bound_ = more ? std::max(best_, std::min(bound_, open_.front().first / bounds_.scale)) : best_;
}

void Search::expand(int node) {
  Node const& now = nodes_[static_cast<std::size_t>(node)];
  closed_.push_back({now.width, now.height, priced(node)[0], node});
  expand_beside(node, false);
  expand_beside(node, true);
}

void Search::expand_beside(int node, bool above) {
  Node const now = nodes_[static_cast<std::size_t>(node)];
  Pricing const& pricing = bounds_.pricings[0];
  std::size_t const ny = bounds_.grid.ys.count();
  std::int64_t const own = above ? now.height : now.width, limit = above ? task_.height : task_.width;
  std::size_t const x = bounds_.grid.x(now.width), y = bounds_.grid.y(now.height);
  // What the other has to bring, by the size of both together.
  std::int64_t const base = target() - pricing.constant - priced(node)[0];
  needed_.resize(above ? ny : bounds_.grid.xs.count());
  for (std::size_t i = above ? y : x; i < needed_.size(); ++i)
    needed_[i] = base - pricing.around[above ? x * ny + i : i * ny + y];
  for (Closed const& other : closed_) {
    std::int64_t const both = own + (above ? other.height : other.width);
    if (both > limit) continue;
    if (other.priced >= needed_[above ? bounds_.grid.y(both) : bounds_.grid.x(both)])
      try_pair(node, other.node, above);
  }
  steps_ += static_cast<std::int64_t>(closed_.size()) / 4 + 4;
}

void Search::try_pair(int first, int second, bool above) {
  steps_ += 1;
  if (!packing_.fit(counts(first), counts(second))) return;
  Node const& a = nodes_[static_cast<std::size_t>(first)];
  Node const& b = nodes_[static_cast<std::size_t>(second)];
  Node both{above ? std::max(a.width, b.width) : a.width + b.width,
            above ? a.height + b.height : std::max(a.height, b.height),
            a.value + b.value,
            0,
            first,
            second,
            above,
            false,
            -1};
  std::vector<Word> sum(counts(first), counts(first) + packing_.words());
  packing_.add(sum.data(), counts(second));
  std::int64_t priced_sum[most_pricings];
  for (std::size_t i = 0; i < kinds_; ++i) priced_sum[i] = priced(first)[i] + priced(second)[i];
  add(both, sum.data(), priced_sum);
}

// What is around a block, filled by the plans of `rest_`.
void Search::complete(int node) {
  Node const& now = nodes_[static_cast<std::size_t>(node)];
  for (bool const above : {false, true}) {  // which strip is whole
    std::int64_t const right = task_.width - now.width, top = task_.height - now.height;
    std::size_t const whole = above ? rest_.cell(task_.width, top) : rest_.cell(right, task_.height);
    std::size_t const part = above ? rest_.cell(right, now.height) : rest_.cell(now.width, top);
    steps_ += 2;
    if (now.value + rest_.value(whole) + rest_.value(part) <= best_) continue;
    steps_ += static_cast<std::int64_t>(task_.wants.size()) / 8;
    std::vector<std::int64_t> left;
    for (std::size_t i = 0; i < task_.wants.size(); ++i)
      left.push_back(task_.wants[i].copies - packing_.count(counts(node), i));
    std::int64_t value = now.value;
    for (std::size_t const cell : {part, whole})
      for (std::size_t i = 0; i < left.size(); ++i) {
        std::int64_t const more = std::min(left[i], packing_.count(rest_.counts(cell), i));
        left[i] -= more;
        value += more * task_.wants[i].value;
      }
    if (value <= best_) continue;
    best_ = value;
    best_node_ = node;
    best_way_ = above ? 2 : 1;
    completed_ = Tree{};
    for (std::size_t i = 0; i < left.size(); ++i)
      left[i] = task_.wants[i].copies - packing_.count(counts(node), i);
    int const own = block(completed_, node);
    int const beside_own = rest_.plan(completed_, part, left);
    int const strip = rest_.plan(completed_, whole, left);
    int const row = join(completed_, own, beside_own, !above);
    completed_.root = join(completed_, row, strip, above);
  }
}

int Search::block(Tree& tree, int node) const {
  Node const& now = nodes_[static_cast<std::size_t>(node)];
  if (now.second < 0) {
    bool const turned = now.first < 0;
    int const want = turned ? -2 - now.first : now.first;
    tree.blocks.push_back(piece_block(task_.wants[static_cast<std::size_t>(want)], want, turned));
    return static_cast<int>(tree.blocks.size()) - 1;
  }
  int const first = block(tree, now.first);
  return join(tree, first, block(tree, now.second), now.above);
}

Tree Search::tree() const {
  if (best_way_ != 0) return completed_;
  Tree tree;
  tree.root = block(tree, best_node_);
  return tree;
}

}  // namespace endband::cutting::one_sheet
