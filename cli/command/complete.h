// What may come next on a command line that is being typed. The shells' scripts (cli/completion) ask for it
// by a call that no help tells of; they know nothing of the commands themselves.
#pragma once

#include "cli/command/offered.h"

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace endband::cli {

struct Completion {
  enum class Files : std::uint8_t { none, files, folders };
  Files files = Files::none;  // the shell itself knows them
  std::string typed;          // the word as far as it is typed, without quotes
  std::vector<Offer> offers;  // each what the whole word would become
};

// `words`: without the program's name; the last is the one being typed, perhaps empty. The workshop is that
// of the line, or else `usual`; it is only read, and whatever cannot be read offers nothing. Throws nothing.
Completion complete(std::span<std::string const> words, std::string const& usual) noexcept;

// The words of a shell's line up to the cursor, also inside a quote that is still open.
std::vector<std::string> typed_words(std::string_view line);

// What the call prints: "files", "folders" or "words"; the word as typed; and a line for each offer, with
// what it is behind a tab.
std::string completion_text(Completion const& completion);

}  // namespace endband::cli
