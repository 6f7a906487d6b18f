#include "engine/cutting/geometry/convex.h"

#include <doctest/doctest.h>

using namespace endband::cutting;
using namespace endband::cutting::exact;

TEST_CASE("a hull has its corners anticlockwise and no straight ones") {
  CHECK(hull_of({{2, 2}, {0, 0}, {4, 4}, {4, 0}, {2, 0}, {0, 4}, {4, 2}, {0, 0}}) ==
        Polygon{{0, 0}, {4, 0}, {4, 4}, {0, 4}});
}

TEST_CASE("the sum of an edge and a square is a hexagon") {
  std::vector<Point> const edge{{0, 0}, {5, 3}};
  CHECK(hull_of_sums(edge, rectangle(2, 2)) == Polygon{{0, 0}, {2, 0}, {7, 3}, {7, 5}, {5, 5}, {0, 2}});
}

TEST_CASE("convex parts cover a notched shape exactly, in few parts") {
  Polygon const cross{{2, 0}, {4, 0}, {4, 2}, {6, 2}, {6, 4}, {4, 4},
                      {4, 6}, {2, 6}, {2, 4}, {0, 4}, {0, 2}, {2, 2}};
  std::vector<Polygon> const parts = convex_parts(cross);
  CHECK(parts.size() <= 5);
  std::int64_t area = 0;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    area += twice_area(parts[i]);
    CHECK(parts[i].size() == hull_of(parts[i]).size());
    CHECK(within(parts[i], cross));
    for (std::size_t k = 0; k < i; ++k) CHECK_FALSE(overlap(parts[i], parts[k]));
  }
  CHECK(area == twice_area(cross));
  CHECK(convex_parts({{0, 0}, {0, 4}, {4, 4}, {4, 2}, {4, 0}}).size() == 1);
}
