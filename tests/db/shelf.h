// A workshop with a shelf: boards by the sheet, goatskins, and jobs to take them for.
#pragma once

#include "db/connection.h"
#include "db/quotes.h"
#include "db/statement.h"
#include "db/stock.h"
#include "tests/db/any_quote.h"
#include "tests/db/bench.h"

#include <string>
#include <utility>
#include <vector>

namespace endband::db::test {

inline Amount sheets(std::int64_t n) { return {Dimension::count, n * 1000}; }
inline Amount cm2(std::int64_t n) { return {Dimension::area, n * 100'000'000}; }

inline Material goatskin(std::string code) {
  Material material = paper(std::move(code));
  material.name = "Goat, moss green";
  material.kind = MaterialKind::leather;
  material.sold_by = SoldBy::skin;
  material.properties = {};
  material.properties.caliper = Thickness{900'000};
  material.properties.density_kg_m3 = 600;
  material.properties.usable_height = Length{700'000};
  material.properties.usable_width = Length{500'000};
  material.properties.usable_share = Ratio(4, 5);
  material.least_spoil = {Dimension::area, 0};
  return material;
}

struct Shelf {
  Folder folder;
  std::string const path = folder.file("workshop.db");
  Workshop workshop = new_workshop(path);

  explicit Shelf(std::string_view formula = "first-in-first-out") {
    stock_workshop(workshop);
    set_all(workshop, {{"stock.formula", formula}});
    // Before the materials without a price: any quote is made of all there are.
    for (std::uint64_t seed : {11u, 13u})
      quotes_.push_back(write(workshop, [&](Writing& writing) {
        FrozenQuote quote = any_quote(workshop, seed);
        quote.on = day("2026-05-04");
        return save_quote(writing, "otter-stage", day("2027-01-31"), quote).value().id;
      }));
    write(workshop, [](Writing& writing) {
      add_material(writing, paper("board"), day("2026-01-01")).value();
      return add_material(writing, goatskin("goat"), day("2026-01-01")).value();
    });
  }

  std::int64_t new_job() {  // twice at most
    return write(workshop, [&](Writing& writing) {
      return Statement(
                 workshop.connection(),
                 "INSERT INTO job (commission, on_date, entry) SELECT commission, '2026-06-01', ? FROM quote "
                 "WHERE id = ?")
          .bind(writing.entry(), quotes_.at(jobs_++))
          .insert();
    });
  }

  static Parcel parcel(std::string_view on) {
    Parcel parcel;
    parcel.on = day(on);
    parcel.supplier = "Harrow Paper Store";
    parcel.currency = euro();
    parcel.terms.carriage = eur(0);
    return parcel;
  }
  static ParcelLine line(std::string code, Amount quantity, std::int64_t cents) {
    return {std::move(code), quantity, amount_text(quantity), eur(cents), {}, {}, {}};
  }
  LotId buy(std::string code, Amount quantity, std::int64_t cents, std::string_view on) {
    return write(workshop, [&](Writing& writing) {
      Parcel lot = parcel(on);
      lot.lines.push_back(line(std::move(code), quantity, cents));
      return receive(writing, lot).value().front();
    });
  }
  Read<std::vector<Posting>> use(std::int64_t job, std::string_view code, Amount quantity,
                                 std::string_view on, std::string_view lot = "") {
    return write(workshop, [&](Writing& writing) {
      return take_for_job(writing, job, code, lot, quantity, MovementKind::used, day(on), "");
    });
  }
  std::int64_t value_of(std::string_view code) { return on_hand(workshop, code)->value.minor; }
  std::int64_t quantity_of(std::string_view code) { return on_hand(workshop, code)->quantity.n; }

 private:
  std::vector<std::int64_t> quotes_;
  std::size_t jobs_ = 0;  // so many of them are jobs
};

inline std::int64_t worth(std::vector<Posting> const& postings) {
  std::int64_t sum = 0;
  for (Posting const& posting : postings) sum += posting.value;
  return sum;
}

}  // namespace endband::db::test
