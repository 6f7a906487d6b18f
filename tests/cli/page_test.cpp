// What pages are made of besides their document: numbers in the owner's manner, pictures, columns left out.
#include "cli/commands/logo.h"
#include "cli/document/document.h"
#include "cli/document/markup.h"
#include "cli/words/paper_style.h"

#include <doctest/doctest.h>

#include <array>
#include <string>
#include <utility>

using namespace endband::cli;  // NOLINT: a test

TEST_CASE("numbers stand in the owner's manner") {
  // The forms are the settings' own names; that groups are of three digits and may be parted by a space is
  // ISO 80000-1, 7.3.2 (from memory).
  for (std::string const style : {"1234.50", "1,234.50", "1.234,50"})
    CHECK(number_style(style).number("1234.50") == style);
  CHECK(number_style("1 234,50").number("1234.50") == "1\u00A0234,50");
  NumberStyle const grouped = number_style("1,234.50");
  CHECK(grouped.number("123") == "123");
  CHECK(grouped.number("-123456") == "-123,456");
  CHECK(grouped.number("+1000000.005") == "+1,000,000.005");
  CHECK(grouped.number("") == "");
  CHECK(number_style("1.234,50").percent(endband::Ratio(15, 200)) == "7,5 %");
}

TEST_CASE("a word is ours until the owner says another") {
  PaperStyle style;
  CHECK(style.word("total") == "Total to pay");
  style.say("total", "Zu zahlen");
  CHECK(style.word("total") == "Zu zahlen");
  CHECK_THROWS_AS(style.word("totl"), std::logic_error);
}

TEST_CASE("base64 is that of the standard") {
  // RFC 4648, section 10: test vectors.
  constexpr std::array<std::pair<std::string_view, std::string_view>, 7> vectors{{{"", ""},
                                                                                  {"f", "Zg=="},
                                                                                  {"fo", "Zm8="},
                                                                                  {"foo", "Zm9v"},
                                                                                  {"foob", "Zm9vYg=="},
                                                                                  {"fooba", "Zm9vYmE="},
                                                                                  {"foobar", "Zm9vYmFy"}}};
  for (auto const& [bytes, text] : vectors) CHECK(base64(bytes) == text);
  CHECK(base64(std::string("\xFF\x00\xFE", 3)) == "/wD+");
}

TEST_CASE("a picture is a PNG from its first byte to its last") {
  // ISO/IEC 15948 (PNG), 5.2 and 11.2: signature, then IHDR of 13 bytes, at the end IEND of none.
  std::string const head("\x89PNG\r\n\x1A\n", 8);
  std::string const size("\0\0\0\x0DIHDR\0\0\0\x02\0\0\x01\0\x08\x02\0\0\0SUMS", 25);
  std::string const end("\0\0\0\0IENDSUMS", 12);
  auto const dots = png_size(head + size + end);
  REQUIRE(dots);
  CHECK(dots->width == 2);
  CHECK(dots->height == 256);
  std::string const whole = head + size + end;
  for (std::size_t kept = 0; kept < whole.size(); ++kept) CHECK_FALSE(png_size(whole.substr(0, kept)));
  CHECK_FALSE(png_size(head + end));
  CHECK_FALSE(png_size(whole + "more"));
  CHECK_FALSE(png_size(head + std::string("\xFF\xFF\xFF\xFFIHDR", 8) + end));
}

TEST_CASE("what is drawn of characters stays on the terminal") {
  Table table{{{"Step"}, {"Jobs", Align::right}}, {}};
  table.columns.push_back({.title = "", .bars = true});
  table.add({"sew", "3", "##"});
  table.add_total({"all", "3", ""});
  Table const paper = on_paper(table);
  REQUIRE(paper.columns.size() == 2);
  CHECK(paper.rows.at(0).cells == std::vector<std::string>{"sew", "3"});
  CHECK(paper.rows.at(1).total);
}
