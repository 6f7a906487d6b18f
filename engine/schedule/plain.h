// For the .cpp files of this module only: a project whose resources are always open and whose links only say
// "after", in a form in which some hundred thousand schedules a second can be made, from either end.
#pragma once

#include "engine/schedule/project.h"

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace endband::schedule {

enum class End : std::uint8_t { first, last };  // from which a schedule is packed

class Plain {
 public:
  // Nothing if the project is not such a one: it has hours, a choice of hands, links of another kind, or is
  // too long for its unit of time.
  static std::optional<Plain> of(Project const& project);

  int size() const { return static_cast<int>(lasts_.size()); }
  Time unit() const { return unit_; }  // of its own lengths
  int lasts(int task) const { return lasts_[static_cast<std::size_t>(task)]; }
  // Puts the tasks in this order, each as near to that end as can be: `starts` are counted from there, so
  // that from the last a start is the end of the task before the end of all. Returns the length of all.
  int build(std::span<int const> order, End from, std::span<int> starts);
  Plan plan(std::span<int const> starts) const;  // counted from the first

 private:
  struct Neighbour {
    int task, lag;
  };
  int earliest(int task, End from, std::span<int const> starts) const;
  int fitting(int task, int start) const;

  std::vector<int> lasts_, waits_, hands_;
  std::vector<std::vector<Neighbour>> before_, after_;
  std::size_t words_ = 0;               // four resources in each, sixteen bits a resource
  std::vector<std::uint64_t> demands_;  // by task, then word
  std::vector<std::uint64_t> free_;     // by time, then word
  std::vector<std::uint64_t> capacity_;
  std::size_t dirty_ = 0;  // times from which on nothing is held
  Time unit_ = 1;
};

}  // namespace endband::schedule
