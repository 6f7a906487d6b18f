// Whole descriptions: order, places, the first line, unknown keys, all faults at once.
#include "tests/engine/description/few_keys.h"

#include <doctest/doctest.h>

using namespace endband;
using few_keys::read;

namespace {

// "3:7 wrong-type pages"
std::string brief(Fault const& fault) {
  return std::to_string(fault.where.line) + ':' + std::to_string(fault.where.column) + ' ' +
         std::string(fault_row(fault.code).name) + ' ' + fault.where.field;
}

std::vector<std::string> faults_of(std::string_view text) {
  auto const result = read(text);
  std::vector<std::string> told;
  if (!result)
    for (Fault const& fault : result.error()) told.push_back(brief(fault));
  return told;
}

using List = std::vector<std::string>;

}  // namespace

template <>
struct doctest::StringMaker<List> {
  static doctest::String convert(List const& list) {
    std::string text;
    for (std::string const& item : list) text += '{' + item + '}';
    return text.c_str();
  }
};

namespace {}  // namespace

TEST_CASE("a short description is read in the order of its lines") {
  auto const text = read(
      "endband = 1\n"
      "title = \"Poems\"\n"
      "height = \"250 mm\"\n"
      "pages = 300\n"
      "leather = \"goat-green\"\n");
  REQUIRE(text);
  CHECK(text->source == "book.toml");
  REQUIRE(text->entries.size() == 5);
  CHECK(text->entries[1].key == "title");
  CHECK(text->entries[2].value == Value(std::int64_t{250'000}));
  CHECK(text->entries[3].where.line == 4);
  CHECK(text->entries[3].where.column == 9);
  CHECK(text->entries[4].where.field == "leather");
  CHECK(text->entries[4].where.source == "book.toml");
}

TEST_CASE("keys are found by name and row, and rows are counted") {
  auto const text = read(
      "endband = 1\n"
      "[[lines]]\nkind = \"blind\"\n"
      "[[lines]]\n"
      "[[lines]]\nkind = \"leaf\"\nwidth = \"2 mm\"\n");
  REQUIRE(text);
  CHECK(text->rows("lines") == 3);
  CHECK(text->rows("underlays") == 0);
  REQUIRE(text->find("lines[].kind", 2) != nullptr);
  CHECK(text->find("lines[].kind", 2)->value == Value(std::string("leaf")));
  CHECK(text->find("lines[].kind", 2)->where.field == "lines[3].kind");
  CHECK(text->find("lines[].kind", 1) == nullptr);
  CHECK(text->find("lines[].kind") == nullptr);
  CHECK(text->find("pages") == nullptr);
}

TEST_CASE("a table that is empty is an entry too, for it asks for its part") {
  auto const text = read("endband = 1\n[text]\n");
  REQUIRE(text);
  REQUIRE(text->find("text") != nullptr);
  CHECK(text->find("text")->where.line == 2);
}

TEST_CASE("dotted keys, inline tables and lists of inline tables say the same as headings") {
  auto const text = read(
      "endband = 1\ntext.paper = \"cream\"\nspine = { round = \"90 deg\" }\nlines = [{ kind = \"leaf\" }]\n");
  REQUIRE(text);
  CHECK(text->find("text.paper") != nullptr);
  CHECK(text->find("spine.round") != nullptr);
  CHECK(text->find("lines[].kind", 0) != nullptr);
}

TEST_CASE("the first key must be endband = 1") {
  CHECK(faults_of("") == List{"1:1 missing-key endband"});
  CHECK(faults_of("# nothing\n") == List{"1:1 missing-key endband"});
  CHECK(faults_of("pages = 300\n") == List{"1:1 missing-key endband"});
  CHECK(faults_of("pages = 300\nendband = 1\n") == List{"2:1 bad-syntax endband"});
  CHECK(faults_of("endband = 0\n") == List{"1:11 out-of-range endband"});
  CHECK(faults_of("endband = \"1\"\n") == List{"1:11 wrong-type endband"});
  CHECK(faults_of("# a remark may stand above\n\nendband = 1\n").empty());
}

TEST_CASE("of a description for a newer program only the version is told") {
  CHECK(faults_of("endband = 2\nwhatever = 1\n") == List{"1:11 out-of-range endband"});
}

TEST_CASE("all faults are told at once, by line and column") {
  CHECK(faults_of("height = \"250\"\n"
                  "pages = \"300\"\n"
                  "endband = 1\n"
                  "titel = \"x\"\n"
                  "[text]\n"
                  "given = \"yes\"\n"
                  "compression = 35\n"
                  "[[lines]]\n"
                  "kind = \"leef\"\n"
                  "width = 3\n"
                  "[[lines]]\n"
                  "width = \"3 g\"\n") ==
        List{"1:10 missing-unit height", "2:9 wrong-type pages", "3:1 bad-syntax endband",
             "4:1 unknown-key titel", "6:9 wrong-type text.given", "7:15 out-of-range text.compression",
             "9:8 bad-value lines[1].kind", "10:9 missing-unit lines[1].width",
             "12:9 wrong-unit lines[2].width"});
}

TEST_CASE("columns count code points, not bytes") {
  auto const told =
      faults_of("endband = 1\n\"h\u00f6he\" = 1\ntext = { \"\U0001F4D5\u00e9\" = 1, given = 3 }\n");
  CHECK(told == List{"2:1 unknown-key h\u00f6he", "3:10 unknown-key text.\U0001F4D5\u00e9",
                     "3:28 wrong-type text.given"});
}

TEST_CASE("an unknown key is told with what may have been meant") {
  auto const near = [](std::string const& text) {
    auto const result = read("endband = 1\n" + text);
    REQUIRE(!result);
    REQUIRE(result.error().size() == 1);
    CHECK(result.error().front().code == FaultCode::unknown_key);
    return result.error().front().near;
  };
  CHECK(near("hieght = \"1 mm\"\n") == List{"height"});
  CHECK(near("[text]\npapr = \"a\"\n") == List{"paper"});
  CHECK(near("[[lines]]\nwidht = \"1 mm\"\n") == List{"width"});
  CHECK(near("compression = 1\n") == List{"text.compression"});
  CHECK(near("[text]\nround = \"90 deg\"\n") == List{"spine.round"});
  CHECK(near("[txet]\npaper = \"a\"\n") == List{"text"});
  CHECK(near("[text]\npages = 3\n") == List{"pages", "paper"});
  CHECK(near("xyzzyxyzzy = 1\n").empty());
}

TEST_CASE("an unknown key is told with the keys of its table") {
  auto const expected = [](std::string const& text) {
    return read("endband = 1\n" + text).error().front().expected;
  };
  CHECK(expected("xyzzyxyzzy = 1\n") ==
        "the first lines have endband, title, height, pages, leather, without, silk");
  CHECK(expected("[spine]\nxyzzyxyzzy = 1\n") == "[spine] has round");
  CHECK(expected("[[lines]]\nxyzzyxyzzy = 1\n") == "[[lines]] has kind, width");
}

TEST_CASE("what hangs below an unknown table is not told as well") {
  CHECK(faults_of("endband = 1\n[lnes]\nfoo = 1\nbar.baz = 2\n") == List{"2:2 unknown-key lnes"});
}

TEST_CASE("a table where a value is due, and the other way about") {
  CHECK(faults_of("endband = 1\n[height]\nmm = 250\n") == List{"2:1 wrong-type height"});
  CHECK(faults_of("endband = 1\ntext = 5\n") == List{"2:1 wrong-type text"});
  CHECK(faults_of("endband = 1\n[lines]\nkind = \"leaf\"\n") == List{"2:2 wrong-type lines"});
  CHECK(faults_of("endband = 1\n[[text]]\ngiven = true\n") == List{"2:3 wrong-type text"});
  CHECK(faults_of("endband = 1\nlines = [1, 2]\n") == List{"2:1 wrong-type lines"});
}

TEST_CASE("a repeated table may not be repeated without end") {
  std::string text = "endband = 1\n";
  for (int i = 0; i < 100; ++i) text += "[[lines]]\n";
  CHECK(read(text));
  CHECK(faults_of(text + "[[lines]]\n") == List{"2:3 out-of-range lines"});
}
