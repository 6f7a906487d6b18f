// Tables with a header: what is written is read as it was, and spreadsheets compute nothing of it.
#include "cli/forms/spreadsheet.h"

#include "cli/forms/exact.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <array>

using namespace endband;
using namespace endband::cli;

namespace {

std::array<SpreadsheetColumn, 4> const columns{{{{"--code", FlagType::code, "its code"}, true},
                                                {{"--name", FlagType::words, "its name"}},
                                                {{"--width", FlagType::length, "its width"}},
                                                {{"--least-worth", FlagType::money, "its price"}}}};

Spreadsheet read(std::string_view text, std::optional<Marks> marks = std::nullopt) {
  return read_sheet(text, "t.csv", "material add", columns, marks);
}

}  // namespace

TEST_CASE("columns stand in any order, and are found however they are written") {
  Spreadsheet const sheet = read("Least_Worth, NAME ,code\r\n12.50,A,a-1\r\n,,\r\n,B,b-2\r\n");
  CHECK(sheet.faults.empty());
  REQUIRE(sheet.rows.size() == 2);
  CHECK(sheet.rows[0].said.text("--least-worth") == "12.50");
  CHECK(sheet.rows[1].said.text("--name") == "B");
  CHECK_FALSE(sheet.rows[1].said.has("--least-worth"));
  CHECK_FALSE(sheet.rows[1].said.has("--width"));
  CHECK(sheet.rows[1].where("--name").line == 4);
  CHECK(sheet.rows[1].where("name").column == 2);
  CHECK(sheet.rows[1].where("pack").column == 1);
}

TEST_CASE("beside semicolons the decimal mark is a comma") {
  Spreadsheet const sheet = read("code;width;least worth\na;1,5 mm;1.234,56\nb;1,234 mm;2\n");
  REQUIRE(sheet.rows.size() == 2);
  CHECK(sheet.rows[0].said.get<Length>("--width") == Length{1500});
  CHECK(sheet.rows[0].said.text("--least-worth") == "1,234.56");
  REQUIRE(sheet.faults.size() == 1);
  CHECK(sheet.faults[0].code == FaultCode::ambiguous_number);
  CHECK(sheet.faults[0].found == "1,234 mm");
  CHECK(sheet.faults[0].expected == "1234 mm or 1,234 mm");
  CHECK(sheet.faults[0].where.line == 3);
  CHECK(sheet.faults[0].where.column == 3);
}

TEST_CASE("a header that is not right is told, name by name") {
  CHECK(read("name,code,name\nA,a,B\n").faults.size() == 1);
  CHECK(read("code,colour\na,b\n").faults.front().found == "colour");
  Spreadsheet const near = read("code,nmae\na,b\n");
  REQUIRE(near.faults.size() == 1);
  CHECK(near.faults[0].near == std::vector<std::string>{"name"});
  CHECK(read("name\nA\n").faults.front().code == FaultCode::missing_key);
  CHECK(read("code,\na,b\n").faults.size() == 1);
  CHECK(read("code;name,width\n").faults.size() == 1);
  CHECK(read("code\n").faults.size() == 1);
  CHECK(read("").faults.size() == 1);
  CHECK(read("code,name\n,A\n").faults.front().code == FaultCode::missing_key);
}

TEST_CASE("words that a spreadsheet would compute are defused, and come back") {
  for (std::string_view const text :
       {"=1+1", "+49 30", "-5", "@sum", "\tx", "\rx", "'=x", "''=x", "'tis", "", "'"})
    CHECK(as_meant(defused(text)) == text);
  CHECK(defused("=1") == "'=1");
  CHECK(defused("'=1") == "''=1");
  CHECK(defused("'tis") == "'tis");
  CHECK(defused("a=1") == "a=1");
  CHECK(rc::check([](std::string const& text) {
    RC_ASSERT(as_meant(defused(text)) == text);
    RC_ASSERT(text.empty() ||
              std::string_view("=+-@\t\r").find(defused(text).front()) == std::string_view::npos);
  }));
}

TEST_CASE("a written table is read as it was, its figures left alone") {
  SheetFields const row{
      {"code", "a-1"}, {"name", "=HYPERLINK(\"x\"),;"}, {"width", "1.5 mm"}, {"least-worth", "-5.00"}};
  CHECK(write_sheet(columns, std::array{row}, Marks::comma) ==
        "code,name,width,least worth\r\na-1,\"'=HYPERLINK(\"\"x\"\"),;\",1.5 mm,-5.00\r\n");
  std::string const other = write_sheet(columns, std::array{row}, Marks::semicolon);
  CHECK(other == "code;name;width;least worth\r\na-1;\"'=HYPERLINK(\"\"x\"\"),;\";1,5 mm;-5,00\r\n");
  Spreadsheet const back = read(other, Marks::semicolon);
  CHECK(back.rows.front().said.text("--name") == row[1].second);
}

TEST_CASE("exact texts are read back to the last unit") {
  CHECK(exact_share(Ratio(1, 3)) == "1/3");
  CHECK(exact_share(Ratio(25, 1000)) == "2.5 %");
  CHECK(exact_number(Ratio(117, 100)) == "1.17");
  CHECK(exact_amount({Dimension::count, 1000}, SoldBy::leaf_book) == "1 leaf");
  CHECK(exact_thickness({992188}) == "0.992188 mm");
  CHECK(rc::check([] {
    auto const n = *rc::gen::inRange<std::int64_t>(1, 2'000'000'000'000);
    for (SoldBy const sold_by : {SoldBy::sheet, SoldBy::pad, SoldBy::skin, SoldBy::length, SoldBy::weight,
                                 SoldBy::volume, SoldBy::piece, SoldBy::leaf_book}) {
      Amount const amount{dimension_of(sold_by), n};
      auto const read = read_amount(exact_amount(amount, sold_by));
      RC_ASSERT(read.has_value());
      RC_ASSERT(*read == amount);
    }
    auto const nm = *rc::gen::inRange<std::int64_t>(1, 100'000'000);
    RC_ASSERT(read_thickness(exact_thickness({nm})).value() == Thickness{nm});
    Ratio const share(*rc::gen::inRange<std::int64_t>(0, 100'000),
                      *rc::gen::inRange<std::int64_t>(1, 100'000));
    RC_ASSERT(read_ratio(exact_share(share)).value() == share);
    RC_ASSERT(read_ratio(exact_number(share)).value() == share);
  }));
}
