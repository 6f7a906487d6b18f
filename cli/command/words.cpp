#include "cli/command/words.h"

#include <optional>

namespace endband::cli {
namespace {

bool is_blank(char c) { return c == ' ' || c == '\t'; }

// The end of the quoted run that begins at `at` (a quote), its text added to `word`; nullopt: never closed.
std::optional<std::size_t> quoted_run(std::string_view line, std::size_t at, std::string& word) {
  char const quote = line[at];
  for (++at; at < line.size(); ++at) {
    char c = line[at];
    if (c == quote) return at;
    bool const escapes =
        quote == '"' && c == '\\' && at + 1 < line.size() && (line[at + 1] == '"' || line[at + 1] == '\\');
    if (escapes) c = line[++at];
    word += c;
  }
  return std::nullopt;
}

bool needs_quotes(std::string const& word) {
  constexpr std::string_view plain =
      "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_=./,:+%";
  return word.empty() || word.find_first_not_of(plain) != std::string::npos;
}

}  // namespace

Read<std::vector<std::string>> split_words(std::string_view line) {
  std::vector<std::string> words;
  std::string word;
  bool in_word = false;
  for (std::size_t at = 0; at < line.size(); ++at) {
    char const c = line[at];
    if (is_blank(c)) {
      if (in_word) words.push_back(std::move(word));
      word.clear();
      in_word = false;
      continue;
    }
    in_word = true;
    if (c == '\'' || c == '"') {
      auto const end = quoted_run(line, at, word);
      if (!end)
        return refuse(
            {FaultCode::bad_syntax, {}, std::string(line.substr(at)), "a quote that is closed", {}});
      at = *end;
    } else if (c == '\\' && at + 1 < line.size()) {
      word += line[++at];
    } else {
      word += c;
    }
  }
  if (in_word) words.push_back(std::move(word));
  return words;
}

std::string join_words(std::vector<std::string> const& words) {
  std::string line;
  for (std::string word : words) {
    if (needs_quotes(word)) {
      for (std::size_t at = 0; (at = word.find('\'', at)) != std::string::npos; at += 4)
        word.replace(at, 1, "'\\''");
      word = "'" + word + "'";
    }
    line += (line.empty() ? "" : " ") + word;
  }
  return line;
}

Read<std::vector<CommandLine>> split_commands(std::string_view text, std::string_view source) {
  std::vector<CommandLine> commands;
  std::string joined;
  int number = 0;
  int begins = 0;
  while (!text.empty()) {
    ++number;
    std::size_t const end = text.find('\n');
    std::string_view line = text.substr(0, end);
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    if (joined.empty()) begins = number;
    if (joined.empty() && line.starts_with('#')) continue;
    bool const goes_on = line.ends_with('\\') && !text.empty();
    joined += goes_on ? line.substr(0, line.size() - 1) : line;
    if (goes_on) continue;
    auto words = located(split_words(joined), {std::string(source), begins, 1, ""});
    if (!words) return tl::unexpected(std::move(words.error()));
    if (!words->empty()) commands.push_back({begins, std::move(*words)});
    joined.clear();
  }
  return commands;
}

}  // namespace endband::cli
