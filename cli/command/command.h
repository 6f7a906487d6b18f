// One command is one row: its words, flags, examples and what it runs. The one table of them feeds the
// parser, the help, "did you mean", and whatever else must not drift from what the program does.
#pragma once

#include "cli/command/answer.h"
#include "cli/command/args.h"
#include "cli/command/context.h"
#include "cli/command/flag.h"
#include "engine/fault/fault.h"

#include <array>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace endband::cli {

struct Command {
  std::string_view noun, verb;  // "material", "add"; `help` has no verb
  std::string_view summary;     // one line: "Add a material to the catalogue"
  std::string_view about;       // what else one should know; may be empty
  std::vector<Word> words;
  std::vector<Flag> flags;
  std::array<std::string_view, 2> examples;  // without the leading "endband"; both run on the sample workshop
  std::string_view refused_when;             // when it ends with exit code 1; empty: never
  bool writes = false;                       // takes --dry-run and --yes
  std::array<std::string_view, 2> writes_with{};  // flags without which nothing is written; none: always
  std::string_view shows_with{};                  // the flag with which nothing is written
  bool lists = false;                             // takes --jsonl
  Read<Answer> (*run)(Context&, Args const&) = nullptr;
};

std::string command_name(Command const& command);  // "material add"
std::string schema_name(Command const& command);   // "endband/material-add/1"

// The commands by the stages of the work, not by the alphabet.
std::span<Command const> commands();
Command const* find_command(std::string_view noun, std::string_view verb);

// The nouns in the order of the work, and what the program has of its own beside them.
struct NounRow {
  std::string_view noun, about;
  bool own = false;  // help, completion: no commands of the table
};
std::span<NounRow const> noun_table();
std::span<std::string_view const> shells();  // those that `completion` has a script for

// Flags that every command takes, and all that `command` takes with them.
std::span<Flag const> global_flags();
std::vector<Flag> flags_of(Command const& command);

}  // namespace endband::cli
