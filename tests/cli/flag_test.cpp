// Values of flags, and command lines.
#include "cli/command/flag.h"

#include "cli/command/parse.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::cli;

namespace {

template <class T>
T value(FlagType type, std::string_view text) {
  return std::get<T>(read_flag(type, text).value());
}

FaultCode refusal(FlagType type, std::string_view text) { return read_flag(type, text).error().front().code; }

Read<Line> parsed(std::vector<std::string> const& words) { return parse_line(words); }

}  // namespace

TEST_CASE("rates are read with their unit and refused without it") {
  CHECK(value<std::int64_t>(FlagType::grammage, "120 g/m2") == 120'000);
  CHECK(value<std::int64_t>(FlagType::grammage, "17.5gsm") == 17'500);
  CHECK(value<std::int64_t>(FlagType::density, "0.75 g/cm3") == 750);
  CHECK(value<SpreadRate>(FlagType::spread, "80 ml/m2").ul_m2 == 80'000);
  CHECK(value<SpreadRate>(FlagType::spread, "150 g/m2").mg_m2 == 150'000);
  CHECK(refusal(FlagType::grammage, "120") == FaultCode::missing_unit);
  CHECK(refusal(FlagType::grammage, "120 kg") == FaultCode::wrong_unit);
  CHECK(refusal(FlagType::density, "-3 kg/m3") == FaultCode::out_of_range);
}

TEST_CASE("a wait is two times with one unit, or one time") {
  CHECK(value<Spread3>(FlagType::wait, "8/12 h").low == Duration{8 * 3600});
  CHECK(value<Spread3>(FlagType::wait, "8/12 h").high == Duration{12 * 3600});
  CHECK(value<Spread3>(FlagType::wait, "30 min").low == Duration{1800});
  CHECK(refusal(FlagType::wait, "12/8 h") == FaultCode::contradiction);
  CHECK(refusal(FlagType::wait, "8/12") == FaultCode::missing_unit);
}

TEST_CASE("a time worked is from when to when, or how long") {
  auto const clock = value<WorkSpan>(FlagType::span, "09:10-11:40");
  CHECK(clock.time == Duration{150 * 60});
  CHECK(clock.began == "09:10");
  CHECK(clock.ended == "11:40");
  CHECK(value<WorkSpan>(FlagType::span, "9:05 \xE2\x80\x93 9:06").began == "09:05");
  auto const length = value<WorkSpan>(FlagType::span, "2 h 30 min");
  CHECK(length.time == Duration{150 * 60});
  CHECK(length.began.empty());
  CHECK(value<WorkSpan>(FlagType::span, "24 h").time == Duration{86400});
  for (std::string_view bad : {"09:10", "09:10-25:00", "9-11:40", "09:10-", ":", "a:b-c:d"})
    CHECK(refusal(FlagType::span, bad) == FaultCode::bad_value);
  CHECK(refusal(FlagType::span, "90") == FaultCode::missing_unit);
  for (std::string_view bad : {"0 min", "-5 min", "25 h"})
    CHECK(refusal(FlagType::span, bad) == FaultCode::out_of_range);
}

TEST_CASE("work over midnight is read only where it is plainly that") {
  CHECK(value<WorkSpan>(FlagType::span, "22:30-00:15").time == Duration{105 * 60});
  CHECK(value<WorkSpan>(FlagType::span, "18:00-06:00").time == Duration{12 * 3600});
  for (std::string_view swapped : {"11:40-09:10", "17:59-05:00", "23:00-06:01", "10:00-10:00", "20:00-20:00"})
    CHECK(refusal(FlagType::span, swapped) == FaultCode::contradiction);
}

TEST_CASE("a code is small letters, digits and hyphens") {
  CHECK(value<std::string>(FlagType::code, "goat-green.2") == "goat-green.2");
  for (std::string_view bad : {"", "Goat", "-x", "a b", "\xC3\xA4"})
    CHECK(refusal(FlagType::code, bad) == FaultCode::bad_value);
}

TEST_CASE("a word of a closed list is refused with what may have been meant") {
  auto const read = read_flag(FlagType::kind, "leathr");
  REQUIRE_FALSE(read);
  CHECK(read.error().front().near == std::vector<std::string>{"leather"});
}

TEST_CASE("a flag's value may begin with a minus, stand after an equals sign, or be empty") {
  CHECK(parsed({"customer", "add", "x", "--name", "-3"})->args.text("--name") == "-3");
  CHECK(parsed({"customer", "add", "x", "--name=--odd"})->args.text("--name") == "--odd");
  CHECK(parsed({"customer", "add", "x", "--name", ""})->args.text("--name") == "");
  CHECK(parsed({"customer", "add", "x", "--name", "[a,b]"})->args.text("--name") == "[a,b]");
}

TEST_CASE("what follows two hyphens is words") {
  auto const line = parsed({"book", "measure", "--", "-file"});
  REQUIRE(line);
  CHECK(line->args.word(0) == "-file");
}

TEST_CASE("flags for the whole line stand anywhere") {
  auto const before = parsed({"--json", "--on", "2026-11-25", "customer", "list"});
  auto const after = parsed({"customer", "list", "--on=2026-11-25", "--json"});
  auto const between = parsed({"customer", "--json", "list", "--on", "2026-11-25"});
  REQUIRE((before && after && between));
  for (auto const* line : {&*before, &*after, &*between}) {
    CHECK(line->globals.json);
    CHECK(line->globals.on == read_date("2026-11-25").value());
  }
}

TEST_CASE("a forgotten value does not swallow the next flag") {
  auto const line = parsed({"customer", "add", "x", "--name", "--country", "AT"});
  REQUIRE_FALSE(line);
  CHECK(line.error().front().where.field == "--name");
}

TEST_CASE("a value that is not there is missed, with no command too") {
  std::vector<std::vector<std::string>> const lines{{"--workshop"},
                                                    {"--workshop="},
                                                    {"--workshop=", "material", "list"},
                                                    {"material", "list", "--workshop"}};
  for (std::vector<std::string> const& words : lines) {
    auto const line = parsed(words);
    REQUIRE_FALSE(line);
    CHECK(line.error().front().where.field == "--workshop");
    CHECK(line.error().front().expected == "its value, FILE");
  }
}

TEST_CASE("a day of business is of our times, and words are more than spaces") {
  CHECK(value<Date>(FlagType::date, "1900-01-01") == read_date("1900-01-01").value());
  CHECK(value<Date>(FlagType::date, "2999-12-31") == read_date("2999-12-31").value());
  for (char const* far : {"1899-12-31", "3000-01-01", "9999-12-31", "0001-01-01"})
    CHECK(refusal(FlagType::date, far) == FaultCode::out_of_range);
  CHECK(refusal(FlagType::words, "  ") == FaultCode::bad_value);
  CHECK(value<std::string>(FlagType::words, "").empty());
}

TEST_CASE("all slips of a line are told at once") {
  auto const line = parsed({"material", "list", "--kind", "papr", "--on", "2026-13-01"});
  REQUIRE_FALSE(line);
  CHECK(line.error().size() == 2);
}

TEST_CASE("every type has a placeholder but the one that takes no value") {
  for (int i = 0; i <= static_cast<int>(FlagType::country); ++i)
    CHECK(placeholder(static_cast<FlagType>(i)).empty() == (static_cast<FlagType>(i) == FlagType::on));
}
