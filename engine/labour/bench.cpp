#include "engine/labour/bench.h"

#include <algorithm>

namespace endband {

Duration length_of(WorkingWeek const& week) {
  Duration sum;
  for (auto const& day : week)
    for (Stretch const& stretch : day) sum.n += stretch.end - stretch.begin;
  return sum;
}

Person const* Bench::person(std::string_view code) const {
  auto const found =
      std::find_if(people.begin(), people.end(), [&](Person const& p) { return p.code == code; });
  return found == people.end() ? nullptr : &*found;
}

Place const* Bench::place(std::string_view code) const {
  auto const found =
      std::find_if(places.begin(), places.end(), [&](Place const& p) { return p.code == code; });
  return found == places.end() ? nullptr : &*found;
}

}  // namespace endband
