// Random orders, each cut out again; the same plan however the tasks are run; and small orders against brute
// force.
#include "engine/cutting/sheets/sheets.h"
#include "tests/engine/cutting/sheets/plan_replay.h"

#include <doctest/doctest.h>

#include <map>
#include <optional>
#include <thread>
#include <tuple>

namespace endband::cutting {
namespace {

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : state_(seed * 2 + 1) {}
  std::int64_t operator()(std::int64_t from, std::int64_t to) {
    state_ = state_ * 6364136223846793005U + 1442695040888963407U;  // Knuth's MMIX
    return from + static_cast<std::int64_t>((state_ >> 33U) % static_cast<std::uint64_t>(to - from + 1));
  }

 private:
  std::uint64_t state_;
};

SheetRequest any_request(std::uint64_t seed) {
  Dice dice(seed);
  SheetRequest request;
  request.kerf = dice(0, 2) == 0 ? dice(1, 9) : 0;
  request.trim = dice(0, 2) == 0 ? dice(1, 20) : 0;
  request.least_kept = dice(0, 1) == 0 ? dice(1, 120) : 0;
  if (dice(0, 1) == 0) request.worth = {dice(0, 4), 4};
  for (std::int64_t n = dice(1, 4); n > 0; --n) {
    Sheet sheet{dice(200, 700), dice(200, 1000), dice(0, 500)};
    if (dice(0, 1) == 0) sheet.copies = dice(0, 3);
    sheet.by_length = dice(0, 5) == 0;
    request.sheets.push_back(sheet);
  }
  for (std::int64_t n = dice(1, 7); n > 0; --n)
    request.pieces.push_back({dice(10, 300), dice(10, 400), dice(0, 4), dice(0, 1) == 0});
  return request;
}

bool same(Answer<CutSheet> const& a, Answer<CutSheet> const& b) {
  auto const cut = [](Cut const& c) { return std::tuple(c.part, c.across, c.at); };
  auto const laid = [](Laid const& l) { return std::tuple(l.piece, l.part, l.x, l.y, l.turned); };
  if (a.outcome != b.outcome || a.used.size() != b.used.size() || a.proof.cost != b.proof.cost ||
      a.proof.bound != b.proof.bound || a.proof.work != b.proof.work)
    return false;
  for (std::size_t i = 0; i < a.used.size(); ++i) {
    CutSheet const &s = a.used[i], &t = b.used[i];
    if (s.sheet != t.sheet || s.length != t.length || s.kept.size() != t.kept.size()) return false;
    if (!std::equal(s.cuts.begin(), s.cuts.end(), t.cuts.begin(), t.cuts.end(),
                    [&](Cut const& x, Cut const& y) { return cut(x) == cut(y); }))
      return false;
    if (!std::equal(s.laid.begin(), s.laid.end(), t.laid.begin(), t.laid.end(),
                    [&](Laid const& x, Laid const& y) { return laid(x) == laid(y); }))
      return false;
  }
  return true;
}

TEST_CASE("plans of random orders hold when they are cut out again") {
  int planned = 0;
  for (std::uint64_t seed = 0; seed < 100; ++seed) {
    SheetRequest const request = any_request(seed);
    auto const answer = plan_sheets(request, {seed % 3 == 0 ? 0 : 4000, {}});
    CAPTURE(seed);
    CHECK((answer.outcome == Outcome::planned) == answer.obstacles.empty());
    if (answer.outcome != Outcome::planned) continue;
    ++planned;
    CHECK(PlanReplay(request, answer).fault() == "");
  }
  CHECK(planned > 50);
}

TEST_CASE("more work is never worse") {
  for (std::uint64_t seed = 1000; seed < 1015; ++seed) {
    SheetRequest const request = any_request(seed);
    auto const first = plan_sheets(request, {0, {}});
    auto const more = plan_sheets(request, {20'000, {}});
    CAPTURE(seed);
    if (first.outcome == Outcome::planned) CHECK(more.proof.cost <= first.proof.cost);
    CHECK(first.proof.bound == more.proof.bound);
  }
}

TEST_CASE("the same plan in order, in reverse order and at once") {
  using Tasks = std::span<std::function<void()> const>;
  for (std::uint64_t seed = 2000; seed < 2008; ++seed) {
    SheetRequest const request = any_request(seed);
    std::int64_t const work = 20'000;
    auto const plain = plan_sheets(request, {work, {}});
    auto const reversed = plan_sheets(request, {work, [](Tasks tasks) {
                                                  for (std::size_t i = tasks.size(); i-- > 0;) tasks[i]();
                                                }});
    auto const at_once = plan_sheets(request, {work, [](Tasks tasks) {
                                                 std::vector<std::thread> threads;
                                                 for (auto const& task : tasks) threads.emplace_back(task);
                                                 for (auto& thread : threads) thread.join();
                                               }});
    CAPTURE(seed);
    CHECK(same(plain, reversed));
    CHECK(same(plain, at_once));
  }
}

// The least cost by trying every cut and every share of the pieces.
class Brute {
 public:
  explicit Brute(SheetRequest const& request) : request_(request) {
    for (Rect const& piece : request.pieces)
      for (std::int64_t n = 0; n < piece.copies; ++n) pieces_.push_back(piece);
  }
  std::optional<std::int64_t> cost() {
    std::vector<std::int64_t> copies;
    for (Sheet const& sheet : request_.sheets)
      copies.push_back(sheet.copies.value_or(static_cast<std::int64_t>(pieces_.size())));
    best_.reset();
    search((1U << pieces_.size()) - 1U, copies, 0);
    return best_;
  }

 private:
  bool holds(std::int64_t width, std::int64_t height, unsigned set) {
    if (set == 0) return true;
    if (width <= 0 || height <= 0) return false;
    auto const key = std::tuple(width, height, set);
    if (auto const found = known_.find(key); found != known_.end()) return found->second;
    return known_[key] = cut(width, height, set);
  }
  bool cut(std::int64_t width, std::int64_t height, unsigned set) {
    if ((set & (set - 1)) == 0) {
      std::size_t i = 0;
      while ((set >> i) != 1U) ++i;
      Rect const& piece = pieces_[i];
      return (piece.width <= width && piece.height <= height) ||
             (piece.turns && piece.height <= width && piece.width <= height);
    }
    for (unsigned part = (set - 1) & set; part > 0; part = (part - 1) & set) {
      for (std::int64_t at = 1; at < width; ++at)
        if (holds(at, height, part) && holds(width - at - request_.kerf, height, set & ~part)) return true;
      for (std::int64_t at = 1; at < height; ++at)
        if (holds(width, at, part) && holds(width, height - at - request_.kerf, set & ~part)) return true;
    }
    return false;
  }
  void search(unsigned set, std::vector<std::int64_t>& copies, std::int64_t cost) {
    if (best_ && cost >= *best_) return;
    if (set == 0) {
      best_ = cost;
      return;
    }
    unsigned const first = set & (~set + 1U);
    for (std::size_t s = 0; s < copies.size(); ++s) {
      if (copies[s] == 0) continue;
      Sheet const& sheet = request_.sheets[s];
      --copies[s];
      for (unsigned part = set; part > 0; part = (part - 1) & set)
        if ((part & first) != 0 &&
            holds(sheet.width - 2 * request_.trim, sheet.height - 2 * request_.trim, part))
          search(set & ~part, copies, cost + sheet.cost);
      ++copies[s];
    }
  }

  SheetRequest const& request_;
  std::vector<Rect> pieces_;
  std::map<std::tuple<std::int64_t, std::int64_t, unsigned>, bool> known_;
  std::optional<std::int64_t> best_;
};

TEST_CASE("small orders cost what trying everything costs, and the bound is below") {
  int planned = 0;
  for (std::uint64_t seed = 3000; seed < 3040; ++seed) {
    Dice dice(seed);
    SheetRequest request;
    request.kerf = dice(0, 1);
    request.trim = dice(0, 3) == 0 ? 1 : 0;
    for (std::int64_t n = dice(1, 3); n > 0; --n) {
      Sheet sheet{dice(4, 9), dice(4, 9), dice(1, 30)};
      if (dice(0, 2) > 0) sheet.copies = dice(1, 2);
      request.sheets.push_back(sheet);
    }
    for (std::int64_t n = dice(2, 5); n > 0; --n)
      request.pieces.push_back({dice(1, 5), dice(1, 5), 1, dice(0, 1) == 0});
    auto const answer = plan_sheets(request, {20'000, {}});
    auto const least = Brute(request).cost();
    CAPTURE(seed);
    if (!least) {
      CHECK(answer.outcome != Outcome::planned);
      continue;
    }
    ++planned;
    REQUIRE(answer.outcome == Outcome::planned);
    CHECK(answer.proof.cost == *least);
    CHECK(answer.proof.bound <= *least);
  }
  CHECK(planned > 20);
}

}  // namespace
}  // namespace endband::cutting
