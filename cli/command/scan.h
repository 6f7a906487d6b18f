// A first look along a command line: which words are words, which flags, and what each flag's value would be.
// It needs only the names of all flags, so that the noun and the verb are found wherever global flags stand.
#pragma once

#include "engine/fault/fault.h"

#include <span>
#include <string>
#include <vector>

namespace endband::cli {

struct Flag;

struct Scan {
  std::vector<std::size_t> words;  // places of what is no flag, nor the value of one; after "--" everything
  bool help = false;               // -h or --help, which wins wherever it stands
  std::vector<Fault> faults;       // a flag at the end, or before another, without its value
};
Scan scan(std::span<std::string const> line);

// A flag of any command by its name or letter; its name takes a value in all of them or in none, or the line
// could not be read before the command is known. nullptr: there is none.
Flag const* known_flag(std::string_view name);

// "--kind=paper" is "--kind".
std::string_view flag_name(std::string_view word);
bool looks_like_flag(std::string_view word);

}  // namespace endband::cli
