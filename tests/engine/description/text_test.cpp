// Words of every script survive; control characters do not come in.
#include "tests/engine/description/few_keys.h"

#include <doctest/doctest.h>

using namespace endband;

namespace {

std::string title_of(std::string_view line) {
  auto const read = few_keys::value(line);
  REQUIRE(read);
  return std::get<std::string>(*read);
}

}  // namespace

TEST_CASE("quotes, accents and emoji survive") {
  CHECK(title_of("title = 'Zo\u00eb \"the binder\" O\\'") == "Zo\u00eb \"the binder\" O\\");
  CHECK(title_of("title = \"O'Brien & S\u00f8n \u201cof ink\u201d\"") ==
        "O'Brien & S\u00f8n \u201cof ink\u201d");
  CHECK(title_of("title = \"\u9769\U0001F4D5\U0001F469\u200D\U0001F3A8 \u0141\u00f3d\u017a e\u0301\"") ==
        "\u9769\U0001F4D5\U0001F469\u200D\U0001F3A8 \u0141\u00f3d\u017a e\u0301");
  CHECK(title_of("title = \"\\u00e9\\U0001F4D5\"") == "\u00e9\U0001F4D5");
}

TEST_CASE("words may be 200 code points long, whatever their bytes") {
  std::string words;
  for (int i = 0; i < 200; ++i) words += "\U0001F4D5";
  CHECK(title_of("title = \"" + words + "\"") == words);
  auto const read = few_keys::value("title = \"" + words + "x\"");
  REQUIRE(!read);
  CHECK(read.error().front().code == FaultCode::out_of_range);
  CHECK(read.error().front().expected == "from 1 to 200 characters");
}

TEST_CASE("control characters are refused, however they are written") {
  for (std::string_view const line :
       {"title = \"a\\u0007b\"", "title = \"a\\nb\"", "title = \"a\tb\"", "title = \"\"\"a\nb\"\"\"",
        "title = \"a\\u007Fb\"", "title = \"a\\u009Bb\"", "title = \"a\\u2028b\"", "title = \"a\\u202Eb\"",
        "title = \"a\\u2066b\""}) {
    CAPTURE(line);
    auto const read = few_keys::value(line);
    REQUIRE(!read);
    CHECK(read.error().front().code == FaultCode::bad_value);
    CHECK(read.error().front().found.find('\t') == std::string::npos);
    CHECK(read.error().front().found.find('\a') == std::string::npos);
  }
}

TEST_CASE("what a fault shows is short and without control characters") {
  auto const read =
      few_keys::read("endband = 1\n\"a\\u001B[31m\" = 1\nleather = \"" + std::string(100, 'x') + "\"\n");
  REQUIRE(!read);
  CHECK(read.error()[0].found == "a\uFFFD[31m");
  CHECK(read.error()[0].where.field == "a\uFFFD[31m");
  CHECK(read.error()[1].found == std::string(60, 'x') + "\u2026");
}
