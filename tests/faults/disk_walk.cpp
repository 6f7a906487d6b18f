#include "tests/faults/walk.h"

#include <doctest/doctest.h>

namespace endband::faults {

DiskWalk::DiskWalk(std::function<void(db::Workshop&)> const& prepare) {
  db::Workshop workshop = db::test::new_workshop(base_);
  prepare(workshop);
}

int DiskWalk::over(std::function<void(db::Workshop&)> const& operation) {
  Walked const walked = walk(base_, [&](std::string const& path) {
    try {
      auto workshop = db::Workshop::open(path);
      if (!workshop) return Ending::told;
      operation(*workshop);
    } catch (db::StoreError const&) {
      return Ending::told;
    }
    return Ending::done;
  });
  for (std::string const& wrong : walked.wrong) FAIL_CHECK(wrong);
  return walked.steps;
}

}  // namespace endband::faults
