// Walks one writing operation over a failing disk: whatever step fails, and however, the workshop afterwards
// is sound and stands as before the operation or as after it.
#pragma once

#include "db/workshop.h"
#include "tests/db/bench.h"

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

namespace endband::faults {

// How an operation ended for whoever asked for it: done, or told that nothing was saved.
enum class Ending : std::uint8_t { done, told };

struct Walked {
  int steps = 0;                   // of the operation, where nothing fails
  int runs = 0;                    // on a failing disk
  std::vector<std::string> wrong;  // what must not happen, each with the failure and the step
};

// For each kind of failure: `operation` on a copy of the workshop `base`, in a process of its own, with its
// first step failing, then its second, ... until it has fewer steps. `base` may be no file yet. Of more than
// 45 steps, between the first 30 and the last 15 only each `stride`-th.
Walked walk(std::string const& base, std::function<Ending(std::string const& path)> const& operation,
            int stride = 1);

// A workshop to begin with, and what happened to copies of it; checks by doctest.
class DiskWalk {
 public:
  // `prepare` fills a new workshop.
  explicit DiskWalk(std::function<void(db::Workshop&)> const& prepare);

  // `operation` writes and commits; what it cannot do it throws. Answers how many steps it took.
  int over(std::function<void(db::Workshop&)> const& operation);

 private:
  db::test::Folder folder_;
  std::string const base_ = folder_.file("base.db");
};

}  // namespace endband::faults
