// Help as documents, made from the table of commands and from nothing else.
#pragma once

#include "cli/command/command.h"
#include "cli/document/document.h"
#include "cli/document/json.h"

#include <span>
#include <string>
#include <string_view>

namespace endband::cli {

Document short_help();                      // `endband` alone: at most 24 lines
Document overview();                        // every command, by the stages of the work
Document noun_help(std::string_view noun);  // what one noun does
Document command_help(Command const& command);

// What the manual page says too.
struct Stage {
  std::string_view title, nouns;  // "Keep what a price needs", "material customer ..."
};
std::span<Stage const> stages();
struct ExitRow {
  int code;
  std::string_view words;
};
std::span<ExitRow const> exit_table();
std::string flag_help(Flag const& flag);  // with what it may be, where that is a short list

// The rows of the table: all, those of a noun, or one.
Json help_json(std::string_view noun, Command const* command);

}  // namespace endband::cli
