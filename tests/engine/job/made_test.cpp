// What a job has cost, as a sheet that a price is found for; what its sale took.
#include "records.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::testing;

namespace {

// The published job MAC001 (records.h): 700 + 66 + 165 = 931.
JobRecord record_of_vinyl() {
  JobRecord record = nothing_yet();
  record.taken = {taken(1, 1000, 400'00), taken(2, 1000, 300'00)};
  record.worked = {labour_of(66'00)};
  return record;
}
Outside by_another(char const* words, bool at_cost) {
  Outside outside;
  outside.words = words;
  outside.price = eur(30'00);
  outside.at_cost = at_cost;
  return outside;
}

}  // namespace

TEST_CASE("the sheet of a job that was made is what it cost, its parts as they were quoted") {
  FrozenQuote quote = quote_of_vinyl();
  quote.sheet.part_shares = {eur(400'00), eur(531'00)};
  CostSheet const sheet = sheet_as_made(quote, record_of_vinyl());
  CHECK(sheet.materials == eur(700'00));
  CHECK(sheet.labour == eur(66'00));
  CHECK(sheet.overhead == eur(165'00));
  CHECK(sheet.total == eur(931'00));
  CHECK(sheet.earning == eur(931'00));
  CHECK(sheet.standing == eur(0));
  CHECK(sheet.seconds == Ratio(11'880));
  CHECK(sheet.part_shares == quote.sheet.part_shares);
  // It is spent, sold or not; nothing is still to be allowed for.
  CHECK(sheet.outlay == eur(0));
  CHECK(sheet.allowances == eur(0));
  CHECK(sheet.lines.empty());
}

TEST_CASE("a bill stands at cost as its work was quoted, and where nobody quoted it") {
  FrozenQuote quote = quote_of_vinyl();
  quote.outside = {by_another("gilt edges", false), by_another("a die", true)};
  JobRecord record = record_of_vinyl();
  record.billed = {{"gilt edges", eur(35'00)}, {"a die", eur(28'00)}, {"a courier", eur(9'00)}};
  CostSheet const sheet = sheet_as_made(quote, record);
  CHECK(sheet.outside == eur(72'00));
  CHECK(sheet.total == eur(931'00 + 72'00));
  CHECK(sheet.standing == eur(28'00 + 9'00));
  CHECK(sheet.earning == eur(931'00 + 35'00));
}

TEST_CASE("a sale takes nothing of the workshop's own price, and through an outlet what lies between") {
  FrozenQuote quote = quote_of_vinyl();
  quote.offer.walk.price = eur(1'200'00);
  quote.offer.walk.yours = eur(1'083'50);
  CHECK(sale_costs(quote) == eur(0));
  quote.selling.outlet.emplace();
  CHECK(sale_costs(quote) == eur(116'50));
}
