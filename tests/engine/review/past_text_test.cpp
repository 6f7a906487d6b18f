#include "engine/review/past_text.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>

namespace {

using endband::Fault;
using endband::FaultCode;
using endband::PastText;
using endband::Ratio;

endband::Currency eur() { return *endband::read_currency("EUR"); }

std::string with(std::string const& lines) {
  return "endband = 1\n[[commissions]]\nbook = \"a.toml\"\non = 2026-03-02\n" + lines;
}

std::string const made = "accepted = 2026-03-05\nfinished = 2026-04-01\n";

PastText read(std::string const& text) {
  auto past = endband::read_past(text, "past.toml", eur());
  if (!past) FAIL(past.error().front().expected);
  return std::move(*past);
}

// The first fault of that code.
Fault fault_of(std::string const& text, FaultCode code) {
  auto const past = endband::read_past(text, "past.toml", eur());
  REQUIRE_FALSE(past);
  auto const found = std::ranges::find(past.error(), code, &Fault::code);
  REQUIRE(found != past.error().end());
  return *found;
}

}  // namespace

TEST_CASE("The example is right as it stands") {
  PastText const past = read(std::string(endband::past_example()));
  REQUIRE(past.customers.size() == 1);
  REQUIRE(past.commissions.size() == 1);
  endband::PastCommission const& one = past.commissions[0];
  CHECK(one.price == endband::Money{640'00, eur()});
  REQUIRE(one.hours.size() == 3);
  CHECK(one.hours[0].operation == endband::OperationKind::sew_sections);
  CHECK(std::get<endband::Duration>(one.hours[0].taken).n == 5 * 3600 + 600);
  CHECK(std::get<Ratio>(one.hours[1].taken) == Ratio(11, 10));
  CHECK(one.hours[2].rest);
  CHECK(one.spoiled.at(0).material == "text-wove-90");
  CHECK(one.spoiled.at(0).amount == "2 sheets");
}

TEST_CASE("A part of the book is told by its name") {
  PastText const past = read(with(made + "hours = \"whole-book 2 h; sewing 95 %;; rest 100 %\"\n"));
  auto const& hours = past.commissions[0].hours;
  REQUIRE(hours.size() == 3);
  CHECK(hours[0].part == endband::Part::whole_book);
  CHECK(hours[1].part == endband::Part::sewing);
}

TEST_CASE("What came to nothing has no hours, no sale and no end") {
  for (std::string const line : {"finished = 2026-04-01", "hours = \"rest 100 %\"", "fees = \"3.00\"",
                                 "spoiled = \"text-wove-90 2 sheets\""})
    CHECK(fault_of(with(line + "\n"), FaultCode::contradiction).where.line == 5);
  CHECK(read(with("")).commissions.size() == 1);
}

TEST_CASE("Days are in their order") {
  CHECK(fault_of(with("accepted = 2026-03-01\n"), FaultCode::contradiction).where.field ==
        "commissions[1].accepted");
  CHECK(fault_of(with("accepted = 2026-03-05\nfinished = 2026-03-04\nhours = \"rest 100 %\"\n"),
                 FaultCode::contradiction)
            .where.field == "commissions[1].finished");
}

TEST_CASE("Hours that are no step, no part, no time or said twice are told one by one, each as it stands") {
  for (std::string const piece :
       {"sow-sections 3 h", "sewing", "sewing 3", "rest 2 h", "sewing -3 h", "sewing -10 %"})
    CHECK(fault_of(with(made + "hours = \"cut-boards 1 h; " + piece + "\"\n"), FaultCode::bad_value).found ==
          piece);
  CHECK(fault_of(with(made + "hours = \"sewing 3 h; sewing 4 h\"\n"), FaultCode::contradiction).found ==
        "sewing 4 h");
  auto const near = fault_of(with(made + "hours = \"sew-section 3 h\"\n"), FaultCode::bad_value).near;
  CHECK(std::ranges::find(near, "sew-sections") != near.end());
}

TEST_CASE("A finished book took some hours, and what is given away has a reason") {
  CHECK(fault_of(with(made), FaultCode::missing_key).where.field == "commissions[1].hours");
  CHECK(fault_of(with("discount = \"10 %\"\n"), FaultCode::missing_key).where.field ==
        "commissions[1].discount");
  CHECK(fault_of(with("because = \"a friend\"\n"), FaultCode::contradiction).where.field ==
        "commissions[1].because");
  CHECK(fault_of(with("price = \"5.00\"\nmargin = \"10 %\"\n"), FaultCode::contradiction).where.field ==
        "commissions[1].margin");
}

TEST_CASE("A text without commissions, of another form or with keys of no meaning is refused") {
  CHECK(fault_of("endband = 1\n", FaultCode::missing_key).where.field == "commissions");
  CHECK(fault_of(with("colour = \"red\"\n"), FaultCode::unknown_key).where.line == 5);
  CHECK(fault_of(with("price = \"1.005\"\n"), FaultCode::ambiguous_number).where.field ==
        "commissions[1].price");
  CHECK_FALSE(endband::read_past("endband = 2\n", "past.toml", eur()));
}
