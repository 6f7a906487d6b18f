#include "cli/words/making_words.h"

#include "cli/words/values.h"

#include <fmt/format.h>

#include <utility>

namespace endband::cli {
namespace {

// Some ways are chosen for every book but mean something in few.
bool tells(Axis axis, BookSpec const& book) {
  switch (axis) {
    case Axis::support_rule: return !book.ways.has(Way::unsupported);
    case Axis::joint: return !book.ways.has(Way::no_boards);
    case Axis::corner_rule: return book.ways.has(Way::half) || book.ways.has(Way::three_quarter);
    default: return true;
  }
}

}  // namespace

std::vector<Way> ways_of(BookSpec const& book) {
  std::vector<Way> ways;
  for (std::size_t i = 0; i < axis_count; ++i) {
    auto const axis = static_cast<Axis>(i);
    auto const way = book.ways.of(axis);
    if (way && book.has(axis_row(axis).part) && tells(axis, book)) ways.push_back(*way);
  }
  return ways;
}

std::vector<std::pair<std::string, std::string>> ways_in_words(BookSpec const& book) {
  std::vector<std::pair<std::string, std::string>> rows;
  Part part{};
  for (Way const way : ways_of(book)) {
    Part const of = axis_row(way_row(way).axis).part;
    std::string const words(way_row(way).words);
    if (!rows.empty() && of == part) {
      rows.back().second += ", " + words;
    } else {
      std::string name(part_name(of));
      name.front() = static_cast<char>(name.front() - 'a' + 'A');
      rows.emplace_back(std::move(name), words);
    }
    part = of;
  }
  return rows;
}

std::string cutting_words(Piece const& piece) {
  std::vector<std::string> words;
  if (piece.outline == Outline::two_corners) words.emplace_back("two from each, by the diagonal");
  if (piece.lay.lie != Lie::any)
    words.push_back(
        fmt::format("backbone {} within {} deg",
                    piece.lay.lie == Lie::backbone_along_height ? "along the height" : "along the width",
                    piece.lay.within_deg));
  if (piece.grade == Grade::flank) words.emplace_back("not from the belly");
  if (piece.grade == Grade::back) words.emplace_back("from the back of the skin");
  if (piece.skin_group > 0) words.push_back(fmt::format("skin {}", piece.skin_group));
  if (piece.trim_height.n > 0 || piece.trim_width.n > 0)
    words.push_back(fmt::format("{} x {} mm of it trimmed off", tenths_mm(piece.trim_height),
                                tenths_mm(piece.trim_width)));
  if (piece.volume > 0) words.push_back(fmt::format("volume {}", piece.volume));
  return fmt::format("{}", fmt::join(words, ", "));
}

}  // namespace endband::cli
