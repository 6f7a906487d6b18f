#include "engine/schedule/hours.h"

#include <algorithm>
#include <iterator>
#include <stdexcept>

namespace endband::schedule {

Hours::Hours(Calendar const& calendar) : always_{false} {
  Time before = 0;
  stretches_.reserve(calendar.size());
  for (Open const& open : calendar) {
    if (open.end <= open.begin || (!stretches_.empty() && open.begin <= stretches_.back().end))
      throw std::logic_error("a calendar is out of order");
    stretches_.push_back({open.begin, open.end, before});
    before += open.end - open.begin;
    longest_ = std::max(longest_, open.end - open.begin);
  }
}

std::size_t Hours::first_ending_after(Time time, std::size_t stretch) const {
  // The one wanted is near: a few steps, then halving.
  for (int steps = 0; steps < 4; ++steps, ++stretch)
    if (stretch >= stretches_.size() || stretches_[stretch].end > time) return stretch;
  auto const after = [](Time value, Stretch const& s) { return value < s.end; };
  auto const begin = stretches_.begin() + static_cast<std::ptrdiff_t>(std::min(stretch, stretches_.size()));
  return static_cast<std::size_t>(std::upper_bound(begin, stretches_.end(), time, after) -
                                  stretches_.begin());
}

Hours::Stint Hours::stint(Time from, Time work, bool unbroken, std::size_t stretch) const {
  if (always_) return {from, from + work, 0};
  std::size_t first = first_ending_after(from, stretch);
  if (first == stretches_.size()) return {};
  Time start = std::max(from, stretches_[first].begin);
  if (start + work <= stretches_[first].end) return {start, start + work, first};
  if (unbroken && work <= longest_) {
    while (++first < stretches_.size())
      if (Stretch const& s = stretches_[first]; s.begin + work <= s.end)
        return {s.begin, s.begin + work, first};
    return {};
  }
  Time const done = stretches_[first].before + (start - stretches_[first].begin) + work;
  std::size_t last = first;
  while (++last < stretches_.size())
    if (Stretch const& s = stretches_[last]; done <= s.before + (s.end - s.begin))
      return {start, s.begin + (done - s.before), first};
  return {};
}

Time Hours::least_start(Time end, Time work) const {
  if (always_) return end - work;
  // Open time until the end of the first stint that ends late enough.
  std::size_t const stretch = first_ending_after(end - 1, 0);
  if (stretch == stretches_.size()) return never;
  Stretch const& last = stretches_[stretch];
  Time const begun = last.before + (end > last.begin ? end - last.begin : 1) - work;
  if (begun < 0) return std::numeric_limits<Time>::min();
  auto const after = [](Time value, Stretch const& s) { return value < s.before; };
  auto const in = std::prev(std::upper_bound(stretches_.begin(), stretches_.end(), begun, after));
  return in->begin + (begun - in->before);
}

Time Hours::last_start_before(Time start, Time work, bool unbroken) const {
  if (always_) return start - 1;
  Time const fits = unbroken && work <= longest_ ? work : 1;
  auto const later = [](Stretch const& s, Time value) { return s.begin < value; };
  auto s = std::lower_bound(stretches_.begin(), stretches_.end(), start, later);
  while (s-- != stretches_.begin())
    if (s->end - fits >= s->begin) return std::min(start - 1, s->end - fits);
  return std::numeric_limits<Time>::min();
}

Time Hours::open_within(Time from, Time to) const {
  if (always_) return to - from;
  Time open = 0;
  for (std::size_t i = first_ending_after(from, 0); i < stretches_.size() && stretches_[i].begin < to; ++i)
    open += std::min(to, stretches_[i].end) - std::max(from, stretches_[i].begin);
  return open;
}

Calendar both(Calendar const& a, Calendar const& b) {
  Calendar common;
  for (std::size_t i = 0, k = 0; i < a.size() && k < b.size();) {
    Open const open{std::max(a[i].begin, b[k].begin), std::min(a[i].end, b[k].end)};
    if (open.begin < open.end) common.push_back(open);
    a[i].end < b[k].end ? ++i : ++k;
  }
  return common;
}

SharedHours::SharedHours(Project const& project) : project_{&project} {
  std::vector<Hours> each(project.calendars.begin(), project.calendars.end());
  each.emplace_back();
  each_ = std::make_shared<std::vector<Hours> const>(std::move(each));
}

Hours const& SharedHours::of(std::span<int const> calendars) {
  auto const closes = [](int calendar) { return calendar >= 0; };
  auto const first = std::find_if(calendars.begin(), calendars.end(), closes);
  if (first == calendars.end()) return each_->back();
  auto const same = [&](int calendar) { return calendar < 0 || calendar == *first; };
  if (std::all_of(first, calendars.end(), same)) return (*each_)[static_cast<std::size_t>(*first)];
  std::vector<int> wanted;
  std::copy_if(first, calendars.end(), std::back_inserter(wanted), closes);
  std::sort(wanted.begin(), wanted.end());
  wanted.erase(std::unique(wanted.begin(), wanted.end()), wanted.end());
  for (Common const& known : common_)
    if (known.calendars == wanted) return *known.hours;
  Calendar all = project_->calendars[static_cast<std::size_t>(wanted[0])];
  for (int calendar : wanted) all = both(all, project_->calendars[static_cast<std::size_t>(calendar)]);
  common_.push_back({std::move(wanted), std::make_shared<Hours const>(all)});
  return *common_.back().hours;
}

}  // namespace endband::schedule
