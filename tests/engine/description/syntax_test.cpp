// What people write who do not know TOML, each told in plain words at its place.
#include "tests/engine/description/few_keys.h"

#include <doctest/doctest.h>

using namespace endband;

namespace {

struct Mistake {
  std::string_view line;  // the second of the description
  int column;
  std::string_view found;
  std::string_view expected;
};

Fault fault_of(std::string const& text) {
  auto const read = few_keys::read(text);
  REQUIRE(!read);
  REQUIRE(read.error().size() == 1);
  return read.error().front();
}

}  // namespace

TEST_CASE("the usual mistakes are told with the line as it should be") {
  for (Mistake const& row : std::initializer_list<Mistake>{
           {"leather = goat-green", 11, "goat-green", "leather = \"goat-green\" (words stand in quotes)"},
           {"title = O'Brien", 9, "O'Brien", "title = \"O'Brien\" (words stand in quotes)"},
           {"title = \u201cPoems\u201d", 9, "\u201cPoems\u201d", "title = \"Poems\" (straight quotes)"},
           {"title = \u201eGedichte\u201c", 9, "\u201eGedichte\u201c",
            "title = \"Gedichte\" (straight quotes)"},
           {"height = 1,5", 10, "1,5", "height = 1.5 (a point before the decimals)"},
           {"pages = 1,234", 9, "1,234", "1234 or 1.234, without a separator of thousands"},
           {"height = 12 mm", 10, "12 mm",
            "height = \"12 mm\" (a number with more than digits stands in quotes)"},
           {"height = 250mm", 10, "250mm",
            "height = \"250mm\" (a number with more than digits stands in quotes)"},
           {"compression = 97 %", 15, "97 %",
            "compression = \"97 %\" (a number with more than digits stands in quotes)"},
           {"thread = 18/3", 10, "18/3",
            "thread = \"18/3\" (a number with more than digits stands in quotes)"},
           {"height = 11 3/4\"", 10, "11 3/4\"", "height = \"11 3/4 in\" (inches are written in)"},
           {"height = \"11 3/4\"\"", 10, "\"11 3/4\"\"", "height = \"11 3/4 in\" (inches are written in)"},
           {"given = yes", 9, "yes", "given = true (true or false)"},
           {"given = No", 9, "No", "given = false (true or false)"},
           {"given = True", 9, "True", "given = true (true or false)"},
           {"height: \"250 mm\"", 7, "height: \"250 mm\"", "height = \"250 mm\" (= between key and value)"},
           {"leather: goat", 8, "leather: goat", "leather = \"goat\" (= between key and value)"},
           {"height \"250 mm\"", 1, "height \"250 mm\"", "height = \"250 mm\" (= between key and value)"},
           {"height =", 8, "height =", "a value after the ="},
           {"height = # 250 mm", 8, "height =", "a value after the ="},
           {"title = \"Poems", 9, "\"Poems", "title = \"Poems\" (a quote at the end too)"},
           {"title = \"a \"b\" c\"", 9, "\"a \"b\" c\"",
            "title = \"a \\\"b\\\" c\" (a quote within words is written \\\")"},
           {"title = \"a\" b", 9, "\"a\" b", "title = \"a\" (one value to a line; remarks stand after #)"},
           {"title = \"C:\\quires\"", 9, "\"C:\\quires\"",
            "title = \"C:\\\\quires\" (a backslash is written twice)"},
           {"silk = [silk-red, silk-cream]", 8, "[silk-red, silk-cream]",
            "silk = [\"silk-red\", \"silk-cream\"] (each code in quotes, commas between)"},
           {"pages = 0300", 9, "0300", "pages = 300 (a plain number)"},
           {"until = 25.11.2026", 9, "25.11.2026",
            "a day of the calendar, written year-month-day: 2026-11-25"},
           {"until = 2026-13-45", 9, "2026-13-45",
            "a day of the calendar, written year-month-day: 2026-11-25"},
           {"[text", 1, "[text", "[text]"},
           {"[[lines]", 1, "[[lines]", "[[lines]]"},
           {"pages", 1, "pages", "pages = and a value"},
           {"endband = 1", 1, "endband", "each key and each table once"},
       }) {
    CAPTURE(row.line);
    Fault const fault = fault_of("endband = 1\n" + std::string(row.line) + "\ntitle = \"x\"\n");
    CHECK(fault_row(fault.code).name == "bad-syntax");
    CHECK(fault.where.line == 2);
    CHECK(fault.where.column == row.column);
    CHECK(fault.found == row.found);
    CHECK(fault.expected == row.expected);
  }
}

TEST_CASE("a mistake that is noticed a line later is told where it was made") {
  Fault const fault = fault_of("endband = 1\nsilk = [\"a\", \"b\"\npages = 4\n");
  CHECK(fault.where.line == 2);
  CHECK(fault.expected == "silk = [\"a\", \"b\"] (a list ends with ])");
}

TEST_CASE("columns before the mistake count code points") {
  Fault const fault = fault_of("endband = 1\n\"h\u00f6he \U0001F4D5\" = 12 mm\n");
  CHECK(fault.where.column == 12);
}

TEST_CASE("what no grammar foresees is told with its line") {
  for (std::string_view const line : {"x = [ }", "x = [1, }", "x = [ [ } ]"}) {
    CAPTURE(line);
    Fault const fault = fault_of("endband = 1\npages = 4\n" + std::string(line) + "\ntitle = \"x\"\n");
    CHECK(fault.code == FaultCode::bad_syntax);
    CHECK(fault.where.line == 3);
  }
}

TEST_CASE("after a syntax fault nothing else is told") {
  CHECK(fault_of("pages = 1\nheight = 12 mm\nunknown = 3\n").where.line == 2);
}

TEST_CASE("lines may end as on any machine") {
  CHECK(few_keys::read("endband = 1\r\npages = 300\r\n"));
  CHECK(fault_of("endband = 1\r\nheight = 12 mm\r\n").found == "12 mm");
}

TEST_CASE("a mark of byte order at the front is no fault") {
  auto const text = few_keys::read(
      "\xEF\xBB\xBF"
      "endband = 1\npages = 300\n");
  REQUIRE(text);
  CHECK(text->find("pages")->where.column == 9);
}

TEST_CASE("bytes that are not UTF-8 are told with their place") {
  Fault const fault = fault_of("endband = 1\ntitle = \"Zo\xEB\"\n");
  CHECK(fault.where.line == 2);
  CHECK(fault.where.column == 12);
  CHECK(fault.expected == "a text file saved as UTF-8");
  CHECK(fault_of(std::string("\xFF\xFE"
                             "e\0n\0",
                             6))
            .where.line == 1);
}

TEST_CASE("a text over a mebibyte is refused") {
  std::string const most = "endband = 1\n" + std::string((1U << 20U) - 12, '#');
  CHECK(few_keys::read(most));
  CHECK(fault_of(most + "#").code == FaultCode::out_of_range);
}

TEST_CASE("keys of very many parts, and lists within lists, are refused and overflow no stack") {
  std::string deep = "endband = 1\na";
  for (int i = 0; i < 200'000; ++i) deep += ".a";
  CHECK(fault_of(deep + " = 1\n").code == FaultCode::bad_syntax);
  // after a string of many lines that ends with five quotes, and behind other strings
  for (std::string const& before :
       {std::string("x = { y = \"\"\"q\"\"\"\"\", "), std::string("x = { y = 'it\"', ")})
    CHECK(fault_of("endband = 1\n" + before + deep.substr(12) + " = 1 }\n").code == FaultCode::bad_syntax);
  CHECK(fault_of("endband = 1\nx = " + std::string(100'000, '[') + "\n").code == FaultCode::bad_syntax);
  std::string tables = "endband = 1\nx = ";
  for (int i = 0; i < 50'000; ++i) tables += "{a=";
  CHECK(fault_of(tables + "\n").code == FaultCode::bad_syntax);
}
