// A table of keys with one of every type, and the reader on it, for the tests of this module.
#pragma once

#include "engine/description/description.h"

#include <array>
#include <string>
#include <string_view>

namespace endband::few_keys {

using enum ValueType;

inline constexpr std::array rows{
    KeyRow{"endband", count, 1, 1, "", "the form"},
    KeyRow{"title", words, 1, 200, "", "the title"},
    KeyRow{"height", length, 20, 1000, "", "height of a leaf"},
    KeyRow{"pages", count, 4, 4000, "", "pages wanted"},
    KeyRow{"leather", code, 0, 0, "", "the leather"},
    KeyRow{"without", codes, 1, 3, "strap|clasps|dye", "what is left out"},
    KeyRow{"silk", codes, 1, 2, "", "one colour or two"},
    KeyRow{"text.paper", code, 0, 0, "", "the paper"},
    KeyRow{"text.given", flag, 0, 0, "", "the customer's own"},
    KeyRow{"text.compression", share, 0.5, 1, "", "what pressing keeps"},
    KeyRow{"text.caliper", thickness, 0.01, 5, "", "of a leaf"},
    KeyRow{"text.density", density, 200, 2000, "", "of a block"},
    KeyRow{"spine.round", angle, 10, 180, "", "the round"},
    KeyRow{"endbands.packing", number, 0.3, 3, "", "width of a wrap"},
    KeyRow{"sewing.thread_number", thread, 0, 0, "", "of the thread"},
    KeyRow{"lines[].kind", choice, 0, 0, "blind|leaf", "how it is made"},
    KeyRow{"lines[].width", length, 0.1, 20, "", "width of a line"},
    KeyRow{"extra.amount", amount, 0, 10000, "", "how much"},
    KeyRow{"extra.time", times, 0, 60000, "", "how long"},
    KeyRow{"extra.wait", duration, 0, 1000, "", "a wait"},
    KeyRow{"extra.weight", mass, 0.1, 5000, "", "of a piece"},
    KeyRow{"quote.price", money, 0, 1000000, "", "a price"},
    KeyRow{"quote.until", date, 0, 0, "", "a day"},
};

inline Read<BookText> read(std::string_view text) { return read_description(text, "book.toml", rows); }

// The only value of a description of one line below the first.
inline Read<Value> value(std::string_view line) {
  auto text = read("endband = 1\n" + std::string(line) + "\n");
  if (!text) return tl::unexpected(text.error());
  return text->entries.back().value;
}

}  // namespace endband::few_keys
