#include "tests/db/shelf.h"

#include <doctest/doctest.h>

#include <thread>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;

namespace {

template <class T>
Fault refused(Read<T> const& read) {
  REQUIRE_FALSE(read);
  return read.error().front();
}
Reserved set_aside(Shelf& shelf, std::int64_t job, std::string_view code, Amount wanted,
                   std::int64_t items = 0) {
  return write(shelf.workshop, [&](Writing& writing) {
    return reserve(writing, job, on_hand(shelf.workshop, code)->material, wanted, items, day("2026-07-02"))
        .value();
  });
}
Read<std::vector<Posting>> bring_back(Shelf& shelf, std::int64_t job, std::string_view code,
                                      Amount quantity) {
  return write(shelf.workshop, [&](Writing& writing) {
    return give_back_from_job(writing, job, code, "", quantity, day("2026-07-05"));
  });
}
Read<LotRow> keep(Shelf& shelf, std::int64_t job, std::string_view code, std::int64_t height_mm,
                  std::int64_t width_mm) {
  return write(shelf.workshop, [&](Writing& writing) {
    return keep_offcut(writing, job, code, "", Length{height_mm * 1000}, Length{width_mm * 1000},
                       day("2026-07-05"), "drawer");
  });
}

}  // namespace

TEST_CASE("what others have set aside is not taken, and who has it is said") {
  Shelf shelf;
  std::int64_t const one = shelf.new_job(), two = shelf.new_job();
  shelf.buy("board", sheets(10), 1'000, "2026-07-01");
  CHECK(set_aside(shelf, one, "board", sheets(7)).reserved == sheets(7));
  CHECK(set_aside(shelf, two, "board", sheets(5)).reserved == sheets(3));  // all that is free
  Fault const fault = refused(shelf.use(two, "board", sheets(4), "2026-07-02"));
  CHECK(fault.code == FaultCode::rule_refused);
  CHECK(fault.expected == "at most 3: 10 there, 7 set aside for 26-001");
  CHECK(refused(shelf.use(two, "board", sheets(4), "2026-07-02", "L1")).code == FaultCode::rule_refused);
  CHECK(shelf.use(two, "board", sheets(3), "2026-07-02"));
  CHECK(on_hand(shelf.workshop, "board")->reserved == sheets(7));
  CHECK(shelf.use(one, "board", sheets(2), "2026-07-02"));
  CHECK(on_hand(shelf.workshop, "board")->reserved == sheets(5));
  write(shelf.workshop, [&](Writing& writing) {
    let_go(writing, one);
    return true;
  });
  CHECK(on_hand(shelf.workshop, "board")->reserved == sheets(0));
  CHECK(check(shelf.workshop).empty());
}

TEST_CASE("of skins whole ones are set aside, the smallest that is large enough") {
  Shelf shelf;
  std::int64_t const one = shelf.new_job(), two = shelf.new_job();
  shelf.buy("goat", cm2(7000), 7'000, "2026-07-01");
  shelf.buy("goat", cm2(5000), 5'000, "2026-07-01");
  shelf.buy("goat", cm2(2000), 2'000, "2026-07-01");
  Reserved const got = set_aside(shelf, one, "goat", cm2(4000), 1);
  REQUIRE(got.items.size() == 1);
  CHECK(mark_text(got.items[0]) == "K2");
  CHECK(got.reserved == cm2(4000));
  CHECK(on_hand(shelf.workshop, "goat")->reserved == cm2(5000));
  Reserved const pair = set_aside(shelf, two, "goat", cm2(8000), 2);
  CHECK(pair.items.size() == 1);  // K3 is too small for its half
  CHECK(pair.reserved == cm2(4000));
  Fault const fault = refused(shelf.use(two, "goat", cm2(1000), "2026-07-02", "K2"));
  CHECK(fault.expected.find("set aside for 26-001 (K2)") != std::string::npos);
}

TEST_CASE("two that use the last skin at once: one gets it, the other is told who has it") {
  Shelf shelf;
  std::int64_t const one = shelf.new_job(), two = shelf.new_job();
  shelf.buy("goat", cm2(5000), 5'000, "2026-07-01");
  std::vector<Read<std::vector<Posting>>> got(2, std::vector<Posting>{});
  auto const take_it = [&](std::size_t n, std::int64_t job) {
    Workshop workshop = Workshop::open(shelf.path).value();
    Writing writing(workshop, info());
    got[n] = take_for_job(writing, job, "goat", "", cm2(5000), MovementKind::used, day("2026-07-02"), "");
    if (got[n]) writing.commit();
  };
  std::thread first(take_it, 0, one), second(take_it, 1, two);
  first.join();
  second.join();
  REQUIRE(got[0].has_value() != got[1].has_value());
  bool const won_first = got[0].has_value();
  CHECK(refused(got[won_first ? 1 : 0]).expected ==
        std::string("nothing is free: 0 cm2 there; the last of it, K1, went to ") +
            (won_first ? "26-001" : "26-002") + " on 2026-07-02");
  CHECK(shelf.quantity_of("goat") == 0);
  CHECK(check(shelf.workshop).empty());
}

TEST_CASE("what comes back is worth what it was taken at, the last taken first, and no more than was taken") {
  Shelf shelf;
  std::int64_t const job = shelf.new_job();
  shelf.buy("board", sheets(3), 100, "2026-07-01");
  shelf.buy("board", sheets(3), 900, "2026-07-02");
  CHECK(worth(shelf.use(job, "board", sheets(5), "2026-07-03").value()) == 700);
  CHECK(worth(bring_back(shelf, job, "board", sheets(3)).value()) ==
        633);  // two at 3.00, one at a third of 1.00
  CHECK(refused(bring_back(shelf, job, "board", sheets(3))).expected == "at most 2, which the job holds");
  CHECK(worth(bring_back(shelf, job, "board", sheets(2)).value()) == 67);
  CHECK(shelf.value_of("board") == 1'000);
  CHECK(check(shelf.workshop).empty());
}

TEST_CASE("an offcut has its one value, comes off the job and serves only by name") {
  Shelf shelf;
  std::int64_t const job = shelf.new_job();
  shelf.buy("goat", cm2(5000), 5'000, "2026-07-01");
  shelf.use(job, "goat", cm2(5000), "2026-07-02").value();
  LotRow const first = keep(shelf, job, "goat", 200, 250).value();  // 500 cm2 of 5,000, half its share
  CHECK(first.value == eur(250));
  CHECK(first.parent == "K1");
  CHECK(first.place == "drawer");
  CHECK(mark_text(first.mark) == "K2");
  CHECK(keep(shelf, job, "goat", 400, 500).value().value == eur(1'000));  // the share is of what was taken
  CHECK(stock_value(shelf.workshop, day("2026-07-05")).in_work == eur(3'750));
  CHECK(refused(keep(shelf, job, "goat", 600, 600)).code == FaultCode::does_not_fit);
  CHECK(refused(bring_back(shelf, job, "goat", cm2(2600))).code == FaultCode::rule_refused);
  Fault const unnamed = refused(shelf.use(job, "goat", cm2(100), "2026-07-06"));
  CHECK(unnamed.near == std::vector<std::string>{"K2", "K3"});
  CHECK(worth(shelf.use(job, "goat", cm2(500), "2026-07-06", "K2").value()) == 250);
  CHECK(check(shelf.workshop).empty());
}

TEST_CASE("a sheet's offcut is a share of a sheet, thread leaves none") {
  Shelf shelf;
  std::int64_t const job = shelf.new_job();
  shelf.buy("board", sheets(2), 2'000, "2026-07-01");
  shelf.use(job, "board", sheets(2), "2026-07-02").value();
  LotRow const kept = keep(shelf, job, "board", 640, 450).value();
  CHECK(kept.quantity == Amount{Dimension::count, 500});
  CHECK(kept.value == eur(250));
  CHECK(mark_text(kept.mark) == "L2");
}

TEST_CASE("what was bought for another job serves it alone until it ends") {
  Shelf shelf;
  std::int64_t const one = shelf.new_job(), two = shelf.new_job();
  Parcel parcel = Shelf::parcel("2026-07-01");
  parcel.job = "26-001";
  parcel.lines = {Shelf::line("board", sheets(5), 500)};
  write(shelf.workshop, [&](Writing& writing) { return receive(writing, parcel).value(); });
  CHECK(set_aside(shelf, two, "board", sheets(5)).reserved == sheets(0));
  CHECK(refused(shelf.use(two, "board", sheets(1), "2026-07-02")).code == FaultCode::rule_refused);
  CHECK(refused(shelf.use(two, "board", sheets(1), "2026-07-02", "L1")).code == FaultCode::rule_refused);
  write(shelf.workshop, [&](Writing& writing) {
    let_go(writing, one);
    return Statement(shelf.workshop.connection(),
                     "INSERT INTO job_event (job, event, gate, words, on_date, entry) VALUES (?, 'finished', "
                     "'', '', "
                     "'2026-07-02', ?)")
        .bind(one, writing.entry())
        .insert();
  });
  CHECK(shelf.use(two, "board", sheets(1), "2026-07-03"));
  CHECK(refused(shelf.use(one, "board", sheets(1), "2026-07-03")).code ==
        FaultCode::rule_refused);  // it has ended
}

TEST_CASE("goods past their day serve only by name") {
  Shelf shelf;
  std::int64_t const job = shelf.new_job();
  shelf.buy("board", sheets(5), 500, "2026-07-01");
  write(shelf.workshop,
        [](Writing& writing) { return set_fact(writing, "L1", "keeps-until", "2026-07-10").value(); });
  CHECK(shelf.use(job, "board", sheets(1), "2026-07-10"));
  CHECK(refused(shelf.use(job, "board", sheets(1), "2026-07-11")).near == std::vector<std::string>{"L1"});
  CHECK(shelf.use(job, "board", sheets(1), "2026-07-11", "L1"));
}

TEST_CASE("movements are told newest first, of a material, of a lot, or of all") {
  Shelf shelf;
  std::int64_t const job = shelf.new_job();
  shelf.buy("board", sheets(5), 500, "2026-07-01");
  shelf.buy("goat", cm2(5000), 5'000, "2026-07-01");
  shelf.use(job, "board", sheets(2), "2026-07-02").value();
  auto const all = movements(shelf.workshop, std::nullopt, 10);
  REQUIRE(all.size() == 3);
  CHECK(all[0].kind == MovementKind::used);
  CHECK(all[0].quantity == -sheets(2).n);
  CHECK(all[0].value == -200);
  CHECK(all[0].job == "26-001");
  CHECK(movements(shelf.workshop, "board", 10).size() == 2);
  CHECK(movements(shelf.workshop, "K1", 10).size() == 1);
  CHECK(movements(shelf.workshop, "board", 1).size() == 1);
}
