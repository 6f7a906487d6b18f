// Job costing against a published ledger (records.h).
#include "records.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::testing;

TEST_CASE("the published job MAC001 costs 700 + 66 + 165 = 931") {
  JobRecord record = nothing_yet();
  // Vinyl, black ink, red, gold, grommets, framing.
  for (std::int64_t const cents : {300'00, 100'00, 60'00, 60'00, 120'00, 60'00})
    record.taken.push_back(taken(1 + std::ssize(record.taken), 1000, cents));
  record.worked = {labour_of(15'00), labour_of(15'00), labour_of(36'00)};
  ActualCost const cost = actual_cost(quote_of_vinyl(), record);
  CHECK(cost.materials == eur(700'00));
  CHECK(cost.labour == eur(66'00));
  CHECK(cost.overhead == eur(165'00));
  CHECK(cost.outside == eur(0));
  CHECK(cost.total == eur(931'00));
  CHECK(cost.time == Duration{11'880});
}

TEST_CASE("the published jobs of the month sum to 5,212 with what they opened at") {
  struct Job {
    std::int64_t opening, materials, labour, total;
  };
  std::int64_t all = 0;
  for (Job const& job : {Job{1'531'00, 0, 0, 1'531'00}, Job{1'000'00, 200'00, 150'00, 1'725'00},
                         Job{0, 700'00, 66'00, 931'00}, Job{0, 500'00, 150'00, 1'025'00}}) {
    JobRecord record = nothing_yet();
    record.taken = {taken(1, 1000, job.materials)};
    record.worked = {labour_of(job.labour)};
    std::int64_t const total = job.opening + actual_cost(quote_of_vinyl(), record).total.minor;
    CHECK(total == job.total);
    all += total;
  }
  CHECK(all == 5'212'00);
}

TEST_CASE("hours are priced together, each product rounded once") {
  FrozenQuote quote = quote_of_vinyl();
  quote.shop.basis = {eur(1), eur(0), eur(1), {2}};  // half a cent a second
  JobRecord record = nothing_yet();
  record.worked = {at(OperationKind::sew_sections, 1), at(OperationKind::pare_edges, 1), on(Part::cover, 1)};
  ActualCost const cost = actual_cost(quote, record);
  CHECK(cost.labour == eur(2));  // 1.5, and not three halves each rounded up
  CHECK(cost.overhead == eur(2));
  CHECK(cost.time == Duration{3});
}

TEST_CASE("work by others counts as billed, a job without anything costs nothing") {
  JobRecord record = nothing_yet();
  CHECK(actual_cost(quote_of_vinyl(), record).total == eur(0));
  record.billed = {{"a die", eur(91'50)}, {"credit for the die", eur(-6'50)}};
  CHECK(actual_cost(quote_of_vinyl(), record).outside == eur(85'00));
  CHECK(actual_cost(quote_of_vinyl(), record).total == eur(85'00));
}
