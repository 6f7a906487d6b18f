#include "records.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::testing;

namespace {

FrozenQuote agreed() {
  FrozenQuote made = quote();
  made.materials.push_back(material(3, "board-3", ""));
  return made;
}

std::string names(std::vector<StillOpen> const& open, OpenPoint what) {
  std::string text;
  for (StillOpen const& point : open)
    if (point.what == what) text += "[" + point.name + "]";
  return text;
}

}  // namespace

TEST_CASE("a job that took all as quoted has nothing open") {
  CHECK(still_open(agreed(), as_quoted(agreed())).empty());
}

TEST_CASE("of a job with nothing recorded everything is open, by name") {
  JobRecord record = nothing_yet();
  record.gates = {{"title proof", {}}};
  record.custody_here = true;
  auto const open = still_open(agreed(), record);
  CHECK(names(open, OpenPoint::gate) == "[title proof]");
  CHECK(names(open, OpenPoint::material) == "[goat-green][linen-18-3][board-3]");
  CHECK(names(open, OpenPoint::no_time) == "[]");
  CHECK(names(open, OpenPoint::outside) == "[a die][edge gilding]");
  CHECK(names(open, OpenPoint::custody) == "[]");
}

TEST_CASE("a material said to be not needed is not asked for, nor what the customer supplies") {
  FrozenQuote supplied = agreed();
  supplied.bill.lines[1].customer_supplied = true;
  JobRecord record = as_quoted(supplied);
  record.taken.clear();
  record.without = {{1}};
  CHECK(names(still_open(supplied, record), OpenPoint::material) == "[board-3]");
}

TEST_CASE(
    "a material of which all went back on the shelf as an offcut was taken, one wholly returned was not") {
  JobRecord record = as_quoted(agreed());
  record.taken[0].kept = record.taken[0].used;
  CHECK(still_open(agreed(), record).empty());
  record.taken[0] = taken(1, 0, 0);
  CHECK(names(still_open(agreed(), record), OpenPoint::material) == "[goat-green]");
}

TEST_CASE("a bill is of the work whose words it bears, in capital letters or small") {
  JobRecord record = as_quoted(agreed());
  record.billed = {{"A Die", eur(0)}, {"edge gildings", eur(40'00)}};
  CHECK(names(still_open(agreed(), record), OpenPoint::outside) == "[edge gilding]");
}

TEST_CASE("hours are asked for only where some were quoted") {
  FrozenQuote idle = agreed();
  idle.work.lines.clear();
  JobRecord record = as_quoted(agreed());
  record.worked.clear();
  CHECK(still_open(idle, record).empty());
  CHECK(still_open(agreed(), record).size() == 1);
}
