// A document as text for a terminal, a pipe or a file.
#pragma once

#include "cli/document/document.h"

#include <cstddef>
#include <string>

namespace endband::cli {

struct TerminalStyle {
  std::size_t width = 80;  // columns; kept to only where a person looks on
  bool person = false;     // the stream is a terminal: fit the width, suggest the next command
  bool colour = false;     // bold and the accent; nothing is told by them alone
};

std::string to_terminal(Document const& document, TerminalStyle const& style);

}  // namespace endband::cli
