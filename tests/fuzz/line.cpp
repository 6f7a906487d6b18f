// Any words as a command line, one to a line, on a copy of the sample workshop: it ends with one of its exit
// codes, refuses in words, is never a mistake of the program's own, and whatever it wrote adds up.
//
// Words with a slash are left out: what is run here may write where it likes.
#include "tests/fuzz/target.h"
#include "tests/fuzz/workshop.h"

#include <algorithm>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

using namespace endband;
using endband::fuzz::require;

namespace {

constexpr std::size_t most_words = 24;

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  while (!text.empty() && words.size() < most_words) {
    std::size_t const end = std::min(text.find('\n'), text.size());
    std::string word(text.substr(0, end));
    std::erase(word, '\0');  // no command line has one
    words.push_back(std::move(word));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return words;
}

bool outside(std::string const& word) {
  return word.find('/') != std::string::npos || word.find("..") != std::string::npos;
}

std::size_t text_hash(std::uint8_t const* data, std::size_t size) {
  return std::hash<std::string_view>{}({reinterpret_cast<char const*>(data), size});
}

}  // namespace

extern "C" int LLVMFuzzerInitialize(int*, char***) { return fuzz::workshop_folder(), 0; }

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size) {
  auto const words = words_of({reinterpret_cast<char const*>(data), size});
  if (std::ranges::any_of(words, outside)) return 0;
  cli::Outcome const outcome = fuzz::run(words);
  if (outcome.exit == 4) std::fprintf(stderr, "%s\n", outcome.err.c_str());
  require(outcome.exit >= 0 && outcome.exit <= 3, "an exit code of a user's");
  require(outcome.exit == 0 || outcome.exit == 1 || !outcome.err.empty(), "what is refused is told");
  if (outcome.saved) {
    if (text_hash(data, size) % 8 == 0)  // as dear as some hundred command lines
      require(fuzz::run({"workshop", "check"}).exit == 0, "what was written adds up");
    fuzz::tidy();
  }
  return 0;
}
