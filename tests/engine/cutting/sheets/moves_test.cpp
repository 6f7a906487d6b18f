// Two moves of the search, each against all there is to choose from: which stock to make do with, and which
// of the sheets filled before to put together anew.
#include "engine/cutting/sheets/cover.h"
#include "engine/cutting/sheets/stock.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <limits>
#include <map>
#include <optional>
#include <set>
#include <utility>
#include <vector>

namespace endband::cutting::many {
namespace {

using Counts = std::vector<std::int64_t>;

std::int64_t any(std::int64_t from, std::int64_t to) { return *rc::gen::inRange(from, to + 1); }
std::size_t at(std::int64_t i) { return static_cast<std::size_t>(i); }

// A few pieces from sheets of two or three sizes, some of which run out.
SheetRequest any_request() {
  SheetRequest request;
  for (std::int64_t n = any(2, 3); n > 0; --n) {
    Sheet sheet{any(60, 120), any(60, 160), any(20, 90)};
    if (any(0, 1) == 0) sheet.copies = any(1, 3);
    request.sheets.push_back(sheet);
  }
  for (std::int64_t n = any(1, 4); n > 0; --n)
    request.pieces.push_back({any(20, 60), any(20, 60), any(1, 3), any(0, 1) == 0});
  return request;
}

// --- stock
std::int64_t sum(Job const& job, Counts const& copies, std::int64_t Kind::*of) {
  std::int64_t all = 0;
  for (std::size_t k = 0; k < copies.size(); ++k) all += copies[k] * (job.kinds[k].*of);
  return all;
}

// Cheaper than `below`, with area enough, and not without any one of its sheets.
bool to_try(Job const& job, Counts copies, std::int64_t below) {
  if (sum(job, copies, &Kind::cost) >= below || sum(job, copies, &Kind::area) < job.area) return false;
  for (std::int64_t& of : copies) {
    if (of == 0) continue;
    --of;
    bool const enough = sum(job, copies, &Kind::area) >= job.area;
    ++of;
    if (enough) return false;
  }
  return true;
}

std::set<Counts> all_to_try(Job const& job, std::int64_t below) {
  std::set<Counts> found;
  Counts copies(job.kinds.size());
  for (;;) {
    if (to_try(job, copies, below)) found.insert(copies);
    std::size_t k = 0;
    while (k < copies.size() && copies[k] == job.kinds[k].copies) copies[k++] = 0;
    if (k == copies.size()) return found;
    ++copies[k];
  }
}

std::set<Counts> copies_of(std::vector<Selection> const& selections) {
  std::set<Counts> copies;
  for (Selection const& selection : selections) copies.insert(selection.copies);
  return copies;
}

// --- sheets filled before
struct Filled {
  Job job;
  std::vector<Pattern> patterns;
  std::optional<Plan> best;
};
Filled filled(SheetRequest const& request) {
  Filled of{job_of(request), {}, {}};
  Strand strand(of.job, 0, 0);
  strand.run(3'000);
  of.patterns = strand.pool().patterns();
  if (of.patterns.size() > 12) of.patterns.resize(12);
  of.best = strand.best();
  return of;
}

// The least cost of any choice of them that holds what is left.
class Every {
 public:
  explicit Every(Filled const& of) : of_(of) {}
  std::optional<std::int64_t> least(Rest const& rest) {
    if (rest.count == 0) return 0;
    auto const [known, is_new] = seen_.try_emplace({rest.pieces, rest.copies});
    if (!is_new) return known->second;
    std::optional<std::int64_t> best;
    for (Pattern const& pattern : of_.patterns) {
      std::optional<Rest> next = without(rest, pattern);
      if (!next) continue;
      if (auto const then = least(*next))
        best = std::min(best.value_or(*then + pattern.cost), *then + pattern.cost);
    }
    return seen_[{rest.pieces, rest.copies}] = best;
  }

 private:
  // None: none of it is wanted, or there is no such sheet any more.
  static std::optional<Rest> without(Rest rest, Pattern const& pattern) {
    if (rest.copies[at(pattern.kind)]-- == 0) return std::nullopt;
    std::int64_t const before = rest.count;
    for (Use const& use : pattern.uses) {
      std::int64_t const laid = std::min(use.count, rest.pieces[at(use.type)]);
      rest.pieces[at(use.type)] -= laid;
      rest.count -= laid;
    }
    return rest.count < before ? std::optional(rest) : std::nullopt;
  }

  Filled const& of_;
  std::map<std::pair<Counts, Counts>, std::optional<std::int64_t>> seen_;
};

void check_plan(Job const& job, Plan const& plan) {
  Counts laid(job.types.size()), copies(job.kinds.size());
  for (Planned const& planned : plan.patterns) {
    copies[at(planned.pattern.kind)] += planned.times;
    for (Use const& use : planned.pattern.uses) laid[at(use.type)] += use.count * planned.times;
  }
  for (std::size_t t = 0; t < laid.size(); ++t) RC_ASSERT(laid[t] == job.types[t].count);
  for (std::size_t k = 0; k < copies.size(); ++k) RC_ASSERT(copies[k] <= job.kinds[k].copies);
}

constexpr std::int64_t no_limit = std::numeric_limits<std::int64_t>::max() / 4;

}  // namespace

TEST_CASE("the stock to make do with is every choice that is cheaper, large enough and no larger") {
  CHECK(rc::check([] {
    SheetRequest const request = any_request();
    Job const job = job_of(request);
    RC_PRE(!job.kinds.empty());
    Plan plan;
    plan.cost = any(50, 700);
    Chance chance(1);
    auto const found = selections(job, plan, 100'000, chance);
    RC_ASSERT(copies_of(found).size() == found.size());
    RC_ASSERT(copies_of(found) == all_to_try(job, plan.cost));
    for (Selection const& each : found) RC_ASSERT(each.cost == sum(job, each.copies, &Kind::cost));
  }));
}

TEST_CASE("where there are too many choices of stock some are taken, each of them one to try") {
  CHECK(rc::check([] {
    SheetRequest const request = any_request();
    Filled const of = filled(request);
    RC_PRE(of.best.has_value());
    Plan plan = *of.best;
    plan.cost += any(0, 400);  // the dearer the plan, the more there is to try
    Chance chance(7);
    auto const found = selections(of.job, plan, 2, chance);
    RC_ASSERT(copies_of(found).size() == found.size());
    for (Selection const& each : found) RC_ASSERT(to_try(of.job, each.copies, plan.cost));
  }));
}

TEST_CASE("sheets filled before are put together as cheaply as any choice of them") {
  CHECK(rc::check([] {
    SheetRequest const request = any_request();
    Filled const of = filled(request);
    RC_PRE(!of.patterns.empty());
    auto const least = Every(of).least(whole(of.job));
    std::int64_t work = 0;
    auto const found = cover(of.job, of.patterns, no_limit, no_limit, work);
    RC_ASSERT(found.has_value() == least.has_value());
    if (!found) return;
    RC_ASSERT(found->cost == *least);
    check_plan(of.job, *found);
    RC_ASSERT(work > 0);
    RC_ASSERT(!cover(of.job, of.patterns, *least, no_limit, work));
    RC_ASSERT(cover(of.job, of.patterns, *least + 1, no_limit, work)->cost == *least);
  }));
}

}  // namespace endband::cutting::many
