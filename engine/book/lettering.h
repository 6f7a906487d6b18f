// The lines of a title, and what a fount lacks to set them. Private to engine/book.
#pragma once

#include "engine/book/way.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace endband {

inline constexpr std::string_view line_break = " / ";  // the words' own

// Letters, figures and points; blanks and breaks are not lettered.
std::int64_t letters_of(std::string_view title);
std::int64_t words_of(std::string_view title);
// How many lines the words have by their own breaks; none: they have no breaks.
std::optional<int> own_lines(std::string_view title);
// The words in their own lines, else in `count` lines, the longest of them as short as can be. Fewer when
// there are fewer words.
std::vector<std::string> lines_of(std::string_view title, int count);

struct MissingLetter {
  char32_t letter = 0;
  int owned = 0;
  int needed = 0;  // at once
};
// Of handle letters each is needed once, of type as often as the line that has most of it; a die needs none.
// In the order of the letters.
std::vector<MissingLetter> missing_letters(std::vector<std::string> const& lines, std::string_view fount,
                                           Way title);

}  // namespace endband
