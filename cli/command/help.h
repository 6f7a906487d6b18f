// Help as documents, made from the table of commands and from nothing else.
#pragma once

#include "cli/command/command.h"
#include "cli/document/document.h"
#include "cli/document/json.h"

#include <string_view>

namespace endband::cli {

Document short_help();                      // `endband` alone: at most 24 lines
Document overview();                        // every command, by the stages of the work
Document noun_help(std::string_view noun);  // what one noun does
Document command_help(Command const& command);

// The rows of the table: all, those of a noun, or one.
Json help_json(std::string_view noun, Command const* command);

}  // namespace endband::cli
