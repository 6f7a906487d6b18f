// One command line of the program over a failing disk, at every step (of very many: each STRIDE-th) and in
// every way.
//
// usage: walk_command STRIDE WORKSHOP WORD...     in the folder of the files that the words name
//
// Prints how many steps it took and on how many failing disks it ran; what went wrong, and exit 1.
#include "cli/command/run.h"
#include "tests/faults/walk.h"

#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

namespace {

using endband::faults::Ending;

endband::cli::Surroundings surroundings(std::string const& workshop) {
  endband::cli::Surroundings around;
  around.workshop = workshop;
  around.today = endband::read_date("2026-11-25").value();
  around.now_utc = "2026-11-25T09:30:00Z";
  return around;
}

// What cannot be saved is told with exit code 3 and the words for it.
Ending run(std::vector<std::string> const& words, std::string const& workshop) {
  endband::cli::Outcome const outcome = endband::cli::run_line(words, surroundings(workshop));
  if (outcome.exit == 0) return Ending::done;
  if (outcome.exit != 3 || outcome.err.find("nothing saved") == std::string::npos)
    throw std::runtime_error("exit " + std::to_string(outcome.exit) + ": " + outcome.err);
  return Ending::told;
}

}  // namespace

int main(int argc, char** argv) {
  int const stride = argc < 4 ? 0 : std::atoi(argv[1]);
  if (stride < 1) return std::fprintf(stderr, "usage: walk_command STRIDE WORKSHOP WORD...\n"), 2;
  std::vector<std::string> const words(argv + 3, argv + argc);
  endband::faults::Walked const walked = endband::faults::walk(
      argv[2], [&](std::string const& path) { return run(words, path); }, stride);
  std::printf("%d steps, %d failing disks\n", walked.steps, walked.runs);
  for (std::string const& wrong : walked.wrong) std::printf("%s\n", wrong.c_str());
  return walked.wrong.empty() ? 0 : 1;
}
