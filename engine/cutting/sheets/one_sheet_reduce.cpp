#include "engine/cutting/sheets/one_sheet_reduce.h"

#include <algorithm>
#include <numeric>

namespace endband::cutting::one_sheet {

namespace {

__extension__ using Wide = __int128;
constexpr std::int64_t most_copies = 30'000;

bool fits(Task const& task, Want const& want) {
  return (want.width <= task.width && want.height <= task.height) ||
         (want.turns && want.height <= task.width && want.width <= task.height);
}

bool alike(Want const& a, Want const& b) {
  return a.width == b.width && a.height == b.height && a.value == b.value && a.turns == b.turns;
}

void divide(Task& task) {
  std::int64_t x = 0, y = 0;
  bool turns = false;
  for (Want const& want : task.wants) {
    x = std::gcd(x, want.width);
    y = std::gcd(y, want.height);
    turns = turns || want.turns;
  }
  if (turns) x = y = std::gcd(x, y);
  if (x == 0 || y == 0) return;
  task.width /= x;
  task.height /= y;
  for (Want& want : task.wants) {
    want.width /= x;
    want.height /= y;
  }
}

}  // namespace

Reduced reduce(Task const& task) {
  Reduced reduced;
  reduced.task.width = task.width;
  reduced.task.height = task.height;
  Wide const area = static_cast<Wide>(task.width) * task.height;
  for (std::size_t i = 0; i < task.wants.size(); ++i) {
    Want want = task.wants[i];
    if (want.value <= 0 || want.copies <= 0 || !fits(task, want)) continue;
    Wide const most = area / (static_cast<Wide>(want.width) * want.height);
    if (most < want.copies) want.copies = static_cast<std::int64_t>(most);
    auto& wants = reduced.task.wants;
    auto const same =
        std::find_if(wants.begin(), wants.end(), [&](Want const& other) { return alike(want, other); });
    if (same == wants.end()) {
      wants.push_back(want);
      reduced.from.push_back({i});
    } else {
      same->copies =
          most < same->copies + want.copies ? static_cast<std::int64_t>(most) : same->copies + want.copies;
      reduced.from[static_cast<std::size_t>(same - wants.begin())].push_back(i);
    }
  }
  for (Want& want : reduced.task.wants)
    if (want.copies > most_copies) {
      want.copies = most_copies;
      reduced.whole = false;
    }
  divide(reduced.task);
  return reduced;
}

Filling restore(Task const& task, Reduced const& reduced, Tree const& tree) {
  Filling filling;
  filling.counts.assign(task.wants.size(), 0);
  Tree& whole = filling.tree;
  whole.root = tree.root;
  for (Block block : tree.blocks) {
    if (block.first < 0) {
      auto const& from = reduced.from[static_cast<std::size_t>(block.want)];
      std::size_t const want = *std::find_if(from.begin(), from.end() - 1, [&](std::size_t i) {
        return filling.counts[i] < task.wants[i].copies;
      });
      ++filling.counts[want];
      filling.value += task.wants[want].value;
      whole.blocks.push_back(piece_block(task.wants[want], static_cast<int>(want), block.turned));
    } else {
      Block const& a = whole.blocks[static_cast<std::size_t>(block.first)];
      Block const& b = whole.blocks[static_cast<std::size_t>(block.second)];
      block.width = block.above ? std::max(a.width, b.width) : a.width + b.width;
      block.height = block.above ? a.height + b.height : std::max(a.height, b.height);
      whole.blocks.push_back(block);
    }
  }
  return filling;
}

}  // namespace endband::cutting::one_sheet
