// Command files that are built into the program (from sample_data/), and the founding of a workshop by them.
#pragma once

#include <string_view>

namespace endband::cli {

struct CommandFile {
  std::string_view name;  // "starter_steps.commands"
  std::string_view text;
};
CommandFile const& starter_steps();    // every new workshop's step library
CommandFile const& sample_workshop();  // an invented workshop to try things on

}  // namespace endband::cli
