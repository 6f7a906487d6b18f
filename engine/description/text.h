// UTF-8, for the .cpp files of this module.
#pragma once

#include "engine/description/raw.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace endband {

// Takes the code point at the front of `text`; nullopt, and nothing taken, where it is not UTF-8.
std::optional<char32_t> take_code_point(std::string_view& text);

std::size_t code_points(std::string_view text);  // of valid UTF-8

// Where the first byte is that is not UTF-8.
std::optional<TextPlace> first_bad_byte(std::string_view text);

// Does it move the cursor, ring or turn the text: a control character, a line or paragraph separator, or an
// override of the direction of writing.
bool is_control(char32_t c);
bool has_control(std::string_view text);

// Fit to be shown in a fault: no control characters, and no longer than a line of a screen.
std::string shown(std::string_view text);

}  // namespace endband
