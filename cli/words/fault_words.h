// Faults in words, and as JSON. One sentence for each code; the engine and the store only name the parts.
#pragma once

#include "cli/document/json.h"
#include "engine/fault/fault.h"

#include <functional>
#include <span>
#include <string>
#include <string_view>

namespace endband::cli {

// What is wrong and what would be right, without where: `"250" has no unit; write a length such as 250 mm`.
std::string sentence(Fault const& fault);

// The text of a source by its name, for the line under a message; nullptr when it was no text.
using SourceText = std::function<std::string const*(std::string_view)>;

struct FaultStyle {
  bool saves_nothing = false;  // the command would have written: say that it has not
  bool person = false;         // wrap nothing, but the next command may be told
};

// "endband: book.toml:7:1: ...", the line and a caret, what may have been meant; then how many problems.
std::string faults_text(std::span<Fault const> faults, SourceText const& source, FaultStyle const& style);
Json faults_json(std::span<Fault const> faults);

// The exit code of a command that ends with these: the highest of theirs.
int exit_code(std::span<Fault const> faults);

}  // namespace endband::cli
