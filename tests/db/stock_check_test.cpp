// A shelf changed behind the program's back is found, and the row named.
#include "tests/db/broken.h"
#include "tests/db/shelf.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;

namespace {

// Movements 1 to 8: L1 and K1 received, used, an offcut K2 kept, L1 given back, written down, L2 found, L1
// scrapped.
struct Made {
  Shelf shelf;
  explicit Made(std::string_view formula) : shelf(formula) {
    std::int64_t const job = shelf.new_job();
    Parcel parcel = Shelf::parcel("2026-07-01");
    parcel.terms.carriage = eur(100);
    parcel.place = "chest";
    parcel.keeps_until = day("2027-01-01");
    parcel.lines = {Shelf::line("board", sheets(10), 1'000), Shelf::line("goat", cm2(5000), 5'000)};
    write(shelf.workshop, [&](Writing& writing) {
      receive(writing, parcel).value();
      reserve(writing, job, on_hand(shelf.workshop, "board")->material, sheets(5), 0, day("2026-07-01"))
          .value();
      take_for_job(writing, job, "goat", "", cm2(5000), MovementKind::used, day("2026-07-02"), "").value();
      keep_offcut(writing, job, "goat", "", Length{200'000}, Length{250'000}, day("2026-07-02"), "").value();
      take_for_job(writing, job, "board", "", sheets(3), MovementKind::used, day("2026-07-02"), "").value();
      give_back_from_job(writing, job, "board", "", sheets(1), day("2026-07-03")).value();
      write_down(writing, "L1", eur(500), day("2026-07-04"), "damp").value();
      count(writing, "board", sheets(9), day("2026-07-05"), "", std::nullopt, "").value();
      return scrap(writing, "L1", sheets(1), day("2026-07-06"), "torn").value();
    });
  }

  std::vector<Fault> broken_by(std::string const& sql) {
    write(shelf.workshop, [](Writing&) { return true; });
    return broken_copy(shelf.path, sql);
  }
};

}  // namespace

TEST_CASE("a good shelf has no fault, at either formula") {
  for (std::string_view const formula : {"first-in-first-out", "moving-average"}) {
    Made bench(formula);
    CHECK(bench.broken_by("SELECT 1").empty());
    CHECK(movements(bench.shelf.workshop, std::nullopt, 99).size() == 9);
  }
}

TEST_CASE("a shelf that was changed behind the program's back is found and its row named") {
  Made bench("first-in-first-out");
  struct Case {
    char const* sql;
    char const* named;
  };
  for (Case const& each : {
           Case{"UPDATE lot_state SET quantity = quantity + 1 WHERE lot = 1", "lot_state of L1"},
           Case{"UPDATE lot_state SET value = value + 1 WHERE lot = 1", "lot_state of L1"},
           Case{"UPDATE lot_state SET moved_on = '2026-07-01' WHERE lot = 1", "lot_state of L1"},
           Case{"DELETE FROM lot_state WHERE lot = 2", "lot_state of K1"},
           Case{"UPDATE shelf SET quantity = quantity + 1", "shelf of board"},
           Case{"UPDATE shelf SET value = value - 1", "shelf of goat"},
           Case{"UPDATE shelf SET reserved = reserved + 1", "shelf of board, set aside"},
           Case{"UPDATE shelf SET pooled = 1", "shelf of board at the average"},
           Case{"UPDATE reserved SET quantity = quantity + 1", "reserved of job 1, board"},
           Case{"DELETE FROM reserved", "reserved of job 1, board"},
           Case{"UPDATE movement SET quantity = quantity - 1 WHERE id = 3", "lot_state of K1"},
           Case{"UPDATE movement SET value = value + 1 WHERE id = 4", "movement 4"},
           Case{"UPDATE movement SET on_date = '2026-07-01' WHERE id = 9", "movement 9"},
           Case{"UPDATE movement SET kind = 'received' WHERE id = 9", "movement 9"},
           Case{"UPDATE movement SET material = 2 WHERE id = 9", "movement 9"},
           Case{"UPDATE movement SET undoes = 5 WHERE id = 6", "movement 6"},
           Case{"UPDATE movement SET quantity = 9000, value = 900 WHERE id = 6", "movement 6"},
           Case{"UPDATE movement SET value = -9999 WHERE id = 7", "movement 7"},
           Case{"DELETE FROM movement WHERE id = 6", "movement 6"},
           Case{"UPDATE lot SET price = price + 1 WHERE id = 1", "lot 1"},
           Case{"UPDATE lot SET costed = 'pool' WHERE id = 1", "lot 1"},
           Case{"UPDATE lot SET parent = 1 WHERE id = 3", "lot 3"},
           Case{"UPDATE lot SET carriage = carriage + 1, price = price - 1 WHERE id = 1", "delivery 1"},
           Case{"UPDATE lot SET number = 7 WHERE id = 4", "lot of mark L"},
           Case{"UPDATE lot SET source = 'custody', owner = 1 WHERE id = 1", "movement 1"},
           Case{"UPDATE lot_fact SET value = 'soon' WHERE fact = 'keeps-until'", "lot_fact"},
           Case{"DELETE FROM lot_fact WHERE id = 1", "lot_fact 1"},
           Case{"UPDATE material_version SET kept_worth_num = 1, kept_worth_den = 3", "movement 4"},
       }) {
    CAPTURE(std::string(each.sql));
    CHECK(names(bench.broken_by(each.sql), each.named));
  }
}

TEST_CASE("a changed average is found and its row named") {
  Made bench("moving-average");
  for (auto const& [sql, named] :
       {std::pair{"UPDATE shelf SET pooled_value = pooled_value + 1", "shelf of board at the average"},
        std::pair{"UPDATE shelf SET pooled_on = '2026-07-01' WHERE pooled > 0",
                  "shelf of board at the average"},
        std::pair{"UPDATE movement SET value = -9999 WHERE id = 7", "movement 7"},
        std::pair{"UPDATE lot SET costed = 'own' WHERE id = 1", "lot 1"},
        std::pair{"UPDATE setting_version SET value = 'first-in-first-out' WHERE name = 'stock.formula'",
                  "lot 1"}}) {
    std::string const change = sql;
    CAPTURE(change);
    CHECK(names(bench.broken_by(sql), named));
  }
}

TEST_CASE("a lot begins with as much as was said of it, in packs of that day's price") {
  Shelf shelf;
  write(shelf.workshop, [](Writing& writing) {
    return add_price(writing, "board", pack_of_sheets(50, 40'00, "2026-06-01")).value();
  });
  auto const receive_said = [&](ParcelLine line, std::string_view on) {
    write(shelf.workshop, [&](Writing& writing) {
      Parcel parcel = Shelf::parcel(on);
      parcel.lines.push_back(std::move(line));
      return receive(writing, parcel).value();
    });
  };
  receive_said({"board", sheets(100), "2 packs", eur(80'00), {}, {}, {}}, "2026-07-01");
  receive_said({"goat", cm2(5000), "0.5 m2", eur(50'00), {}, {}, {}}, "2026-07-01");
  write(shelf.workshop, [](Writing& writing) {
    return count(writing, "laid-120", sheets(1234), day("2026-07-02"), "", eur(10'00), "").value();
  });
  write(shelf.workshop, [](Writing& writing) {  // of a day before the lot's, but said after it
    return add_price(writing, "board", pack_of_sheets(20, 20'00, "2026-06-15")).value();
  });
  CHECK(broken_copy(shelf.path, "SELECT 1").empty());
  auto const broken_by = [&](std::string const& quantity) {
    return told(broken_copy(shelf.path, "UPDATE movement SET quantity = " + quantity)).back();
  };
  CHECK(broken_by("900000 WHERE id = 1") == "movement 1: brings 900: 2 packs, as its lot says");
  CHECK(broken_by("quantity + 1000000000 WHERE id = 2") ==
        "movement 2: brings 5010 cm2: 0.5 m2, as its lot says");
  CHECK(broken_by("12340000 WHERE id = 3") == "movement 3: brings 12340: 1234, as its lot says");
}

TEST_CASE("what was taken for a job that had it set aside is moved to no other") {
  Shelf shelf;
  std::int64_t const job = shelf.new_job(), other = shelf.new_job();
  shelf.buy("board", sheets(20), 20'00, "2026-07-01");
  write(shelf.workshop, [&](Writing& writing) {
    reserve(writing, other, on_hand(shelf.workshop, "board")->material, sheets(2), 0, day("2026-07-01"))
        .value();
    return reserve(writing, job, on_hand(shelf.workshop, "board")->material, sheets(5), 0, day("2026-07-01"))
        .value();
  });
  shelf.use(job, "board", sheets(4), "2026-07-02").value();
  shelf.use(job, "board", sheets(6), "2026-07-03").value();  // of which one was set aside
  shelf.use(job, "board", sheets(1), "2026-07-04").value();  // of what is free
  CHECK(broken_copy(shelf.path, "SELECT 1").empty());
  for (std::string const row : {"2", "3"}) {
    CAPTURE(row);
    CHECK(told(broken_copy(shelf.path, "UPDATE movement SET job = 2 WHERE id = " + row)) ==
          std::vector<std::string>{"movement " + row +
                                   ": is something else: of the job that it was set aside for"});
  }
}
