// Whatever the rows of a quote are, they come back as they were.
#include "db/quotes.h"
#include "tests/db/any_quote.h"
#include "tests/db/bench.h"
#include "tests/db/same_quote.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;

TEST_CASE("a quote of any rows comes back field for field, and replays to its own figures") {
  Folder folder;
  Workshop workshop = new_workshop(folder.file("workshop.db"));
  stock_workshop(workshop);
  CHECK(rc::check([&] {
    FrozenQuote const quote = any_quote(workshop, *rc::gen::arbitrary<std::uint64_t>());
    std::int64_t const id = write(workshop, [&](Writing& writing) {
      return save_quote(writing, "otter-stage", day("2027-01-01"), quote).value().id;
    });
    FrozenQuote const back = load_quote(workshop, id);
    RC_ASSERT(first_difference(quote, back) == "");
    RC_ASSERT(differs(back) == "");
  }));
  CHECK(check(workshop).empty());
}

TEST_CASE("two different quotes are told apart") {
  Folder folder;
  Workshop workshop = new_workshop(folder.file("workshop.db"));
  stock_workshop(workshop);
  CHECK(rc::check([&](std::uint64_t seed) {
    RC_ASSERT(first_difference(any_quote(workshop, seed), any_quote(workshop, seed + 1)) != "");
  }));
}
