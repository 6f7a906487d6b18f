// What the parts of cutting_bench share: what is asked, what came of one instance, and how long a step takes.
#pragma once

#include "engine/cutting/check/check.h"

#include <nlohmann/json.hpp>

#include <array>
#include <chrono>
#include <ctime>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace endband::cutting::bench {

using Json = nlohmann::ordered_json;

enum class Solver : std::uint8_t { lengths, one_sheet, sheets, skins };
constexpr std::array<char const*, 4> solver_names{"lengths", "one_sheet", "sheets", "skins"};

struct Options {
  std::string folder;
  std::string family;  // files whose name begins so; empty: all
  std::int64_t ms = 100;
  std::int64_t limit = -1;  // instances of a file
  int threads = 2;
  std::array<std::optional<std::int64_t>, 4> work{};  // by solver; nullopt: from --ms and the rate measured
};

// Milliseconds: by the wall's clock, and of all cores together, which a loaded machine does not lengthen.
struct Took {
  double wall = 0, cores = 0;
};

struct Result {
  std::string name, variant;  // variant: "constrained_oriented", "" when there is one only
  bool greatest = false;      // a value to be large; else a cost to be small
  double stated = 0, bound = 0;
  bool proved = false;
  Took took;
  std::int64_t work = 0;
  std::optional<double> best_known;
  std::string outcome = "planned";
  std::vector<std::string> faults;
  Json more = Json::object();  // what only this kind has: fill_pct, area_share_pct, all_placed, zones ...
  Json placements = Json::array();

  // How far behind the best known, as a share of it; negative: better.
  std::optional<double> gap() const;
};

// Work of each solver for the milliseconds asked for.
class Budgets {
 public:
  Budgets(Options const& options, std::array<double, 4> const& steps_a_ms);
  Budget of(Solver solver, std::int64_t parts = 1) const;  // one of equal parts
  std::int64_t work(Solver solver) const { return work_[static_cast<std::size_t>(solver)]; }

 private:
  std::array<std::int64_t, 4> work_{};
  int threads_;
};

// Single-thread steps a millisecond, by solver, on problems of its own that are the same every time.
std::array<double, 4> measure_rates();

std::vector<Result> run_lengths(Json const& instance, Budgets const& budgets);  // capacity, or stock
std::vector<Result> run_one_sheet(Json const& instance, Budgets const& budgets);
std::vector<Result> run_sheets(Json const& instance, Budgets const& budgets);  // sheet, sheets or strip_width
std::vector<Result> run_skins(Json const& instance, Budgets const& budgets);   // hide or hides
std::vector<Result> run_strip(Json const& instance, Budgets const& budgets);   // polygons on a strip

// nullopt: of no kind that is known.
std::optional<std::vector<Result>> run(Json const& instance, Budgets const& budgets);

// The answer of `solve`, and what it took.
template <class Solve>
auto timed(Solve const& solve) {
  auto const begin = std::chrono::steady_clock::now();
  std::clock_t const cores = std::clock();
  auto answer = solve();
  std::chrono::duration<double, std::milli> const wall = std::chrono::steady_clock::now() - begin;
  Took const took{wall.count(), static_cast<double>(std::clock() - cores) * 1000 / CLOCKS_PER_SEC};
  return std::pair(std::move(answer), took);
}

std::vector<std::string> names_of(std::vector<PlanFault> const& faults);
char const* name_of(Outcome outcome);
Json in_units(std::int64_t micrometres, std::int64_t scale);  // whole where it is whole
template <class Used>
void take_answer(Result& result, Answer<Used> const& answer) {
  result.stated = static_cast<double>(answer.proof.cost);
  result.bound = static_cast<double>(answer.proof.bound);
  result.proved = answer.outcome == Outcome::planned && answer.proof.proved();
  result.work = answer.proof.work;
  result.outcome = name_of(answer.outcome);
}

}  // namespace endband::cutting::bench
