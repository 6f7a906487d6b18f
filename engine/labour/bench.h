// Who works when, and what stands in the workshop that a step may occupy: presses, drying places.
#pragma once

#include "engine/measure/measure.h"
#include "engine/money/money.h"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace endband {

// A working stretch of one day, in seconds from midnight: 0 <= begin < end <= 86,400.
struct Stretch {
  std::int64_t begin = 0, end = 0;
  friend bool operator==(Stretch const&, Stretch const&) = default;
};
using WorkingWeek = std::array<std::vector<Stretch>, 7>;  // Monday first; in order, none touch

Duration length_of(WorkingWeek const& week);

struct DaysOff {  // both ends included
  Date first, last;
  friend bool operator==(DaysOff const&, DaysOff const&) = default;
};

struct Person {
  std::string code, name;
  WorkingWeek week;
  std::optional<Money> rate;  // an hour; none: the workshop's
  Duration overtime;          // at most so much a working day beyond the week's hours, in a rush
  std::vector<DaysOff> off;   // in order, the workshop's closed days too
};

struct Place {  // a press, a drying place; `count` books at once
  std::string code, name;
  int count = 1;
};

struct Bench {
  std::vector<Person> people;  // by code
  std::vector<Place> places;   // by code
  Person const* person(std::string_view code) const;
  Place const* place(std::string_view code) const;
};

}  // namespace endband
