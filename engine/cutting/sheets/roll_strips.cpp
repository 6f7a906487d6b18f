#include "engine/cutting/sheets/roll_strips.h"

#include "engine/chance/mixed.h"
#include "engine/cutting/sheets/roll_order.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace endband::cutting::one_sheet {

namespace {

std::int64_t value_of(Task const& task) {
  std::int64_t sum = 0;
  for (Want const& want : task.wants) sum += want.value * want.copies;
  return sum;
}

// As a filling's tree names the wants of a part of the task.
Strip strip_of(Filling const& filling) {
  return {filling.tree, filling.tree.blocks[static_cast<std::size_t>(filling.tree.root)].height,
          filling.counts};
}

void move(std::vector<int>& wants, std::size_t from, std::size_t to) {
  int const want = wants[from];
  wants.erase(wants.begin() + static_cast<std::ptrdiff_t>(from));
  wants.insert(wants.begin() + static_cast<std::ptrdiff_t>(to), want);
}

}  // namespace

std::int64_t height_of(std::vector<Strip> const& strips) {
  std::int64_t height = 0;
  for (Strip const& strip : strips) height += strip.height;
  return height;
}

Tree stack(std::vector<Strip> const& strips) {
  Tree whole;
  for (Strip const& strip : strips) {
    int const base = static_cast<int>(whole.blocks.size());
    for (Block block : strip.tree.blocks) {
      if (block.first >= 0) {
        block.first += base;
        block.second += base;
      }
      whole.blocks.push_back(block);
    }
    whole.root = join(whole, whole.root, base + strip.tree.root, true);
  }
  return whole;
}

void RollPacker::run(std::int64_t work) {
  by_order(work / 3);
  if (!done()) by_parts(work * 3 / 4);
  if (!done()) by_whole(work);
}

std::uint64_t RollPacker::next(std::uint64_t below) { return mixed(drawn_++ * mixing_step) % below; }

// From the tallest first; then two are exchanged, one is moved or one is turned, and what is no longer stays.
void RollPacker::by_order(std::int64_t work) {
  std::size_t const n = task_.wants.size();
  Order order;
  order.wants.resize(n);
  order.turned.resize(n);
  std::iota(order.wants.begin(), order.wants.end(), 0);
  auto const rise = [&](int want) {
    Want const& one = task_.wants[static_cast<std::size_t>(want)];
    return order.turned[static_cast<std::size_t>(want)] ? one.width : one.height;
  };
  for (std::size_t i = 0; i < n; ++i) {
    Want const& want = task_.wants[i];
    order.turned[i] =
        want.turns && want.height <= task_.width && (want.width > task_.width || want.height > want.width);
  }
  std::stable_sort(order.wants.begin(), order.wants.end(), [&](int a, int b) { return rise(a) > rise(b); });
  Decoder decoder(task_);
  best_ = decoder.run(order);
  height_ = height_of(best_);
  while (decoder.steps() < work && !done()) {
    Order tried = order;
    std::size_t const from = next(n), to = next(n);
    if (next(3) == 0) {
      std::swap(tried.wants[from], tried.wants[to]);
    } else {
      move(tried.wants, from, to);
    }
    if (next(8) == 0) tried.longest_first = !tried.longest_first;
    if (next(4) == 0) {
      std::size_t const i = next(n);
      Want const& want = task_.wants[i];
      if (want.turns && std::max(want.width, want.height) <= task_.width) tried.turned[i] = !tried.turned[i];
    }
    std::vector<Strip> strips = decoder.run(tried);
    std::int64_t const height = height_of(strips);
    if (height > height_) continue;
    order = std::move(tried);
    best_ = std::move(strips);
    height_ = height;
  }
  work_ += decoder.steps();
}

Task RollPacker::part_of(std::vector<std::size_t> const& chosen, std::int64_t height) const {
  Task part;
  part.width = task_.width;
  part.height = height;
  part.wants = task_.wants;
  for (std::size_t i = 0; i < part.wants.size(); ++i) {
    part.wants[i].copies = 0;
    for (std::size_t const strip : chosen) part.wants[i].copies += best_[strip].counts[i];
    part.wants[i].value = part.wants[i].width * part.wants[i].height;
  }
  return part;
}

// A few strips are laid anew in less than they take together, until the work is spent.
void RollPacker::by_parts(std::int64_t work) {
  __extension__ using Wide = __int128;
  while (work_ < work && !done() && best_.size() > 1) {
    std::size_t const some = std::min<std::size_t>(best_.size(), 2 + next(3));
    std::vector<std::size_t> chosen;
    while (chosen.size() < some)
      if (std::size_t const strip = next(best_.size());
          std::find(chosen.begin(), chosen.end(), strip) == chosen.end())
        chosen.push_back(strip);
    std::int64_t together = 0;
    for (std::size_t const strip : chosen) together += best_[strip].height;
    Task const part = part_of(chosen, together - 1);
    std::int64_t const all = value_of(part);
    work_ += 10;
    if (static_cast<Wide>(part.width) * part.height < all) continue;
    Filling const filling = one_sheet::fill(part, work / 100);
    work_ += filling.work + 20;
    if (filling.value < all) continue;
    std::sort(chosen.rbegin(), chosen.rend());
    for (std::size_t const strip : chosen) best_.erase(best_.begin() + static_cast<std::ptrdiff_t>(strip));
    best_.push_back(strip_of(filling));
    height_ = height_of(best_);
  }
}

// The whole in less; where that is proved impossible, the plan is the best.
void RollPacker::by_whole(std::int64_t work) {
  while (work_ < work && !done()) {
    std::vector<std::size_t> every(best_.size());
    std::iota(every.begin(), every.end(), std::size_t{0});
    Task const whole = part_of(every, height_ - 1);
    std::int64_t const all = value_of(whole);
    Filling const filling = one_sheet::fill(whole, work - work_);
    work_ += filling.work + 20;
    if (filling.bound < all) least_ = height_;
    if (filling.value < all) return;
    best_ = {strip_of(filling)};
    height_ = best_[0].height;
  }
}

}  // namespace endband::cutting::one_sheet
