// From the words of a command line to what stands on the two outputs and the exit code.
#pragma once

#include "cli/command/command.h"
#include "cli/command/parse.h"

#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace endband::cli {

// The part of the process that a command line may see, so that tests need no process.
struct Surroundings {
  std::optional<std::string> workshop;    // ENDBAND_WORKSHOP
  std::optional<std::string> data_home;   // XDG_DATA_HOME, absolute
  std::optional<std::string> state_home;  // XDG_STATE_HOME, absolute
  std::optional<std::string> home;        // HOME
  Date today;
  std::string now_utc;  // "2026-11-25T09:10:05Z"
  bool out_is_terminal = false, err_is_terminal = false;
  bool colour = false;  // wished for where there is a terminal
  std::size_t width = 80;
};

struct Outcome {
  int exit = 0;
  std::string out, err;
  bool saved = false;    // something was written to the workshop or a file
  bool may_page = true;  // where it is longer than the terminal
};

Outcome run_line(std::vector<std::string> const& words, Surroundings const& surroundings);

}  // namespace endband::cli
