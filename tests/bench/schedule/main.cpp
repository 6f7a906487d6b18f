// schedule_bench FOLDER [--schedules N] [--seed N]
// Reads every .sm of the folder and prints a JSON line an instance, for 1,000 and for 5,000 schedules unless
// N is said; then, on stderr, the gap to optimum.csv if the folder has it, and the time that one book takes
// beside ten jobs. Exit 1: a plan that the check refuses; 2: a file that cannot be read.
#include "engine/schedule/check.h"
#include "engine/schedule/network.h"
#include "engine/schedule/solve.h"
#include "tests/bench/schedule/book.h"
#include "tests/bench/schedule/psplib.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <map>
#include <string_view>

namespace {

using namespace endband::schedule;
namespace fs = std::filesystem;

struct Asked {
  fs::path folder;
  std::vector<std::int64_t> schedules{1'000, 5'000};
  std::uint64_t seed = 1;
};

std::int64_t number_of(std::string_view text) {
  std::int64_t number = 0;
  auto const [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc() || end != text.data() + text.size() || number < 1)
    throw bench::Unreadable(fmt::format("{} is no count", text));
  return number;
}

Asked read_arguments(std::vector<std::string_view> const& arguments) {
  Asked asked;
  for (std::size_t i = 0; i < arguments.size(); ++i) {
    if (arguments[i].substr(0, 2) != "--") {
      asked.folder = arguments[i];
      continue;
    }
    if (i + 1 == arguments.size()) throw bench::Unreadable(fmt::format("{} wants a value", arguments[i]));
    std::int64_t const value = number_of(arguments[i + 1]);
    if (arguments[i] == "--schedules")
      asked.schedules = {value};
    else if (arguments[i] == "--seed")
      asked.seed = static_cast<std::uint64_t>(value);
    else
      throw bench::Unreadable(fmt::format("{} is not known", arguments[i]));
    ++i;
  }
  if (asked.folder.empty()) throw bench::Unreadable("no folder is named");
  return asked;
}

// By the instance's name without its ending.
std::map<std::string, double> optima_of(fs::path const& folder) {
  std::map<std::string, double> optima;
  std::ifstream in(folder / "optimum.csv");
  for (std::string line; std::getline(in, line);) {
    std::size_t const comma = line.find(',');
    if (comma == std::string::npos || line.find_first_of("0123456789", comma) != comma + 1) continue;
    optima[fs::path(line.substr(0, comma)).stem().string()] = std::stod(line.substr(comma + 1));
  }
  return optima;
}

std::map<std::string, Project> instances_of(fs::path const& folder) {
  std::map<std::string, Project> instances;
  for (fs::directory_entry const& entry : fs::directory_iterator(folder)) {
    if (entry.path().extension() != ".sm") continue;
    std::ifstream in(entry.path());
    try {
      Project project = bench::read_psplib(in);
      if (!critical_path(project)) throw bench::Unreadable("its jobs lead in a circle");
      instances[entry.path().stem().string()] = std::move(project);
    } catch (std::exception const& wrong) {
      throw bench::Unreadable(fmt::format("{}: {}", entry.path().string(), wrong.what()));
    }
  }
  return instances;
}

struct Gaps {
  double sum = 0, most = 0;
  int count = 0, met = 0;

  void add(double makespan, double optimum) {
    double const gap = 100 * (makespan - optimum) / optimum;
    sum += gap;
    most = std::max(most, gap);
    met += gap <= 0 ? 1 : 0;
    ++count;
  }
};

bool run(std::string const& name, Project const& project, Effort const& effort, Time& makespan) {
  Solved const solved = solve(project, effort);
  bool const feasible = check(project, solved.plan).empty();
  makespan = solved.plan.finish();
  std::vector<Time> starts;
  for (Placed const& task : solved.plan.tasks) starts.push_back(task.start);
  fmt::print(
      R"({{"name":"{}","schedules":{},"generated":{},"makespan":{},"bound":{},"feasible":{},"proved":{},"starts":[{}]}})"
      "\n",
      name, effort.schedules, solved.schedules, makespan, solved.bound, feasible, solved.proved(),
      fmt::join(starts, ","));
  return feasible;
}

bool run_all(Asked const& asked) {
  auto const instances = instances_of(asked.folder);
  auto const optima = optima_of(asked.folder);
  bool right = true;
  for (std::int64_t schedules : asked.schedules) {
    Gaps gaps;
    auto const begin = std::chrono::steady_clock::now();
    for (auto const& [name, project] : instances) {
      Time makespan = 0;
      right = run(name, project, {schedules, asked.seed}, makespan) && right;
      if (auto const known = optima.find(name); known != optima.end())
        gaps.add(static_cast<double>(makespan), known->second);
    }
    std::chrono::duration<double, std::milli> const taken = std::chrono::steady_clock::now() - begin;
    std::fflush(stdout);
    fmt::print(stderr, "{} schedules: {} instances in {:.0f} ms", schedules, instances.size(), taken.count());
    if (gaps.count > 0)
      fmt::print(stderr, "; mean gap {:.3f} %, max gap {:.3f} %, {} of {} at the optimum",
                 gaps.sum / gaps.count, gaps.most, gaps.met, gaps.count);
    fmt::print(stderr, "\n");
  }
  return right;
}

bool run_book() {
  constexpr double target_ms = 1;
  bench::BookTime const time = bench::time_book();
  fmt::print(
      stderr,
      "a book of 60 steps beside 10 jobs: {:.3f} ms, {:.2f} of the target of {} ms; all 660 steps anew: "
      "{:.3f} ms, {:.2f} of it{}\n",
      time.book_ms, time.book_ms / target_ms, target_ms, time.all_ms, time.all_ms / target_ms,
      time.right ? "" : "; the check refuses the plan");
  return time.right;
}

}  // namespace

int main(int argc, char** argv) try {
  Asked const asked = read_arguments({argv + 1, argv + argc});
  bool const right = run_all(asked);
  return run_book() && right ? 0 : 1;
} catch (std::exception const& wrong) {
  fmt::print(stderr, "{}\n", wrong.what());
  return 2;
}
