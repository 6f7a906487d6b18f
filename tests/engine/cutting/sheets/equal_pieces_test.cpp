// Of equal pieces the most that is worth keeping, found by trying every cut in the test itself.
#include "engine/cutting/check/check.h"
#include "engine/cutting/geometry/worth.h"

#include <doctest/doctest.h>

#include <algorithm>

using namespace endband::cutting;

namespace {

struct Every {
  std::int64_t piece_width, piece_height, least;
  // The most area kept; -1: they do not fit.
  std::int64_t kept(std::int64_t width, std::int64_t height, int count) const {
    if (count == 0) return std::min(width, height) >= least ? width * height : 0;
    if (width < piece_width || height < piece_height) return -1;
    if (count == 1 && width == piece_width && height == piece_height) return 0;
    std::int64_t best = -1;
    for (std::int64_t at = 1; at < width; ++at)
      best = std::max(best, both(at, height, width - at, height, count));
    for (std::int64_t at = 1; at < height; ++at)
      best = std::max(best, both(width, at, width, height - at, count));
    return best;
  }
  std::int64_t both(std::int64_t w1, std::int64_t h1, std::int64_t w2, std::int64_t h2, int count) const {
    std::int64_t best = -1;
    for (int first = 0; first <= count; ++first) {
      std::int64_t const one = kept(w1, h1, first);
      if (one < 0) continue;
      std::int64_t const other = kept(w2, h2, count - first);
      if (other >= 0) best = std::max(best, one + other);
    }
    return best;
  }
};

}  // namespace

TEST_CASE("of equal pieces as much is kept as any cuts leave") {
  struct Case {
    std::int64_t width, height, piece_width, piece_height, least;
    int count;
  };
  for (Case const& of :
       {Case{7, 6, 2, 1, 2, 3}, Case{8, 5, 3, 2, 2, 2}, Case{6, 7, 1, 2, 3, 4}, Case{9, 4, 2, 2, 3, 2}}) {
    CAPTURE(of.width);
    SheetRequest request;
    request.sheets.push_back({of.width, of.height, 1'000'000});
    request.pieces.push_back({of.piece_width, of.piece_height, of.count});
    request.least_kept = of.least;
    request.worth = {1, 2};
    Answer<CutSheet> const answer = plan_sheets(request, {2'000, {}});
    CHECK(check(request, answer).empty());
    REQUIRE(answer.used.size() == 1);
    std::int64_t kept = 0;
    for (Offcut const& offcut : answer.used[0].kept) kept += offcut.width * offcut.height;
    CHECK(kept == Every{of.piece_width, of.piece_height, of.least}.kept(of.width, of.height, of.count));
  }
}

TEST_CASE("with kerf and trim the cuts still pass the check") {
  SheetRequest request;
  request.sheets.push_back({700'000, 1'000'000, 1'000'000});
  request.pieces.push_back({15'200, 29'100, 10});
  request.kerf = 1'500;
  request.trim = 4'000;
  request.least_kept = 80'000;
  request.worth = {1, 2};
  Answer<CutSheet> const answer = plan_sheets(request, {20'000, {}});
  CHECK(check(request, answer).empty());
  CHECK(answer.used.size() == 1);
}
