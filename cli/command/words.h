// Command lines as text: the words of one, and a whole file of them.
#pragma once

#include "engine/fault/fault.h"

#include <string>
#include <string_view>
#include <vector>

namespace endband::cli {

// Splits as a POSIX shell does, without expanding anything: blanks part words; '...' is literal, "..." keeps
// blanks and lets \ stand before " and \. Faults: bad_syntax, for a quote that is not closed.
Read<std::vector<std::string>> split_words(std::string_view line);

// The inverse: quotes where they are needed.
std::string join_words(std::vector<std::string> const& words);

struct CommandLine {
  int line = 0;  // where it begins, from 1
  std::vector<std::string> words;
};
// One command a line without the leading "endband"; '#' begins a comment line, a '\' at the end joins the
// next line.
Read<std::vector<CommandLine>> split_commands(std::string_view text, std::string_view source);

}  // namespace endband::cli
