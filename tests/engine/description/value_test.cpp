// Every type of value: what is read, and what is refused with which code, found and expected.
#include "tests/engine/description/few_keys.h"

#include <doctest/doctest.h>

#include <chrono>

using namespace endband;
using few_keys::value;

namespace {

struct Refused {
  std::string_view line;
  FaultCode code;
  std::string_view found;
  std::string_view expected;
};

void check_refused(Refused const& row) {
  CAPTURE(row.line);
  auto const read = value(row.line);
  REQUIRE(!read);
  REQUIRE(read.error().size() == 1);
  Fault const& fault = read.error().front();
  CHECK(fault_row(fault.code).name == fault_row(row.code).name);
  CHECK(fault.found == row.found);
  CHECK(fault.expected == row.expected);
  CHECK(fault.where.source == "book.toml");
}

template <class T>
Value of(T value) {
  return Value(value);
}

Date day(int y, unsigned m, unsigned d) {
  return std::chrono::year(y) / std::chrono::month(m) / std::chrono::day(d);
}

}  // namespace

TEST_CASE("each type of value is read in its base unit") {
  CHECK(*value("height = \"25 cm\"") == of(std::int64_t{250'000}));
  CHECK(*value("height = \"11 3/4 in\"") == of(std::int64_t{298'450}));
  CHECK(*value("text.caliper = \"0.12 mm\"") == of(std::int64_t{120'000}));
  CHECK(*value("pages = 1_000") == of(std::int64_t{1000}));
  CHECK(*value("endbands.packing = 1") == of(Ratio(1)));
  CHECK(*value("endbands.packing = 0.9") == of(Ratio(9, 10)));
  CHECK(*value("endbands.packing = \"0,9\"") == of(Ratio(9, 10)));
  CHECK(*value("text.compression = \"97 %\"") == of(Ratio(97, 100)));
  CHECK(*value("text.compression = 0.97") == of(Ratio(97, 100)));
  CHECK(*value("spine.round = \"120 deg\"") == of(Ratio(120)));
  CHECK(*value("spine.round = \"97.5\u00b0\"") == of(Ratio(195, 2)));
  CHECK(*value("extra.wait = \"2 h 30 min\"") == of(std::int64_t{9000}));
  CHECK(*value("extra.time = \"10/20/40 min\"") == of(Times{{600}, {1200}, {2400}}));
  CHECK(*value("extra.time = \"90 min\"") == of(Times{{5400}, {5400}, {5400}}));
  CHECK(*value("extra.time = \"30 min/1h30/2 h\"") == of(Times{{1800}, {5400}, {7200}}));
  CHECK(*value("text.density = \"800 kg/m3\"") == of(std::int64_t{800}));
  CHECK(*value("text.density = \"0.8 g/cm\u00b3\"") == of(std::int64_t{800}));
  CHECK(*value("extra.weight = \"12 g\"") == of(std::int64_t{12'000}));
  CHECK(*value("extra.amount = \"2 sheets\"") == of(Amount{Dimension::count, 2000}));
  CHECK(*value("quote.price = \"12.50\"") == of(std::string("12.50")));
  CHECK(*value("quote.price = 12") == of(std::string("12")));
  CHECK(*value("quote.price = \"1.234,50\"") == of(std::string("1234.50")));
  CHECK(*value("leather = \"goat-green-09\"") == of(std::string("goat-green-09")));
  CHECK(*value("silk = \"silk-red\"") == of(std::vector<std::string>{"silk-red"}));
  CHECK(*value("silk = [\"silk-red\", \"silk-cream\"]") ==
        of(std::vector<std::string>{"silk-red", "silk-cream"}));
  CHECK(*value("without = [\"strap\"]") == of(std::vector<std::string>{"strap"}));
  CHECK(*value("lines = [{ kind = \"leaf\" }]") == of(std::string("leaf")));
  CHECK(*value("text.given = false") == of(false));
  CHECK(*value("sewing.thread_number = \"18/3\"") == of(ThreadNumber{18, 3}));
  CHECK(*value("quote.until = 2026-11-25") == of(day(2026, 11, 25)));
  CHECK(*value("quote.until = \"2026-11-25\"") == of(day(2026, 11, 25)));
}

TEST_CASE("a measure without its unit is shown with the usual one") {
  using enum FaultCode;
  check_refused({"height = 250", missing_unit, "250", "\"250 mm\""});
  check_refused({"height = 250.5", missing_unit, "250.5", "\"250.5 mm\""});
  check_refused({"height = \"250\"", missing_unit, "250", "\"250 mm\""});
  check_refused({"height = \"250,5\"", missing_unit, "250,5", "\"250.5 mm\""});
  check_refused({"text.caliper = 0.12", missing_unit, "0.12", "\"0.12 mm\""});
  check_refused({"spine.round = 120", missing_unit, "120", "\"120 deg\""});
  check_refused({"extra.wait = 45", missing_unit, "45", "\"45 min\""});
  check_refused({"extra.time = 45", missing_unit, "45", "\"45 min\""});
  check_refused({"extra.weight = \"12\"", missing_unit, "12", "\"12 g\""});
  check_refused({"text.density = 800", missing_unit, "800", "\"800 kg/m3\""});
  check_refused({"extra.amount = 2", missing_unit, "2", "an amount such as \"2 sheets\""});
}

TEST_CASE("a measure with the unit of another thing is refused") {
  using enum FaultCode;
  check_refused({"height = \"250 g\"", wrong_unit, "250 g", "a length such as 250 mm"});
  check_refused({"spine.round = \"2 rad\"", wrong_unit, "2 rad", "an angle such as 120 deg"});
  check_refused({"text.density = \"800 g/m2\"", wrong_unit, "800 g/m2", "a density such as 800 kg/m3"});
  check_refused({"extra.time = \"10/20/40 mm\"", wrong_unit, "10/20/40 mm",
                 "three times such as 10/20/40 min, or one"});
}

TEST_CASE("a number of two readings is refused with both") {
  using enum FaultCode;
  check_refused({"height = \"1,234 mm\"", ambiguous_number, "1,234 mm", "1234 mm or 1.234 mm"});
  check_refused({"quote.price = \"1,234\"", ambiguous_number, "1,234", "1234 or 1.234"});
  check_refused({"spine.round = \"1,234 deg\"", ambiguous_number, "1,234 deg", "1234 deg or 1.234 deg"});
}

TEST_CASE("what leaves the declared range is refused with the range in the unit people write") {
  using enum FaultCode;
  check_refused({"height = \"19 mm\"", out_of_range, "19 mm", "from 20 mm to 1000 mm"});
  check_refused({"height = \"1001 mm\"", out_of_range, "1001 mm", "from 20 mm to 1000 mm"});
  check_refused({"height = \"0 mm\"", out_of_range, "0 mm", "from 20 mm to 1000 mm"});
  check_refused({"height = \"-250 mm\"", out_of_range, "-250 mm", "from 20 mm to 1000 mm"});
  check_refused(
      {"height = \"99999999999999 km\"", wrong_unit, "99999999999999 km", "a length such as 250 mm"});
  check_refused(
      {"height = \"99999999999999999 m\"", out_of_range, "99999999999999999 m", "from 20 mm to 1000 mm"});
  check_refused({"pages = 3", out_of_range, "3", "from 4 to 4000"});
  check_refused({"pages = 9223372036854775807", out_of_range, "9223372036854775807", "from 4 to 4000"});
  check_refused({"text.compression = 35", out_of_range, "35", "from 50 % to 100 %"});
  check_refused({"text.caliper = \"6 mm\"", out_of_range, "6 mm", "from 0.01 mm to 5 mm"});
  check_refused({"silk = []", out_of_range, "a list", "from 1 to 2 codes"});
  check_refused({"silk = [\"a\", \"b\", \"c\"]", out_of_range, "a list", "from 1 to 2 codes"});
  check_refused({"title = \"\"", out_of_range, "", "from 1 to 200 characters"});
  check_refused({"extra.amount = \"0 sheets\"", out_of_range, "0 sheets",
                 "more than nothing, and at most 10000 m, m2, kg, l, h or pieces"});
  check_refused({"quote.price = \"1000001\"", out_of_range, "1000001", "from 0 to 1000000"});
  check_refused({"quote.price = -1", out_of_range, "-1", "from 0 to 1000000"});
}

TEST_CASE("both ends of a range are allowed") {
  CHECK(value("height = \"20 mm\""));
  CHECK(value("height = \"1000 mm\""));
  CHECK(value("text.compression = \"50 %\""));
  CHECK(value("endbands.packing = 0.3"));
}

TEST_CASE("a value of another type is refused") {
  using enum FaultCode;
  check_refused({"pages = \"300\"", wrong_type, "300", "a number without quotes: 300"});
  check_refused({"pages = \"two\"", wrong_type, "two", "a whole number such as 4"});
  check_refused({"pages = 300.5", wrong_type, "300.5", "a whole number such as 4"});
  check_refused({"text.given = \"yes\"", wrong_type, "yes", "true or false, without quotes"});
  check_refused({"text.given = 1", wrong_type, "1", "true or false, without quotes"});
  check_refused({"height = true", wrong_type, "true", "a length such as \"250 mm\""});
  check_refused({"height = [\"250 mm\"]", wrong_type, "a list", "a length such as \"250 mm\""});
  check_refused({"leather = 5", wrong_type, "5", "a code in quotes such as \"linen-18-3\""});
  check_refused({"title = 1984", wrong_type, "1984", "words in quotes such as \"Poems\""});
  check_refused({"quote.until = 10:30:00", wrong_type, "a time", "a date such as 2026-11-25"});
  check_refused({"lines = [{ kind = 1 }]", wrong_type, "1", "\"blind\" or \"leaf\""});
  check_refused(
      {"sewing.thread_number = 18", wrong_type, "18", "a thread number in quotes such as \"18/3\""});
}

TEST_CASE("a value that is nothing of its type is refused") {
  using enum FaultCode;
  check_refused({"endbands.packing = inf", bad_value, "inf", "a number such as 1.5"});
  check_refused({"endbands.packing = nan", bad_value, "nan", "a number such as 1.5"});
  check_refused({"text.compression = \"a lot\"", bad_value, "a lot", "a share such as \"35 %\""});
  check_refused({"leather = \"Goat Green\"", bad_value, "Goat Green",
                 "a code of small letters, digits and '-', such as linen-18-3"});
  check_refused({"quote.until = \"2026-02-30\"", out_of_range, "2026-02-30", "a date such as 2026-11-25"});
  check_refused(
      {"extra.time = \"10/20 min\"", bad_value, "10/20 min", "three times such as 10/20/40 min, or one"});
  check_refused({"extra.time = \"40/20/10 min\"", contradiction, "40/20/10 min",
                 "the shortest time first, the longest last"});
  check_refused(
      {"quote.price = \"12.50 EUR\"", bad_value, "12.50 EUR", "an amount of money such as \"12.50\""});
  check_refused({"without = [\"straps\"]", bad_value, "straps", "\"strap\", \"clasps\" or \"dye\""});
}

TEST_CASE("a choice is told with the nearest, and each code of a list with its own place") {
  auto const choice = value("lines = [{ kind = \"leef\" }]");
  REQUIRE(!choice);
  CHECK(choice.error().front().near == std::vector<std::string>{"leaf"});

  auto const list = value("silk = [\"A B\", 3]");
  REQUIRE(!list);
  REQUIRE(list.error().size() == 2);
  CHECK(list.error()[0].where.column == 9);
  CHECK(list.error()[1].where.column == 16);
}

TEST_CASE("a value that stands alone has no quotes") {
  auto const read = [](std::string_view path, std::string_view text) {
    return read_value(*key_named(few_keys::rows, path), text,
                      {"workshop", 0, 0, "default." + std::string(path)});
  };
  CHECK(*read("height", " 250 mm ") == of(std::int64_t{250'000}));
  CHECK(*read("pages", "300") == of(std::int64_t{300}));
  CHECK(*read("text.given", "true") == of(true));
  CHECK(*read("silk", "silk-red, silk-cream") == of(std::vector<std::string>{"silk-red", "silk-cream"}));
  CHECK(*read("leather", "goat-green") == of(std::string("goat-green")));
  auto const fault = read("pages", "three");
  REQUIRE(!fault);
  CHECK(fault.error().front().code == FaultCode::wrong_type);
  CHECK(fault.error().front().found == "three");
  CHECK(fault.error().front().where.field == "default.pages");
  CHECK(read("height", "250").error().front().expected == "\"250 mm\"");
  CHECK(!read("pages", "300 pages"));
  CHECK(!read("text.given", "yes"));
}
