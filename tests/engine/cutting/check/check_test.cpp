#include "tests/engine/cutting/check/broken.h"

#include <doctest/doctest.h>

using namespace endband::cutting;

TEST_CASE("each fault of a plan has a name of its own") {
  std::set<std::string_view> all;
  for (int i = 0; i <= static_cast<int>(Broken::outcome); ++i)
    all.insert(broken_name(static_cast<Broken>(i)));
  CHECK(all.size() == static_cast<std::size_t>(Broken::outcome) + 1);
  CHECK(all.count("unknown") == 0);
  CHECK(broken_name(Broken::in_flaw) == "in-flaw");
}
