// Text as a terminal lays it out: how many columns it takes, how it is filled and wrapped. The process locale
// never matters; the widths are a table of ours (after Unicode Standard Annex #11 and the general categories
// Mn, Me, Cf).
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace endband::cli {

// The code point at `at`, which is moved past it; a malformed byte is U+FFFD and one byte long.
char32_t next_code_point(std::string_view text, std::size_t& at);
bool is_utf8(std::string_view text);
std::size_t code_points(std::string_view text);

// Columns: combining marks and joiners 0, wide East Asian characters and emoji 2, all others 1.
std::size_t display_width(std::string_view text);

// Control characters would move the cursor or worse: each is shown as its picture, "␛". A line feed stays
// when `lines`.
std::string printable(std::string_view text, bool lines = false);

std::string pad_right(std::string text, std::size_t width);
std::string pad_left(std::string text, std::size_t width);

// Lines of at most `width` columns, broken at spaces; a longer word is broken where it must.
std::vector<std::string> wrap(std::string_view text, std::size_t width);

}  // namespace endband::cli
