#include "cli/drawings/spelled.h"

#include "cli/document/text.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

constexpr double box = 11;  // mm
constexpr double row = 14;
constexpr double letter = 8.5;  // size, mm: 24 pt
constexpr std::string_view line_break = " / ";

bool continues(char c) { return (static_cast<unsigned char>(c) & 0xC0) == 0x80; }

std::vector<std::string> lines_in(std::string_view title) {
  std::vector<std::string> lines;
  for (std::size_t from = 0;;) {
    std::size_t const at = title.find(line_break, from);
    lines.emplace_back(title.substr(from, at == std::string_view::npos ? at : at - from));
    if (at == std::string_view::npos) return lines;
    from = at + line_break.size();
  }
}

}  // namespace

std::vector<std::string> letters_apart(std::string_view line) {
  std::vector<std::string> letters;
  std::string const text = printable(line);
  for (std::size_t i = 0; i < text.size();) {
    std::size_t end = i + 1;
    while (end < text.size() && continues(text[end])) ++end;
    std::string const one = text.substr(i, end - i);
    // What takes no room of its own, an accent, stands on the letter before it.
    if (!letters.empty() && display_width(one) == 0)
      letters.back() += one;
    else
      letters.push_back(one);
    i = end;
  }
  return letters;
}

Drawing draw_spelled(std::string_view title, Paper room) {
  Drawing drawing;
  drawing.name = "title";
  drawing.title = "The title, letter by letter";
  auto const in_a_row = static_cast<std::size_t>(std::max(1.0, (room.width - 1) / box));
  std::vector<std::string> spelled;
  double y = 0;
  for (std::string const& line : lines_in(title)) {
    auto const letters = letters_apart(line);
    spelled.push_back(fmt::format("{}", fmt::join(letters, " ")));
    for (std::size_t i = 0; i < letters.size(); ++i) {
      if (i > 0 && i % in_a_row == 0) y += row;
      double const x = box * static_cast<double>(i % in_a_row);
      if (letters[i] == " ") continue;  // a gap between two words
      drawing.shapes.emplace_back(Rectangle{{x, y}, box, box, Pen::thin, Fill::none});
      drawing.shapes.emplace_back(
          Text{{x + box / 2, y + box - 3}, letters[i], letter, Anchor::middle, false});
    }
    y += row;
  }
  drawing.words = fmt::format("{}.", fmt::join(spelled, " / "));
  frame(drawing, 0.5);
  return drawing;
}

}  // namespace endband::cli
