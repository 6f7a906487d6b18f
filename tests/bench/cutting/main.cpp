// cutting_bench FOLDER [--ms 100] [--threads 2] [--family NAME] [--limit N] [--work N | SOLVER=N,...]
// [--summary] Reads every .json of the folder, an array of instances each, and prints one JSON line an
// instance, then the figures of each family. Exit 1: a plan that the check refuses. An instance is known by
// its keys (bench.cpp).
#include "tests/bench/cutting/summary.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string_view>

namespace {

using namespace endband::cutting::bench;
namespace fs = std::filesystem;

struct Usage : std::runtime_error {
  using std::runtime_error::runtime_error;
};

std::int64_t number_of(std::string_view text) {
  std::int64_t number = 0;
  auto const [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc() || end != text.data() + text.size() || number < 0)
    throw Usage(fmt::format("{} is no number", text));
  return number;
}

void read_work(std::string_view text, Options& options) {
  if (text.find('=') == std::string_view::npos) return options.work.fill(number_of(text));
  while (!text.empty()) {
    std::string_view const part = text.substr(0, text.find(','));
    text.remove_prefix(std::min(text.size(), part.size() + 1));
    std::size_t const equals = part.find('=');
    auto const named = std::find(solver_names.begin(), solver_names.end(), part.substr(0, equals));
    if (equals == std::string_view::npos || named == solver_names.end())
      throw Usage(fmt::format("{} names no solver", part));
    options.work[static_cast<std::size_t>(named - solver_names.begin())] = number_of(part.substr(equals + 1));
  }
}

struct Asked {
  Options options;
  bool summary_only = false;
};

Asked read_arguments(std::vector<std::string_view> const& arguments) {
  Asked asked;
  Options& options = asked.options;
  for (std::size_t i = 0; i < arguments.size(); ++i) {
    std::string_view const argument = arguments[i];
    if (argument == "--summary") {
      asked.summary_only = true;
    } else if (argument.substr(0, 2) != "--") {
      options.folder = argument;
    } else {
      if (i + 1 == arguments.size()) throw Usage(fmt::format("{} wants a value", argument));
      std::string_view const value = arguments[++i];
      if (argument == "--ms")
        options.ms = number_of(value);
      else if (argument == "--threads")
        options.threads = static_cast<int>(std::clamp<std::int64_t>(number_of(value), 1, 64));
      else if (argument == "--family")
        options.family = value;
      else if (argument == "--limit")
        options.limit = number_of(value);
      else if (argument == "--work")
        read_work(value, options);
      else
        throw Usage(fmt::format("{} is not known", argument));
    }
  }
  if (options.folder.empty()) throw Usage("no folder is named");
  return asked;
}

std::vector<fs::path> files_of(Options const& options) {
  std::vector<fs::path> files;
  for (fs::directory_entry const& entry : fs::directory_iterator(options.folder))
    if (entry.path().extension() == ".json" && entry.path().stem().string().rfind(options.family, 0) == 0)
      files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  return files;
}

// Milliseconds asked for, and the steps that stand for them, so that a run can be made again with --work.
Budgets budgets_of(Options const& options) {
  bool const measure =
      std::any_of(options.work.begin(), options.work.end(), [](auto const& work) { return !work; });
  std::array<double, 4> const rates = measure ? measure_rates() : std::array<double, 4>{};
  Budgets const budgets(options, rates);
  std::string work;
  for (std::size_t i = 0; i < rates.size(); ++i) {
    fmt::print(stderr, "{}: {:.0f} steps a millisecond, {} steps\n", solver_names[i], rates[i],
               budgets.work(static_cast<Solver>(i)));
    work += fmt::format("{}{}={}", i == 0 ? "" : ",", solver_names[i], budgets.work(static_cast<Solver>(i)));
  }
  fmt::print(stderr, "the same again: --work {}\n", work);
  return budgets;
}

// Nothing for what is of no known kind, or refused; the summary says so.
std::vector<Result> results_of(Json const& instance, Budgets const& budgets, std::string const& family,
                               Summary& summary) try {
  if (auto results = run(instance, budgets)) return *std::move(results);
  summary.skip(family, "no problem of a kind that is known");
  return {};
} catch (std::logic_error const& refused) {
  summary.skip(family, fmt::format("{}: {}", instance.value("name", ""), refused.what()));
  return {};
}

void run_file(fs::path const& file, Asked const& asked, Budgets const& budgets, Summary& summary) {
  std::ifstream stream(file);
  Json const instances = Json::parse(stream);
  std::string const family = file.stem().string();
  std::int64_t left = asked.options.limit;
  for (Json const& instance : instances) {
    if (left-- == 0) break;
    for (Result& result : results_of(instance, budgets, family, summary)) {
      result.name = instance.value("name", "");
      summary.add(family, result);
      if (!asked.summary_only) fmt::print("{}\n", line_of(family, file.filename().string(), result).dump());
    }
    std::fflush(stdout);
  }
}

}  // namespace

int main(int argc, char** argv) try {
  Asked const asked = read_arguments({argv + 1, argv + argc});
  Budgets const budgets = budgets_of(asked.options);
  Summary summary;
  for (fs::path const& file : files_of(asked.options)) run_file(file, asked, budgets, summary);
  fmt::print("{}", summary.text());
  return summary.all_valid() ? 0 : 1;
} catch (Usage const& wrong) {
  fmt::print(stderr,
             "{}\nusage: cutting_bench FOLDER [--ms 100] [--threads 2] [--family NAME] [--limit N] [--work N "
             "| SOLVER=N,...] [--summary]\n",
             wrong.what());
  return 2;
} catch (std::exception const& error) {
  fmt::print(stderr, "{}\n", error.what());
  return 3;
}
