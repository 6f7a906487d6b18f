// Command lines as text, and faults in words.
#include "cli/command/words.h"

#include "cli/words/buyer_words.h"
#include "cli/words/fault_words.h"
#include "cli/words/order_words.h"
#include "cli/words/values.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

using namespace endband;
using namespace endband::cli;

TEST_CASE("a line is split as a shell splits it") {
  using Words = std::vector<std::string>;
  CHECK(split_words("material add x --name \"Goat, green\"").value() ==
        Words{"material", "add", "x", "--name", "Goat, green"});
  CHECK(split_words("'it is' \"a \\\"b\\\"\" c\\ d \"\"").value() == Words{"it is", "a \"b\"", "c d", ""});
  CHECK(split_words("a=\"b c\"d").value() == Words{"a=b cd"});
  CHECK(split_words("  ").value().empty());
  CHECK(split_words("\"open").error().front().code == FaultCode::bad_syntax);
}

TEST_CASE("joined words split into the same words") {
  CHECK(rc::check([](std::vector<std::string> words) {
    for (std::string& word : words) std::erase_if(word, [](char c) { return c == '\n' || c == '\0'; });
    RC_ASSERT(split_words(join_words(words)).value() == words);
  }));
}

TEST_CASE("a file of commands has comments and lines that go on") {
  auto const lines =
      split_commands("# a remark\nsteps list\n\nworkshop set a=1 \\\n  b=2\n", "x.commands").value();
  REQUIRE(lines.size() == 2);
  CHECK(lines[0].line == 2);
  CHECK(lines[1].line == 4);
  CHECK(lines[1].words == std::vector<std::string>{"workshop", "set", "a=1", "b=2"});
}

TEST_CASE("every code has its sentence") {
  for (FaultRow const& row : fault_table()) {
    Fault const fault{row.code, {"book.toml", 1, 2, "height"}, "12", "a length such as 250 mm", {}};
    std::string const text = sentence(fault);
    CAPTURE(row.name);
    CHECK(text.size() > 8);
    CHECK(text.find(row.name) == std::string::npos);
    Fault const bare{row.code, {"", 0, 0, "height"}, "", "", {}};
    CHECK_FALSE(sentence(bare).empty());
  }
}

TEST_CASE("a fault of a file shows its line, a caret under what stood there, and what may have been meant") {
  std::string const text = "endband = 1\nh\xC3\xB6he = 5\n";
  Fault const fault{FaultCode::unknown_key, {"book.toml", 2, 1, ""}, "h\xC3\xB6he", "", {"height"}};
  CHECK(faults_text(std::span(&fault, 1), [&](std::string_view) { return &text; }, {}) ==
        "endband: book.toml:2:1: there is no key \"h\xC3\xB6he\"\n"
        "   2 | h\xC3\xB6he = 5\n"
        "     | ^^^^ did you mean \"height\"?\n");
}

TEST_CASE("a key with its value stands without quotes of its own, and what has no place is told so") {
  Fault const no_place{FaultCode::contradiction,
                       {"book.toml", 2, 1, "sewing.cord"},
                       "sewing.cord = \"hemp\"",
                       "no such key: it is sewn on tapes",
                       {}};
  CHECK(sentence(no_place) == "sewing.cord = \"hemp\" has no place here: it is sewn on tapes");
  Fault const refused{FaultCode::refused_part,
                      {"book.toml", 2, 1, ""},
                      "[strap] with binding = \"box\"",
                      "a box alone has no strap",
                      {}};
  CHECK(sentence(refused) == "there can be no [strap] with binding = \"box\": a box alone has no strap");
}

TEST_CASE("prices of copies are told of what is made: books, sets or boxes") {
  auto const euros = [](std::int64_t amount) { return Money{amount * 100, *read_currency("EUR")}; };
  std::vector<BuyerCopies> const prices{{1, euros(300)}, {5, euros(1300)}, {6, euros(1550)}};
  CHECK(copies_words(prices, ordered("case", false)) ==
        "1 book 300.00; 5 books 1300.00; the next one 250.00 EUR.");
  CHECK(copies_words(prices, ordered("case", true)) ==
        "1 set 300.00; 5 sets 1300.00; the next one 250.00 EUR.");
  CHECK(copies_words(prices, ordered("box", false)) ==
        "1 box 300.00; 5 boxes 1300.00; the next one 250.00 EUR.");
}

TEST_CASE("several copies are told first, and what is told of the pages is told of each") {
  BuyerQuote quote;
  quote.binding = "case";
  quote.pages = 128;
  quote.sections = 8;
  CHECK(binding_words(quote).starts_with("Bound by hand, "));
  CHECK(component_words(quote, Component::text_block).find(": 128 pages in 8 sections") != std::string::npos);
  quote.copies = 5;
  CHECK(binding_words(quote).starts_with("Five copies, bound by hand, "));
  CHECK(binding_words(quote).find("Closed each measures") != std::string::npos);
  CHECK(component_words(quote, Component::text_block).find(": each 128 pages") != std::string::npos);
  quote.volumes.resize(2);
  CHECK(binding_words(quote).starts_with("Five sets of two volumes, bound by hand, "));
  quote.volumes.clear();
  quote.box_alone = true;
  CHECK(binding_words(quote).starts_with("Five boxes, each made by hand, for a book of about "));
}

TEST_CASE("control characters of a file reach no terminal") {
  std::string const text = "title = \x1b[31m\n";
  Fault const fault{FaultCode::bad_syntax, {"book.toml", 1, 9, ""}, "\x1b[31m", "words in quotes", {}};
  CHECK(faults_text(std::span(&fault, 1), [&](std::string_view) { return &text; }, {}).find('\x1b') ==
        std::string::npos);
}

TEST_CASE("of a long line without a whole letter some is shown all the same") {
  std::string const text(400, '\x80');
  for (int const column : {1, 2, 200, 400}) {
    CAPTURE(column);
    Fault const fault{FaultCode::bad_syntax, {"b.toml", 1, column, ""}, "", "a text file saved as UTF-8", {}};
    auto const shown = faults_text(std::span(&fault, 1), [&](std::string_view) { return &text; }, {});
    CHECK(shown.find("   1 | ") != std::string::npos);
    CHECK(shown.size() > 150);
  }
}

TEST_CASE("the exit code of several faults is the highest of theirs") {
  std::vector<Fault> const faults{{FaultCode::no_price, {}, "", "", {}},
                                  {FaultCode::bad_value, {}, "", "", {}}};
  CHECK(exit_code(faults) == 2);
}

TEST_CASE("values stand as people write them") {
  CHECK(percent(Ratio(7, 20)) == "35 %");
  CHECK(percent(Ratio(1, 3)) == "33.33 %");
  CHECK(hours_words(Ratio(3600)) == "1 h");
  CHECK(hours_words(Ratio(5400)) == "1 h 30 min");
  CHECK(hours_words(Ratio(59)) == "1 min");
  CHECK(sold_words({Dimension::count, 1000}, SoldBy::sheet) == "1 sheet");
  CHECK(sold_words({Dimension::count, 2500}, SoldBy::leaf_book) == "2.5 leaves");
  CHECK(sold_words({Dimension::area, 557'400'000'000}, SoldBy::skin) == "0.5574 m2");
  CHECK(sold_words({Dimension::length, 8'600'349}, SoldBy::length) == "8.6 m");
  CHECK(tenths_mm(Length{223'264}) == "223.3");
  CHECK(listed({"a", "b", "c"}) == "a, b and c");
  CHECK(listed_few({"a", "b", "c", "d"}) == "a, b, c and d");
  CHECK(listed_few({"a", "b", "c", "d", "e"}) == "a, b, c and 2 more");
}
