// For the .cpp files of this module only: makes schedules of lists, in whichever way the project allows.
#pragma once

#include "engine/schedule/place.h"
#include "engine/schedule/plain.h"
#include "engine/schedule/project.h"

#include <compare>
#include <memory>
#include <vector>

namespace endband::schedule {

struct Length {
  int undone = 0;  // tasks that can never be done
  Time finish = 0;
  friend auto operator<=>(Length const&, Length const&) = default;
};

struct Built {
  Length length;
  std::vector<int> next;  // its tasks as a list for the other end, or for the same if there is only one
};

class Builder {
 public:
  virtual ~Builder() = default;
  virtual bool from_both_ends() const = 0;
  virtual Built build(std::vector<int> const& list, End from) = 0;
  virtual Plan plan(std::vector<int> const& list, End from) = 0;
};

std::unique_ptr<Builder> builder_of(Project const& project);

}  // namespace endband::schedule
