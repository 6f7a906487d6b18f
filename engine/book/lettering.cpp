#include "engine/book/lettering.h"

#include <algorithm>
#include <map>
#include <span>

namespace endband {
namespace {

bool starts_letter(char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }

std::size_t length_of_word(std::string_view word) {
  return static_cast<std::size_t>(std::count_if(word.begin(), word.end(), starts_letter));
}

std::vector<std::string_view> split(std::string_view text, std::string_view at) {
  std::vector<std::string_view> parts;
  while (true) {
    std::size_t const end = text.find(at);
    if (std::string_view const part = text.substr(0, end); !part.empty()) parts.push_back(part);
    if (end == std::string_view::npos) return parts;
    text.remove_prefix(end + at.size());
  }
}

// Line by line as many words as go in `width`, but leaving one for every line to come. Empty: they do not go
// in.
std::vector<std::string> filled(std::span<std::string_view const> words, std::size_t count,
                                std::size_t width) {
  std::vector<std::string> lines;
  std::size_t next = 0;
  for (std::size_t line = 0; line < count; ++line) {
    std::size_t const to_come = count - line - 1;
    std::string text(words[next]);
    std::size_t used = length_of_word(words[next++]);
    while (next + to_come < words.size() && used + 1 + length_of_word(words[next]) <= width) {
      used += 1 + length_of_word(words[next]);
      text += ' ';
      text += words[next++];
    }
    if (used > width) return {};
    lines.push_back(std::move(text));
  }
  return next == words.size() ? lines : std::vector<std::string>();
}

using Letters = std::map<char32_t, int>;

// UTF-8 as the reader of descriptions has already checked it.
Letters count_letters(std::string_view text) {
  Letters letters;
  for (std::size_t i = 0; i < text.size();) {
    auto const lead = static_cast<unsigned char>(text[i]);
    std::size_t const bytes = lead < 0x80 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
    char32_t letter = bytes == 1 ? lead : lead & (0x7FU >> bytes);
    for (std::size_t j = 1; j < bytes && i + j < text.size(); ++j)
      letter = letter << 6U | (static_cast<unsigned char>(text[i + j]) & 0x3FU);
    i += bytes;
    if (letter != U' ') ++letters[letter];
  }
  return letters;
}

}  // namespace

std::int64_t letters_of(std::string_view title) {
  std::int64_t count = 0;
  for (std::string_view const line : split(title, line_break))
    count += std::count_if(line.begin(), line.end(), [](char c) { return c != ' ' && starts_letter(c); });
  return count;
}

std::int64_t words_of(std::string_view title) { return static_cast<std::int64_t>(split(title, " ").size()); }

std::optional<int> own_lines(std::string_view title) {
  if (title.find(line_break) == std::string_view::npos) return std::nullopt;
  return static_cast<int>(split(title, line_break).size());
}

std::vector<std::string> lines_of(std::string_view title, int count) {
  if (own_lines(title)) {
    auto const lines = split(title, line_break);
    return {lines.begin(), lines.end()};
  }
  auto const words = split(title, " ");
  auto const lines = std::clamp<std::size_t>(static_cast<std::size_t>(std::max(count, 0)), 0, words.size());
  if (lines == 0) return {};
  for (std::size_t width = 1;; ++width)
    if (auto found = filled(words, lines, width); !found.empty()) return found;
}

std::vector<MissingLetter> missing_letters(std::vector<std::string> const& lines, std::string_view fount,
                                           Way title) {
  if (title == Way::by_die) return {};
  Letters needed;
  for (std::string const& line : lines)
    for (auto const& [letter, count] : count_letters(line))
      needed[letter] = title == Way::by_line ? std::max(needed[letter], count) : 1;
  Letters const owned = count_letters(fount);
  std::vector<MissingLetter> missing;
  for (auto const& [letter, count] : needed) {
    auto const found = owned.find(letter);
    int const there = found == owned.end() ? 0 : found->second;
    if (there < count) missing.push_back({letter, there, count});
  }
  return missing;
}

}  // namespace endband
