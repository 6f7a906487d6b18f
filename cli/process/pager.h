// A long answer at a terminal, shown page by page by another program.
#pragma once

#include <string>
#include <string_view>

namespace endband::cli {

// `command` is a line for the shell; empty: less, with what suits an answer. False when there is no such
// program, and nothing was shown. A reader that leaves before the end has seen what it wanted.
bool shown_in_pager(std::string_view text, std::string const& command);

// Lines as they come to lie on a terminal so wide.
std::size_t lines_on_screen(std::string_view text, std::size_t width);

}  // namespace endband::cli
