// Comma-separated values: RFC 4180's own examples, places of faults, and what is written is read as it was.
#include "cli/forms/csv.h"

#include "tests/fuzz/target.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

using namespace endband;
using namespace endband::cli;

namespace {

using Texts = std::vector<std::vector<std::string>>;

Texts texts(CsvText const& csv) {
  Texts texts;
  for (CsvRow const& row : csv.rows) {
    auto& line = texts.emplace_back();
    for (CsvCell const& cell : row) line.push_back(cell.text);
  }
  return texts;
}

Texts read(std::string_view text, char separator = ',') {
  CsvText const csv = read_csv(text, separator, "a.csv");
  CHECK(csv.faults.empty());
  return texts(csv);
}

struct Place {
  int line, column;
  friend bool operator==(Place const&, Place const&) = default;
};
std::vector<Place> faults(std::string_view text) {
  std::vector<Place> places;
  for (Fault const& fault : read_csv(text, ',', "a.csv").faults) {
    CHECK(fault.code == FaultCode::bad_syntax);
    CHECK(fault.where.source == "a.csv");
    places.push_back({fault.where.line, fault.where.column});
  }
  return places;
}

// Marks that mean something, letters of one to four bytes, and bytes that are no letter.
std::string any_cell() {
  static std::vector<std::string> const parts{
      ",", ";",      "\t",     "\"",         "\r",   "\n",           "\r\n", " ",   "'",
      "a", "\u00e9", "\u9769", "\U0001F4D5", "\xFF", "\xEF\xBB\xBF", "=",    "\x01"};
  std::string cell;
  for (int i = *rc::gen::inRange(0, 6); i > 0; --i) cell += *rc::gen::elementOf(parts);
  return cell;
}

std::string without_nul(std::string text) {
  std::erase(text, '\0');
  return text;
}

}  // namespace

// RFC 4180 (October 2005), section 2, definition by definition.
TEST_CASE("the examples of RFC 4180") {
  Texts const two{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}};
  CHECK(read("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n") == two);                                // 1
  CHECK(read("aaa,bbb,ccc\r\nzzz,yyy,xxx") == two);                                    // 2
  CHECK(read("field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n") ==  // 3
        Texts{{"field_name", "field_name", "field_name"}, two[0], two[1]});
  CHECK(read("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx") == two);  // 5
  CHECK(read("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx") ==    // 6
        Texts{{"aaa", "b\r\nbb", "ccc"}, two[1]});
  CHECK(read("\"aaa\",\"b\"\"bb\",\"ccc\"") == Texts{{"aaa", "b\"bb", "ccc"}});  // 7
  CHECK(write_csv(two, ',') == "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n");
  CHECK(write_csv(Texts{{"aaa", "b\r\nbb", "b\"bb"}}, ',') == "aaa,\"b\r\nbb\",\"b\"\"bb\"\r\n");
}

TEST_CASE("spaces are part of a cell, line feeds alone end rows, and a byte order mark is none of it") {
  CHECK(read(" a , b\nc,d\n") == Texts{{" a ", " b"}, {"c", "d"}});
  CHECK(read("\xEF\xBB\xBF"
             "a,b\r\n") == Texts{{"a", "b"}});
  CHECK(read("a;b,c\r\n", ';') == Texts{{"a", "b,c"}});
  CHECK(read("a\tb\r\n", '\t') == Texts{{"a", "b"}});
  CHECK(read("a,b\r\n\r\nc,d\r\n\n\n") == Texts{{"a", "b"}, {"c", "d"}});
  CHECK(read("").empty());
  CHECK(read("\r\n\n").empty());
  CHECK(read("a,\n") == Texts{{"a", ""}});
}

TEST_CASE("each cell knows where it begins, in letters and not in bytes") {
  CsvText const csv = read_csv("ä,\"b\nc\",d\n\u9769\U0001F4D5,e,f\n", ',', "a.csv");
  REQUIRE(csv.rows.size() == 2);
  auto const at = [&](std::size_t row, std::size_t cell) {
    return Place{csv.rows[row][cell].line, csv.rows[row][cell].column};
  };
  CHECK(at(0, 1) == Place{1, 3});
  CHECK(at(0, 2) == Place{2, 4});
  CHECK(at(1, 0) == Place{3, 1});
  CHECK(at(1, 1) == Place{3, 4});
}

TEST_CASE("what is no table is told with its place, and the rest is read") {
  using Places = std::vector<Place>;
  CHECK(faults("a,b\nc\nd,e,f\ng,h\n") == Places{{2, 1}, {3, 1}});
  CHECK(faults("a,b\nc,\"d\n") == Places{{2, 3}});
  CHECK(faults("a,b\nc,d\"e\nf\",g\n") == Places{{2, 4}, {3, 2}});
  CHECK(faults("a,b\n\"c\" ,d\n") == Places{{2, 4}});
  CHECK(faults("a,b\rc,d\n") == Places{{1, 4}});
  CHECK(faults(std::string_view("a,b\nc,d\0\0e\n", 11)) == Places{{2, 4}});
  CHECK(texts(read_csv("a,b\nc\n\"d\"e,f\ng,h\n", ',', "a.csv")) == Texts{{"a", "b"}, {"g", "h"}});
  CHECK(read_csv(std::string(5000, '"') + std::string(20000, 'x'), ',', "a.csv").faults.size() == 1);
  std::string many = "a,b\n";
  for (int i = 0; i < 5000; ++i) many += "x\n";
  CHECK(faults(many).size() == 1000);
}

TEST_CASE("the first row says the separator, unless it has several") {
  CHECK(separator_of("a;b\nc,d\n") == ';');
  CHECK(separator_of("a,b\nc;d\n") == ',');
  CHECK(separator_of("a\tb") == '\t');
  CHECK(separator_of("\"a;b\",c\n") == ',');
  CHECK(separator_of("alone\nc;d\n") == ',');
  CHECK(separator_of("") == ',');
  CHECK(separator_of("a;b,c\n") == std::nullopt);
}

TEST_CASE("what is written is read as it was") {
  CHECK(rc::check([] {
    char const separator = *rc::gen::element(',', ';', '\t');
    auto const width = static_cast<std::size_t>(*rc::gen::inRange(1, 5));
    Texts rows(static_cast<std::size_t>(*rc::gen::inRange(0, 6)));
    for (auto& row : rows)
      for (std::size_t i = 0; i < width; ++i) row.push_back(any_cell());
    CsvText const back = read_csv(write_csv(rows, separator), separator, "a.csv");
    RC_ASSERT(back.faults.empty());
    RC_ASSERT(texts(back) == rows);
  }));
  CHECK(rc::check([](std::string const& a, std::string const& b) {
    Texts const rows{{without_nul(a), without_nul(b)}, {without_nul(b), without_nul(a)}};
    RC_ASSERT(texts(read_csv(write_csv(rows, ','), ',', "a.csv")) == rows);
  }));
}

TEST_CASE("any bytes are read or refused, never broken") {
  auto const fed = [](std::string const& bytes) {
    LLVMFuzzerTestOneInput(reinterpret_cast<std::uint8_t const*>(bytes.data()), bytes.size());
  };
  CHECK(rc::check([&](std::string const& bytes) { fed(bytes); }));
  CHECK(rc::check([&] {
    std::string text;
    for (int i = *rc::gen::inRange(0, 12); i > 0; --i)
      text += any_cell() + *rc::gen::element(",", "\n", "\"");
    fed(text);
  }));
}
