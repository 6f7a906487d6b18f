// What a failing disk does to the shelf and to jobs.
#include "db/jobs.h"
#include "db/past.h"
#include "db/undo.h"
#include "tests/db/shelf.h"
#include "tests/faults/walk.h"

#include <doctest/doctest.h>

#include <functional>
#include <string>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;
using namespace endband::faults;

namespace {

Date const today = day("2026-11-25");

JobHeader the_job(Workshop& workshop) { return list_jobs(workshop, true).front(); }
QuoteHeader the_quote(Workshop& workshop) { return list_quotes(workshop, std::nullopt, 1).front(); }

Parcel parcel_of(std::string code, Amount quantity) {
  Parcel parcel = Shelf::parcel("2026-11-25");
  parcel.place = "rack";
  parcel.lines.push_back(Shelf::line(std::move(code), quantity, 34'00));
  return parcel;
}

// Boards, paper and a skin on the shelf, and a quote.
void with_shelf(Workshop& workshop) {
  stock_workshop(workshop);
  write(workshop, [](Writing& writing) {
    add_material(writing, paper("board"), day("2026-01-01")).value();
    add_material(writing, goatskin("goat"), day("2026-01-01")).value();
    PackPrice skin = pack_of_sheets(1, 66'00, "2026-01-01");
    skin.pack = cm2(6000);
    add_price(writing, "goat", skin).value();
    return add_price(writing, "board", pack_of_sheets(50, 40'00, "2026-01-01")).value();
  });
  for (auto const& [code, quantity] :
       {std::pair{"board", sheets(50)}, std::pair{"laid-120", sheets(4000)}, std::pair{"goat", cm2(6000)}})
    write(workshop, [&, of = code, much = quantity](Writing& writing) {
      return receive(writing, parcel_of(of, much)).value();
    });
  FrozenQuote quote = any_quote(workshop, 11);
  quote.on = today;
  write(workshop, [&](Writing& writing) {
    return save_quote(writing, "otter-stage", day("2027-01-31"), quote).value();
  });
}

// The quote is a job, which has taken boards and half the skin.
void with_job(Workshop& workshop) {
  with_shelf(workshop);
  QuoteHeader const quote = the_quote(workshop);
  write(workshop,
        [&](Writing& writing) { return quote_accept(writing, quote, today, std::nullopt).value(); });
  std::int64_t const job = the_job(workshop).id;
  write(workshop, [&](Writing& writing) {
    (void)take_for_job(writing, job, "goat", "", cm2(3000), MovementKind::used, today, "").value();
    return take_for_job(writing, job, "board", "", sheets(7), MovementKind::used, today, "").value();
  });
}

struct Operation {
  std::string name;
  std::function<void(Writing&)> run;
};

void walk_all(std::function<void(Workshop&)> const& prepare, std::vector<Operation> const& operations) {
  DiskWalk walk(prepare);
  for (Operation const& operation : operations) {
    CAPTURE(operation.name);
    CHECK(walk.over([&](Workshop& workshop) {
      Writing writing(workshop, info(operation.name));
      operation.run(writing);
      writing.commit();
    }) > 5);
  }
}

}  // namespace

TEST_CASE("the shelf is changed whole or not at all, whatever step of the disk fails") {
  walk_all(
      with_shelf,
      {{"receive",
        [](Writing& writing) { (void)receive(writing, parcel_of("laid-150", sheets(20))).value(); }},
       {"count",
        [](Writing& writing) {
          (void)count(writing, "board", sheets(43), today, "", std::nullopt, "").value();
        }},
       {"scrap", [](Writing& writing) { (void)scrap(writing, "board", sheets(3), today, "torn").value(); }},
       {"write down",
        [](Writing& writing) { (void)write_down(writing, "L1", eur(10'00), today, "faded").value(); }},
       {"change", [](Writing& writing) { (void)set_fact(writing, "L1", "place", "attic").value(); }}});
}

TEST_CASE("a quote moves on whole or not at all, whatever step of the disk fails") {
  walk_all(with_shelf,
           {{"accept",
             [](Writing& writing) {
               (void)quote_accept(writing, the_quote(writing.workshop()), today, std::nullopt).value();
             }},
            {"revise", [](Writing& writing) {
               QuoteHeader const of = the_quote(writing.workshop());
               (void)save_issue(writing, of, of.valid_until, load_quote(writing.workshop(), of.id)).value();
             }}});
}

TEST_CASE("a job takes and gives back whole or not at all, whatever step of the disk fails") {
  auto const id = [](Writing& writing) { return the_job(writing.workshop()).id; };
  walk_all(with_job,
           {{"use",
             [&](Writing& writing) {
               (void)take_for_job(writing, id(writing), "board", "", sheets(5), MovementKind::used, today, "")
                   .value();
             }},
            {"return",
             [&](Writing& writing) {
               (void)give_back_from_job(writing, id(writing), "board", "", sheets(2), today).value();
             }},
            {"offcut", [&](Writing& writing) {
               (void)keep_offcut(writing, id(writing), "goat", "", Length{300'000}, Length{200'000}, today,
                                 "drawer")
                   .value();
             }}});
}

TEST_CASE("a job ends, and a command is taken back, whole or not at all, whatever step of the disk fails") {
  walk_all(
      with_job,
      {{"time",
        [](Writing& writing) {
          (void)add_time(writing, the_job(writing.workshop()), OperationKind::sew_sections, std::nullopt,
                         Duration{7200}, std::nullopt, today, "")
              .value();
        }},
       {"sold",
        [](Writing& writing) {
          (void)add_sale(writing, the_job(writing.workshop()), SaleKind::fees, eur(12'00), today, "").value();
        }},
       {"cancel", [](Writing& writing) {
          JobHeader const job = the_job(writing.workshop());
          (void)cancel(writing, job, load_quote(writing.workshop(), job.quote.id), std::nullopt, today, "")
              .value();
        }}});
  DiskWalk walk(with_job);
  CHECK(walk.over([](Workshop& workshop) {
    EntryInfo own = info("undo");
    own.undoes = last_standing(workshop).value().seq;
    Writing writing(workshop, own);
    (void)undo(writing, own.undoes).value();
    writing.commit();
  }) > 5);
}
