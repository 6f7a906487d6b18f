#include "db/quotes.h"

#include "db/connection.h"
#include "db/jobs.h"
#include "tests/db/any_quote.h"
#include "tests/db/bench.h"
#include "tests/db/same_quote.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;

namespace {

struct Made {
  Folder folder;
  Workshop workshop = new_workshop(folder.file("workshop.db"));
  Made() { stock_workshop(workshop); }

  QuoteHeader save(std::string_view on, std::string_view customer = "otter-stage") {
    FrozenQuote quote = any_quote(workshop, 7);
    quote.on = day(on);
    quote.title = "Made on " + std::string(on);
    return write(workshop, [&](Writing& writing) {
      return save_quote(writing, customer, day("2027-01-31"), quote).value();
    });
  }
  std::string found(std::string_view number) {
    auto const header = find_quote(workshop, number);
    return header ? number_text(header->number) : "";
  }
};

}  // namespace

TEST_CASE("numbers count within the year of the quote's day") {
  Made bench;
  CHECK(number_text(bench.save("2026-11-25").number) == "26-001a");
  CHECK(number_text(bench.save("2026-12-31").number) == "26-002a");
  CHECK(number_text(bench.save("2027-01-01").number) == "27-001a");
  CHECK(number_text(bench.save("2026-03-01").number) == "26-003a");
  CHECK(number_text({2026, 1234, 'c'}) == "26-1234c");
}

TEST_CASE("a number that was rolled back is given again, one that was kept is not") {
  Made bench;
  {
    Writing writing(bench.workshop, info());
    CHECK(save_quote(writing, "", day("2027-01-31"), any_quote(bench.workshop, 3)).has_value());
  }
  QuoteHeader const kept = bench.save("2026-11-25");
  CHECK(number_text(kept.number) == "26-001a");
  CHECK(number_text(bench.save("2026-11-25").number) == "26-002a");
}

TEST_CASE("a header says what was kept") {
  Made bench;
  QuoteHeader const made = bench.save("2026-11-25");
  FrozenQuote const quote = load_quote(bench.workshop, made.id);
  for (QuoteHeader const& header : {made, find_quote(bench.workshop, "26-001").value(),
                                    list_quotes(bench.workshop, std::nullopt, 5).at(0)}) {
    CHECK(header.id == made.id);
    CHECK(header.customer == "otter-stage");
    CHECK(header.customer_name == "Otter Stage");
    CHECK(header.title == "Made on 2026-11-25");
    CHECK(header.binding == "raised-cords");
    CHECK(header.on == day("2026-11-25"));
    CHECK(header.valid_until == day("2027-01-31"));
    CHECK(header.total == quote.offer.total);
    CHECK(header.left == quote.offer.left);
    CHECK(header.rules == quote.rules);
  }
}

TEST_CASE("a quote is found by its number, short while that says which") {
  Made bench;
  bench.save("2026-11-25");
  bench.save("2026-11-26");
  CHECK(bench.found("26-002a") == "26-002a");
  CHECK(bench.found("26-002") == "26-002a");
  CHECK(bench.found("26-2") == "26-002a");
  CHECK(bench.found("2") == "26-002a");
  CHECK(bench.found("2a") == "26-002a");
  CHECK(bench.found("2b") == "");
  for (std::string_view const wrong :
       {"", "x", "26-", "-2", "26-002ab", "2026-002", "026-2", "99999999999", "26-003"}) {
    CAPTURE(wrong);
    CHECK(bench.found(wrong) == "");
  }
  CHECK(find_quote(bench.workshop, "26-003").error().front().near.size() >= 1);
  bench.save("2027-11-25");
  bench.save("2027-11-25");
  auto const several = find_quote(bench.workshop, "2");
  REQUIRE_FALSE(several.has_value());
  CHECK(several.error().front().near == std::vector<std::string>{"27-002a", "26-002a"});
}

TEST_CASE("a list is newest first, of one customer when asked") {
  Made bench;
  bench.save("2026-11-25");
  bench.save("2026-11-26", "");
  bench.save("2026-11-27");
  CHECK(list_quotes(bench.workshop, std::nullopt, 2).at(0).title == "Made on 2026-11-27");
  CHECK(list_quotes(bench.workshop, std::nullopt, 2).size() == 2);
  CHECK(list_quotes(bench.workshop, std::nullopt, 9).at(1).customer == "");
  CHECK(list_quotes(bench.workshop, "otter-stage", 9).size() == 2);
  CHECK(list_quotes(bench.workshop, "badger", 9).empty());
}

TEST_CASE("an unknown customer is refused, and no number is taken") {
  Made bench;
  {
    Writing writing(bench.workshop, info());
    auto const saved = save_quote(writing, "oter-stage", day("2027-01-31"), any_quote(bench.workshop, 3));
    REQUIRE_FALSE(saved.has_value());
    CHECK(saved.error().front().near == std::vector<std::string>{"otter-stage"});
    writing.commit();
  }
  CHECK(number_text(bench.save("2026-11-25").number) == "26-001a");
}

TEST_CASE("a later price, name or address leaves a quote as it was") {
  Made bench;
  QuoteHeader const made = bench.save("2026-11-25");
  FrozenQuote const before = load_quote(bench.workshop, made.id);
  REQUIRE_FALSE(before.materials.empty());
  write(bench.workshop, [&](Writing& writing) {
    for (Material material : before.materials) {
      material.name = "Another name";
      material.buyer_words = "other words";
      (void)change_material(writing, material, day("2026-01-01")).value();
      (void)add_price(writing, material.code, pack_of_sheets(25, 9900, "2026-01-01")).value();
    }
    return change_customer(writing, {0, "otter-stage", "", "", "", "", "", day("2026-01-01")}).value();
  });
  FrozenQuote const after = load_quote(bench.workshop, made.id);
  CHECK(first_difference(before, after) == "");
  CHECK(differs(after) == "");
  CHECK(find_quote(bench.workshop, "26-001").value().customer_name == "");  // forgotten
  CHECK(check(bench.workshop).empty());
}

TEST_CASE("no row of a quote is ever changed or deleted") {
  Made bench;
  QuoteHeader const made = bench.save("2026-11-25");
  write(bench.workshop,
        [&](Writing& writing) { return quote_send(writing, made, day("2026-11-25"), "").value(); });
  SQLite::Database& database = bench.workshop.connection().database;
  SQLite::Statement tables(database,
                           "SELECT name FROM sqlite_schema WHERE type = 'table' AND name LIKE 'quote%'");
  int count = 0;
  while (tables.executeStep()) {
    std::string const table = tables.getColumn(0).getString();
    CAPTURE(table);
    std::string const column = table == "quote" ? "id" : "quote";
    CHECK_THROWS_WITH(database.exec("UPDATE " + table + " SET " + column + " = " + column),
                      (table + " is written once").c_str());
    CHECK_THROWS_WITH(database.exec("DELETE FROM " + table), (table + " is written once").c_str());
    ++count;
  }
  CHECK(count == 43);
}

TEST_CASE("money of another currency never enters a quote") {
  Made bench;
  FrozenQuote quote = any_quote(bench.workshop, 7);
  quote.offer.total = {100, read_currency("GBP").value()};
  Writing writing(bench.workshop, info());
  CHECK_THROWS_AS((void)save_quote(writing, "", day("2027-01-31"), quote), std::logic_error);
}
