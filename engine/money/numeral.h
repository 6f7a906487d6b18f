// Decimal numerals as people write them: a point or a comma parts the decimals, groups of three may stand
// before it. Nothing here asks the locale of the process.
#pragma once

#include "engine/money/money.h"

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace endband {

// The value is digits / 10^decimals.
struct Numeral {
  std::int64_t digits = 0;  // every digit as one whole number, with the sign
  int decimals = 0;         // how many of them stand after the decimal mark
  char mark = '\0';         // '.' or ',' before the decimals; none without them
  bool negative = false;    // "-0" as well
  bool ambiguous = false;   // a lone mark before exactly three digits, "1,234": 1234 or 1.234? Not "0,234".
  std::size_t length = 0;   // bytes taken from the front of the text
};

enum class NumeralFault : std::uint8_t {
  no_numeral,  // no digit at the front
  malformed,   // "1.2.3", "12,34,567", "5."
  too_long,    // leaves 64 bits
};

// The numeral at the front of `text`: an optional minus, then all the digits, points and commas
// that follow. "1,234.5", "1.234,5" and "1,234,567" are read as grouped.
tl::expected<Numeral, NumeralFault> read_numeral(std::string_view text);

// Takes a "-" (or U+2212) from the front of `text`.
bool take_minus(std::string_view& text);

// "1234 or 1.234": both readings of an ambiguous numeral, each with `unit` after it.
std::string both_readings(Numeral const& numeral, std::string_view unit);

// digits / 10^decimals, exactly and with all its decimals: (-5, 2) is "-0.05".
std::string decimal_text(std::int64_t digits, int decimals);

// Without the blanks (space, tab, carriage return, newline) around it.
std::string_view trimmed(std::string_view text);

// The parts between the marks, each trimmed; an empty text is one empty part.
std::vector<std::string_view> split(std::string_view text, char mark);

constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }

}  // namespace endband
