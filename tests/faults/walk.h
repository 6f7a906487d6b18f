// Walks one writing operation over a failing disk: whatever step fails, and however, the workshop afterwards
// is sound and stands as before the operation or as after it.
#pragma once

#include "db/workshop.h"
#include "tests/db/bench.h"

#include <functional>
#include <string>

namespace endband::faults {

// Every row of every table, in order.
std::string dump(db::Workshop& workshop);

// A workshop to begin with, and what happened to copies of it.
class DiskWalk {
 public:
  // `prepare` fills a new workshop.
  explicit DiskWalk(std::function<void(db::Workshop&)> const& prepare);

  // For each kind of failure: the operation with its first step failing, then its second, ... until it has
  // fewer steps. `operation` writes and commits; what it cannot do it throws. Checks by doctest; answers how
  // many steps it took.
  int over(std::function<void(db::Workshop&)> const& operation);

 private:
  std::string copy() const;  // of the workshop to begin with; the path

  db::test::Folder folder_;
  std::string const base_ = folder_.file("base.db");
};

}  // namespace endband::faults
