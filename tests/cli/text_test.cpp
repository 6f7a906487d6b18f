// Text as a terminal lays it out.
#include "cli/document/text.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <string>

using namespace endband::cli;

TEST_CASE("a letter takes one column, a wide one two, a combining accent none") {
  CHECK(display_width("Zoe") == 3);
  CHECK(display_width("Zo\xC3\xAB") == 3);   // one code point
  CHECK(display_width("Zoe\xCC\x88") == 3);  // e and U+0308
  CHECK(display_width("\xC5\x81\xC3\xB3"
                      "d\xC5\xBA") == 4);         // Łódź
  CHECK(display_width("\xE9\x9D\xA9") == 2);      // 革
  CHECK(display_width("\xF0\x9F\x93\x95") == 2);  // a closed book
  CHECK(display_width("") == 0);
}

TEST_CASE("signs that a joiner ties together are drawn as one") {
  // a woman, a joiner, a palette: one picture of an artist
  CHECK(display_width("\xF0\x9F\x91\xA9\xE2\x80\x8D\xF0\x9F\x8E\xA8") == 2);
}

TEST_CASE("bytes that are not UTF-8 are known as such and count one each") {
  CHECK(is_utf8("Zo\xC3\xAB"));
  CHECK_FALSE(is_utf8("Zo\xC3"));
  CHECK_FALSE(is_utf8("\xFF"));
  CHECK_FALSE(is_utf8("\xC0\xAF"));          // an overlong slash
  CHECK_FALSE(is_utf8("\xED\xA0\x80"));      // half of a surrogate pair
  CHECK_FALSE(is_utf8("\xF4\x90\x80\x80"));  // beyond U+10FFFF
  CHECK(code_points("a\xFF") == 2);
}

TEST_CASE("control characters are shown and not obeyed") {
  CHECK(printable("a\x1b[31mb") == "a\xE2\x90\x9B[31mb");
  CHECK(printable("a\nb") ==
        "a\xE2\x90\x8A"
        "b");
  CHECK(printable("a\nb", true) == "a\nb");
  CHECK(printable("\xC2\x9B"
                  "31m") ==
        "\xEF\xBF\xBD"
        "31m");  // the one-byte form of the same
}

TEST_CASE("padding counts columns") {
  CHECK(pad_right("Zo\xC3\xAB", 5) == "Zo\xC3\xAB  ");
  CHECK(pad_left("\xE9\x9D\xA9", 4) == "  \xE9\x9D\xA9");
  CHECK(pad_right("longer", 3) == "longer");
}

TEST_CASE("words are wrapped at spaces, and a longer word where it must") {
  CHECK(wrap("cut the leather", 10) == std::vector<std::string>{"cut the", "leather"});
  CHECK(wrap("cut", 10) == std::vector<std::string>{"cut"});
  CHECK(wrap("abcdefgh ij", 4) == std::vector<std::string>{"abcd", "efgh", "ij"});
  CHECK(wrap("", 4) == std::vector<std::string>{""});
}

TEST_CASE("an indented text stays indented on its further lines") {
  CHECK(wrap("  cut the leather", 12) == std::vector<std::string>{"  cut the", "  leather"});
}

TEST_CASE("no wrapped line is wider than asked, and no letter is lost") {
  CHECK(rc::check([](std::vector<std::string> const& words) {
    std::string text;
    for (std::string word : words) {
      std::erase_if(word, [](char c) { return c < '!' || c > '~'; });
      text += (text.empty() ? "" : " ") + word;
    }
    auto const width = *rc::gen::inRange<std::size_t>(4, 30);
    std::string together;
    for (std::string const& line : wrap(text, width)) {
      RC_ASSERT(display_width(line) <= width);
      together += line;
    }
    std::erase(together, ' ');
    std::erase(text, ' ');
    RC_ASSERT(together == text);
  }));
}

TEST_CASE("any bytes have a width and can be shown") {
  CHECK(rc::check([](std::string const& bytes) {
    RC_ASSERT(code_points(bytes) <= bytes.size());
    RC_ASSERT(is_utf8(printable(bytes)));
  }));
}
