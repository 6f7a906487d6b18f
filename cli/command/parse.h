// A command line to a command and its arguments. All faults at once, each with what may have been meant.
#pragma once

#include "cli/command/command.h"

#include <optional>
#include <span>
#include <string>

namespace endband::cli {

// What stands for the whole line, wherever on it.
struct Globals {
  std::optional<std::string> workshop;  // --workshop
  std::optional<Date> on;               // --on
  std::optional<std::string> at;        // --at, "09:30"
  bool json = false, jsonl = false, dry_run = false, yes = false;
  bool no_pager = false, no_colour = false;
};

struct Line {
  enum class Asks : std::uint8_t { run, help, man, completion, version, nothing };
  Asks asks = Asks::run;
  Command const* command = nullptr;  // of `help`: the one asked about, or none
  std::string_view noun;             // of `help`: the noun asked about, or none
  std::string_view shell;            // of `completion`
  Globals globals;
  Args args;
};

Read<Line> parse_line(std::span<std::string const> words);

// Whether a switch stands on the line, before any "--".
bool has_switch(std::span<std::string const> words, std::string_view name);
// Whether --json or --jsonl is on the line, even on one that cannot be parsed: faults are told in the form
// asked for.
bool asks_for_json(std::span<std::string const> words);

}  // namespace endband::cli
