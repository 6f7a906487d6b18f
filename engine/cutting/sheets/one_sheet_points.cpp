#include "engine/cutting/sheets/one_sheet_points.h"

#include <algorithm>
#include <iterator>

namespace endband::cutting::one_sheet {

namespace {

// Every position of `at` with up to `copies` of one more size behind it.
void add(std::vector<std::int64_t>& at, Lengths const& kind, std::int64_t limit, std::size_t most) {
  std::vector<std::int64_t> fresh = at;
  for (std::int64_t n = 0; n < kind.copies && !fresh.empty() && at.size() <= most; ++n) {
    std::vector<std::int64_t> moved, merged;
    for (std::int64_t const x : fresh)
      if (x + kind.size <= limit) moved.push_back(x + kind.size);
    fresh.clear();
    std::set_difference(moved.begin(), moved.end(), at.begin(), at.end(), std::back_inserter(fresh));
    std::merge(at.begin(), at.end(), fresh.begin(), fresh.end(), std::back_inserter(merged));
    at.swap(merged);
  }
}

}  // namespace

Points::Points(std::vector<Lengths> const& lengths, std::int64_t limit, std::size_t most, Kind kind)
    : at_{0} {
  // The larger first: the smaller then find the fewest positions to start from beyond the limit.
  std::vector<Lengths> sorted = lengths;
  std::sort(sorted.begin(), sorted.end(), [](Lengths const& a, Lengths const& b) { return a.size > b.size; });
  std::size_t const room = std::max<std::size_t>(4 * most, 64);
  for (Lengths const& length : sorted) {
    add(at_, length, limit, room);
    if (at_.size() > room) thin(most);
  }
  if (kind == Kind::halved && complete_) halve(limit);
  if (at_.size() > most) thin(most);
  if (at_.back() != limit) at_.push_back(limit);
  index();
}

// Of each of `most` equal stretches the farthest position stays.
void Points::thin(std::size_t most) {
  complete_ = false;
  std::int64_t const stretch = std::max<std::int64_t>(1, at_.back() / static_cast<std::int64_t>(most) + 1);
  std::vector<std::int64_t> kept{0};
  for (std::size_t i = 1; i < at_.size(); ++i)
    if (i + 1 == at_.size() || at_[i] / stretch != at_[i + 1] / stretch) kept.push_back(at_[i]);
  at_.swap(kept);
}

void Points::halve(std::int64_t limit) {
  std::vector<std::int64_t> kept;
  for (std::int64_t const x : at_)
    if (x <= limit / 2) kept.push_back(x);
  for (std::size_t i = kept.size(); i-- > 0;) {
    std::int64_t const last = *(std::upper_bound(at_.begin(), at_.end(), limit - kept[i]) - 1);
    if (last > kept.back()) kept.push_back(last);
  }
  at_.swap(kept);
  halved_ = true;
}

void Points::index() {
  while ((limit() >> shift_) > 4096) ++shift_;
  start_.assign(static_cast<std::size_t>(limit() >> shift_) + 1, 0);
  std::size_t point = 0;
  for (std::size_t i = 0; i < start_.size(); ++i) {
    while (point + 1 < at_.size() && at_[point + 1] <= (static_cast<std::int64_t>(i) << shift_)) ++point;
    start_[i] = static_cast<std::uint16_t>(point);
  }
  rest_.assign(at_.size() * at_.size(), 0);
  for (std::size_t whole = 0; whole < at_.size(); ++whole) {
    std::size_t left = whole;
    for (std::size_t part = 0; part <= whole; ++part) {
      while (at_[left] > at_[whole] - at_[part]) --left;
      rest_[whole * at_.size() + part] = static_cast<std::uint16_t>(left);
    }
  }
}

}  // namespace endband::cutting::one_sheet
