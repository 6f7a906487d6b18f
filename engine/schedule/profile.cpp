#include "engine/schedule/profile.h"

#include <algorithm>

namespace endband::schedule {

std::size_t Profile::first_after(Time time) const {
  auto const after = [](Time value, Step const& step) { return value < step.at; };
  return static_cast<std::size_t>(std::upper_bound(steps_.begin(), steps_.end(), time, after) -
                                  steps_.begin());
}

Time Profile::blocked_until(Time from, Time to, int amount) const {
  if (from >= to || amount <= 0) return from;
  int const most = capacity_ - amount;
  if (most < 0) return never;
  if (steps_.empty() || steps_.back().at <= from) return from;  // all is free after the last step
  std::size_t next = first_after(from);
  Time blocked = from;
  if (next > 0 && steps_[next - 1].held > most) blocked = steps_[next].at;
  for (; next < steps_.size() && steps_[next].at < to; ++next)
    if (steps_[next].held > most) blocked = steps_[next + 1].at;  // the last step holds nothing
  return blocked;
}

void Profile::cut_at(Time time) {
  std::size_t const next = first_after(time);
  if (next > 0 && steps_[next - 1].at == time) return;
  int const held = next > 0 ? steps_[next - 1].held : 0;
  steps_.insert(steps_.begin() + static_cast<std::ptrdiff_t>(next), {time, held});
}

void Profile::hold(Time from, Time to, int amount) {
  if (from >= to || amount <= 0) return;
  cut_at(from);
  cut_at(to);
  std::size_t const first = first_after(from) - 1;
  std::size_t last = first;
  for (; steps_[last].at < to; ++last) steps_[last].held += amount;
  // Only at the ends can a step now be as the one before it.
  for (std::size_t const i : {last, first}) {
    int const before = i > 0 ? steps_[i - 1].held : 0;
    if (steps_[i].held == before) steps_.erase(steps_.begin() + static_cast<std::ptrdiff_t>(i));
  }
}

}  // namespace endband::schedule
