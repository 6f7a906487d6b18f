#include "tests/db/shelf.h"

#include <doctest/doctest.h>

#include <algorithm>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;

namespace {

template <class T>
Fault refused(Read<T> const& read) {
  REQUIRE_FALSE(read);
  return read.error().front();
}

}  // namespace

TEST_CASE("a parcel's lines share its carriage, bear their tax and lie where they were put") {
  Shelf shelf;
  Parcel parcel = Shelf::parcel("2026-07-01");
  parcel.terms.carriage = eur(1'000);
  parcel.terms.purchase_tax = Ratio(1, 5);
  parcel.place = "shelf 2";
  parcel.batch = "B7";
  parcel.keeps_until = day("2027-01-31");
  parcel.lines = {Shelf::line("board", sheets(20), 2'000), Shelf::line("board", sheets(10), 1'000),
                  Shelf::line("goat", cm2(6000), 3'000)};
  auto const ids = write(shelf.workshop, [&](Writing& writing) { return receive(writing, parcel).value(); });
  REQUIRE(ids.size() == 3);
  auto const rows = lots(shelf.workshop, std::nullopt, true);
  REQUIRE(rows.size() == 3);
  LotRow const& first = rows[0];
  CHECK(mark_text(first.mark) == "L1");
  CHECK(mark_text(rows[2].mark) == "K1");
  CHECK(first.landed.carriage == eur(333));
  CHECK(rows[1].landed.carriage == eur(167));
  CHECK(rows[2].landed.carriage == eur(500));
  CHECK(first.landed.tax_borne == eur(467));  // (20.00 + 3.33) / 5 = 4.666
  CHECK(first.value == eur(2'800));
  CHECK(first.place == "shelf 2");
  CHECK(first.batch == "B7");
  CHECK(first.supplier == "Harrow Paper Store");
  CHECK(first.keeps_until == day("2027-01-31"));
  CHECK(check(shelf.workshop).empty());
}

TEST_CASE("a price in another currency lands at the rate that was paid") {
  Shelf shelf;
  Parcel parcel = Shelf::parcel("2026-07-01");
  parcel.currency = read_currency("GBP").value();
  parcel.terms.rate = Ratio(23, 20);
  parcel.lines = {Shelf::line("board", sheets(10), 0)};
  parcel.lines[0].price = {1'999, parcel.currency};
  write(shelf.workshop, [&](Writing& writing) { return receive(writing, parcel).value(); });
  CHECK(shelf.value_of("board") == 2'299);  // 22.9885
}

TEST_CASE("all that is wrong with a parcel is told at once, and nothing is written") {
  Shelf shelf;
  Parcel parcel = Shelf::parcel("2026-07-01");
  parcel.terms.rate = Ratio(2);
  parcel.owner = "nobody";
  parcel.job = "26-777";
  parcel.lines = {Shelf::line("bord", sheets(1), 0), Shelf::line("board", cm2(1), 0),
                  Shelf::line("board", sheets(0), 0)};
  Writing writing(shelf.workshop, info());
  auto const read = receive(writing, parcel);
  REQUIRE_FALSE(read);
  std::vector<FaultCode> codes;
  for (Fault const& fault : read.error()) codes.push_back(fault.code);
  CHECK(codes == std::vector{FaultCode::contradiction, FaultCode::unknown_code, FaultCode::unknown_code,
                             FaultCode::unknown_material, FaultCode::wrong_unit, FaultCode::out_of_range});
  CHECK(lots(shelf.workshop, std::nullopt, true).empty());
}

TEST_CASE("a customer's goods are held apart: no value, no other job, and home again") {
  Shelf shelf;
  std::int64_t const job = shelf.new_job();
  Parcel parcel = Shelf::parcel("2026-07-01");
  parcel.owner = "otter-stage";
  parcel.lines = {Shelf::line("goat", cm2(6000), 0)};
  write(shelf.workshop, [&](Writing& writing) { return receive(writing, parcel).value(); });
  CHECK(shelf.quantity_of("goat") == 0);
  CHECK(stock_value(shelf.workshop, day("2026-07-01")).shelf == eur(0));
  CHECK(refused(shelf.use(job, "goat", cm2(100), "2026-07-02")).code == FaultCode::rule_refused);
  CHECK(worth(shelf.use(job, "goat", cm2(2000), "2026-07-02", "K1").value()) ==
        0);  // named, and the customer's own job
  auto const kept = write(shelf.workshop, [&](Writing& writing) {
    return keep_offcut(writing, job, "goat", "", Length{200'000}, Length{300'000}, day("2026-07-02"), "")
        .value();
  });
  CHECK(kept.owner == "otter-stage");
  CHECK(kept.source == LotSource::custody);
  write(shelf.workshop, [](Writing& writing) {
    return hand_back(writing, "K1", std::nullopt, day("2026-07-03"), "").value();
  });
  CHECK(find_lot(shelf.workshop, "k1").value().quantity.n == 0);
  CHECK(refused(write(shelf.workshop, [](Writing& writing) {
          return write_down(writing, "K2", eur(0), day("2026-07-03"), "");
        })).code == FaultCode::rule_refused);
  CHECK(check(shelf.workshop).empty());
}

TEST_CASE("a count finds and misses, at the average of what lies there") {
  Shelf shelf;
  auto const counted = [&](std::string_view what, Amount amount, std::optional<Money> worth = std::nullopt) {
    return write(shelf.workshop, [&](Writing& writing) {
      return count(writing, what, amount, day("2026-07-01"), "", worth, "");
    });
  };
  CHECK(refused(counted("board", sheets(10))).code ==
        FaultCode::no_price);  // nothing says what they are worth
  Counted const opening = counted("board", sheets(10), eur(1'000)).value();
  CHECK(opening.kind == MovementKind::opening);
  CHECK(counted("board", sheets(10)).value().postings.empty());
  Counted const missing = counted("board", sheets(7)).value();
  CHECK(missing.kind == MovementKind::missing);
  CHECK(worth(missing.postings) == 300);
  Counted const found = counted("board", sheets(9)).value();
  CHECK(found.kind == MovementKind::found);
  CHECK(worth(found.postings) == 200);
  CHECK(counted("L1", sheets(8)).value().lot == LotId{1});
  shelf.buy("goat", cm2(6000), 6'600, "2026-07-01");
  shelf.buy("goat", cm2(5000), 5'000, "2026-07-01");
  Fault const which = refused(counted("goat", cm2(9000)));
  CHECK(which.near == std::vector<std::string>{"K1", "K2"});
  CHECK(counted("K2", cm2(0)).value().kind == MovementKind::missing);
  CHECK(check(shelf.workshop).empty());
}

TEST_CASE("found without stock is worth the landed price of the day") {
  Shelf shelf;
  write(shelf.workshop, [](Writing& writing) {
    PackPrice price = pack_of_sheets(20, 2'000, "2026-01-01");
    price.purchase_tax = 0;
    return add_price(writing, "board", price).value();
  });
  auto const found = write(shelf.workshop, [](Writing& writing) {
    return count(writing, "board", sheets(3), day("2026-07-01"), "", std::nullopt, "chest").value();
  });
  CHECK(worth(found.postings) == 300);
  CHECK(lots(shelf.workshop, "board", false).front().place == "chest");
}

TEST_CASE(
    "what is thrown away goes by its mark, or the goods past their day first, and never more than there is") {
  Shelf shelf;
  shelf.buy("board", sheets(4), 400, "2026-07-01");
  shelf.buy("board", sheets(4), 800, "2026-07-02");
  write(shelf.workshop,
        [](Writing& writing) { return set_fact(writing, "L2", "keeps-until", "2026-07-10").value(); });
  auto const scrapped = [&](std::string_view what, std::int64_t n) {
    return write(shelf.workshop, [&](Writing& writing) {
      return scrap(writing, what, sheets(n), day("2026-07-11"), "mould");
    });
  };
  CHECK(worth(scrapped("board", 1).value()) == 200);
  CHECK(refused(scrapped("board", 8)).expected == "at most 7, which is there");
  CHECK(worth(scrapped("L1", 4).value()) == 400);
  CHECK(refused(scrapped("L1", 1)).code == FaultCode::rule_refused);
  CHECK(refused(scrapped("L9", 1)).code == FaultCode::unknown_code);
  CHECK(check(shelf.workshop).empty());
}

TEST_CASE("how long goods keep: as said, else from receipt, and less once opened") {
  Shelf shelf;
  write(shelf.workshop, [](Writing& writing) {
    Supply supply;
    supply.keeps_days = 30;
    supply.keeps_opened_days = 5;
    return set_supply(writing, "board", supply, day("2026-01-01")).value();
  });
  shelf.buy("board", sheets(4), 400, "2026-07-01");
  auto const until = [&] { return find_lot(shelf.workshop, "L1").value().keeps_until; };
  auto const say = [&](std::string_view fact, std::string_view value) {
    return write(shelf.workshop, [&](Writing& writing) { return set_fact(writing, "L1", fact, value); });
  };
  CHECK(until() == day("2026-07-31"));
  CHECK(say("opened-on", "2026-07-10"));
  CHECK(until() == day("2026-07-15"));
  CHECK(say("opened-on", ""));
  CHECK(say("keeps-until", "2026-12-24"));
  CHECK(until() == day("2026-12-24"));
  CHECK(refused(say("keeps-until", "soon")).code == FaultCode::bad_value);
  CHECK(refused(say("plase", "x")).near == std::vector<std::string>{"place"});
}

TEST_CASE("a movement is not dated before the last of its lot, nor of its average") {
  Shelf shelf("moving-average");
  shelf.buy("board", sheets(4), 400, "2026-07-10");
  shelf.buy("goat", cm2(6000), 600, "2026-07-12");
  Fault const early = refused(shelf.use(shelf.new_job(), "board", sheets(1), "2026-07-09"));
  CHECK(early.code == FaultCode::rule_refused);
  CHECK(early.expected == "2026-07-10 or later: L1 last moved then");
  Parcel parcel = Shelf::parcel("2026-07-09");
  parcel.lines = {Shelf::line("board", sheets(1), 100)};
  Writing writing(shelf.workshop, info());
  CHECK(refused(receive(writing, parcel)).code == FaultCode::rule_refused);
}
