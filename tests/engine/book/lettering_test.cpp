// The lines of a title and what a fount lacks.
#include "engine/book/lettering.h"

#include <doctest/doctest.h>

using namespace endband;
using Lines = std::vector<std::string>;

TEST_CASE("words are shared among lines so that the longest is as short as can be") {
  CHECK(lines_of("The Moths of the Fen", 1) == Lines{"The Moths of the Fen"});
  CHECK(lines_of("The Moths of the Fen", 2) == Lines{"The Moths", "of the Fen"});
  CHECK(lines_of("The Moths of the Fen", 3) == Lines{"The", "Moths of", "the Fen"});
  CHECK(lines_of("Anemones a b", 3) == Lines{"Anemones", "a", "b"});  // no line is left empty
  CHECK(lines_of("a b", 5) == Lines{"a", "b"});
  CHECK(lines_of("", 2).empty());
}

TEST_CASE("words with breaks of their own keep them") {
  CHECK(own_lines("OXBY / Hours / 1911") == 3);
  CHECK_FALSE(own_lines("either/or"));
  CHECK(lines_of("OXBY / Hours / 1911", 1) == Lines{"OXBY", "Hours", "1911"});
  CHECK(letters_of("OXBY / Hours / 1911") == 13);
  CHECK(letters_of("O\u00e9 1") == 3);
}

TEST_CASE("handle letters are needed once each, type as often as one line needs it, for a die none") {
  Lines const lines{"ANNA", "ADA"};
  auto const handle = missing_letters(lines, "AD", Way::by_letter);
  REQUIRE(handle.size() == 1);
  CHECK(handle[0].letter == U'N');
  CHECK(handle[0].owned == 0);
  CHECK(handle[0].needed == 1);
  auto const type = missing_letters(lines, "ADNN", Way::by_line);
  REQUIRE(type.size() == 1);
  CHECK(type[0].letter == U'A');
  CHECK(type[0].owned == 1);
  CHECK(type[0].needed == 2);  // in one line, though the title has four
  CHECK(missing_letters(lines, "", Way::by_die).empty());
}

TEST_CASE("a letter of several bytes is one letter, and small is not large") {
  auto const missing = missing_letters({"\u00d8e"}, "E\u00d8", Way::by_letter);
  REQUIRE(missing.size() == 1);
  CHECK(missing[0].letter == U'e');
  CHECK(missing_letters({"\u20ac"}, "\u20ac", Way::by_line).empty());
}
