#include "tests/db/job_bench.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;

TEST_CASE("a job is found by its number, short while that says which") {
  JobBench bench;
  bench.accept();
  for (std::string_view const number : {"26-001", "26-1", "1"})
    CHECK(find_job(bench.workshop, number).has_value());
  for (std::string_view const number : {"", "2", "26-001a", "25-001", "x"}) {
    CAPTURE(number);
    CHECK_FALSE(find_job(bench.workshop, number).has_value());
  }
  CHECK(find_job(bench.workshop, "26-01a").error().front().near == std::vector<std::string>{"26-001"});
}

TEST_CASE("a record holds what moved, by material: taken less given back less kept") {
  JobBench bench;
  bench.lay_down(20, 20'00);
  bench.accept();
  std::string const job = std::to_string(bench.job().id);
  bench.move("used", -8000, -8'00, job);
  bench.move("used", 1000, 1'00, job);  // given back
  bench.move("cut-away", -500, -50, job);
  bench.move("spoiled", -2000, -2'00, job);
  bench.move("kept", 250, 12, job);
  bench.move("scrapped", -1000, -1'00, "NULL");
  JobRecord const record = load_record(bench.workshop, bench.job());
  REQUIRE(record.taken.size() == 1);
  Holding const& holding = record.taken[0];
  CHECK(holding.used == 7000);
  CHECK(holding.cut_away == 500);
  CHECK(holding.spoiled == 2000);
  CHECK(holding.kept == 250);
  CHECK(holding.quantity() == 9250);
  CHECK(holding.dimension == Dimension::count);
  CHECK(holding.value == eur(9'38));
  CHECK(record.to_pay == bench.frozen.offer.total);
}

TEST_CASE("hours, bills and payments come back as they were told") {
  JobBench bench;
  bench.accept();
  JobHeader const job = bench.job();
  Date const on = day("2026-11-27");
  bench.write([&](Writing& writing) {
    (void)add_time(writing, job, sewing, std::nullopt, {9000},
                   std::pair<std::string, std::string>{"09:10", "11:40"}, on, "")
        .value();
    (void)add_time(writing, job, std::nullopt, Part::cover, {3600}, std::nullopt, on, "").value();
    (void)add_time(writing, job, sewing, std::nullopt, {-600}, std::nullopt, on, "tea").value();
    (void)add_billed(writing, job, "edge gilding", eur(41'50), on).value();
    (void)add_payment(writing, job, eur(100'00), on, "cash").value();
    return add_payment(writing, job, eur(-30'00), on, "").value();
  });
  JobRecord const record = load_record(bench.workshop, bench.job());
  REQUIRE(record.worked.size() == 2);
  CHECK(record.worked[0].operation == sewing);
  CHECK(record.worked[0].time == Duration{8400});
  CHECK(record.worked[1].part == Part::cover);
  REQUIRE(record.billed.size() == 1);
  CHECK(record.billed[0].price == eur(41'50));
  CHECK(record.paid == eur(70'00));
  CHECK(bench.job().paid == eur(70'00));
}

TEST_CASE("what was taken back is not in the record") {
  JobBench bench;
  bench.accept();
  JobHeader const job = bench.job();
  bench.write([&](Writing& writing) {
    (void)add_time(writing, job, sewing, std::nullopt, {9000}, std::nullopt, day("2026-11-27"), "").value();
    (void)hold(writing, job, "title proof", day("2026-11-27"), "").value();
    (void)add_billed(writing, job, "edge gilding", eur(41'50), day("2026-11-27")).value();
    return add_payment(writing, job, eur(100'00), day("2026-11-27"), "").value();
  });
  bench.take_back();
  JobRecord const record = load_record(bench.workshop, bench.job());
  CHECK(record.worked.empty());
  CHECK(record.billed.empty());
  CHECK(record.gates.empty());
  CHECK(record.paid == eur(0));
}

TEST_CASE("nothing is taken back of time or money that was not told or paid") {
  JobBench bench;
  bench.accept();
  JobHeader const job = bench.job();
  auto const time = [&](std::int64_t seconds) {
    return bench.refusal([&](Writing& writing) {
      return add_time(writing, job, sewing, std::nullopt, {seconds}, std::nullopt, day("2026-11-27"), "");
    });
  };
  CHECK(time(0) == "out-of-range, time: 0 s: a time that is not nothing");
  CHECK(time(-60) == "out-of-range, time: -1 min: a correction of no more than was told, 0 s");
  auto const paid = [&](std::int64_t cents) {
    return bench.refusal(
        [&](Writing& writing) { return add_payment(writing, job, eur(cents), day("2026-11-27"), ""); });
  };
  CHECK(paid(0) == "out-of-range, amount: 0.00: an amount that is not nothing");
  CHECK(paid(-1) == "out-of-range, amount: -0.01: given back, no more than the 0.00 paid");
  CHECK(bench
            .refusal(
                [&](Writing& writing) { return add_billed(writing, job, "  ", eur(1), day("2026-11-27")); })
            .starts_with("bad-value, --outside"));
}

TEST_CASE("a gate holds the job until it is approved, and may be held again") {
  JobBench bench;
  bench.accept();
  JobHeader const job = bench.job();
  auto const hold_it = [&](Writing& writing) {
    return hold(writing, job, "title proof", day("2026-11-27"), "");
  };
  auto const approved = [&](std::string_view gate, std::string_view on) {
    return bench.refusal([&](Writing& writing) { return approve(writing, job, gate, day(on), ""); });
  };
  CHECK(approved("title proof", "2026-11-27") ==
        "rule-refused, gate: title proof: nothing of job 26-001 is held");
  bench.write([&](Writing& writing) { return hold_it(writing).value(); });
  CHECK(bench.job().state == JobState::held);
  CHECK(load_record(bench.workshop, job).gates.at(0).since == day("2026-11-27"));
  CHECK(bench.refusal(hold_it) == "rule-refused, gate: title proof: it is held already");
  CHECK(approved("leather", "2026-11-28") == "unknown-code, gate: leather: a gate that is held");
  CHECK(approved("title proof", "2026-11-26") == "rule-refused, --on: 2026-11-26: it was held on 2026-11-27");
  bench.write([&](Writing& writing) {
    return approve(writing, job, "title proof", day("2026-11-28"), "fine").value();
  });
  CHECK(bench.job().state == JobState::open);
  bench.write([&](Writing& writing) { return hold_it(writing).value(); });
  CHECK(bench.job().state == JobState::held);
}

TEST_CASE("only what was quoted and not taken is said to be not needed, once") {
  JobBench bench;
  bench.lay_down(20, 20'00);
  bench.accept();
  auto const without = [&](std::string_view code) {
    return bench.refusal([&](Writing& writing) { return say_without(writing, bench.job(), code); });
  };
  CHECK(without("laid-12").starts_with("unknown-code, code: laid-12"));
  bench.move("used", -8000, -8'00, std::to_string(bench.job().id));
  CHECK(without("laid-120") ==
        "rule-refused, --without: laid-120: the job took 8 of it; endband job return 26-001 laid-120");
  bench.write([&](Writing& writing) { return say_without(writing, bench.job(), "laid-150").value(); });
  CHECK(without("laid-150") == "rule-refused, --without: laid-150: it was said already");
  CHECK(load_record(bench.workshop, bench.job()).without.size() == 1);
}

TEST_CASE("a job is not finished while anything is open, all of it is told at once") {
  JobBench bench;
  bench.accept();
  JobHeader const job = bench.job();
  bench.write([&](Writing& writing) { return hold(writing, job, "proof", day("2026-11-27"), "").value(); });
  Writing writing(bench.workshop, info());
  auto const finished = finish(writing, job, bench.frozen, day("2026-11-20"));
  REQUIRE_FALSE(finished.has_value());
  std::vector<std::string> fields;
  for (Fault const& fault : finished.error()) fields.push_back(fault.where.field);
  CHECK(std::count(fields.begin(), fields.end(), "gate") == 1);
  CHECK(std::count(fields.begin(), fields.end(), "material") >= 3);
  CHECK(std::count(fields.begin(), fields.end(), "time") == 1);
  CHECK(std::count(fields.begin(), fields.end(), "outside") == 1);
  CHECK(std::count(fields.begin(), fields.end(), "--on") == 1);
}

TEST_CASE(
    "a finished job costs what it took, lets go what was set aside, and takes nothing more but payments") {
  JobBench bench;
  bench.lay_down(2, 2'00);
  bench.accept();
  bench.close();
  REQUIRE(bench.reserved() > 0);
  JobHeader const job = bench.job();
  ActualCost const cost = bench.write(
      [&](Writing& writing) { return finish(writing, job, bench.frozen, day("2026-11-28")).value(); });
  CHECK(cost.labour == eur(44'00));
  CHECK(cost.overhead == eur(20'00));
  CHECK(cost.outside == eur(41'50));
  CHECK(cost.total == eur(105'50));
  CHECK(bench.reserved() == 0);
  CHECK(bench.job().state == JobState::finished);
  CHECK(bench.job().ended == day("2026-11-28"));
  CHECK(list_jobs(bench.workshop, false).empty());
  CHECK(list_jobs(bench.workshop, true).size() == 1);
  SQLite::Database& database = bench.workshop.connection().database;
  CHECK(database.execAndGet("SELECT total FROM job_result").getInt64() == 105'50);
  CHECK(database.execAndGet("SELECT kept FROM job_result").getInt64() == bench.frozen.offer.goods.minor);
  std::string const ended = "rule-refused, job: 26-001: it was finished on 2026-11-28";
  Date const on = day("2026-11-29");
  CHECK(bench.refusal([&](Writing& w) { return add_billed(w, job, "more", eur(1), on); }) == ended);
  CHECK(bench.refusal([&](Writing& w) {
    return add_time(w, job, sewing, std::nullopt, {60}, std::nullopt, on, "");
  }) == ended);
  CHECK(bench.refusal([&](Writing& w) { return hold(w, job, "proof", on, ""); }) == ended);
  CHECK(bench.refusal([&](Writing& w) { return finish(w, job, bench.frozen, on); }) == ended);
  CHECK(bench.refusal([&](Writing& w) { return cancel(w, job, bench.frozen, std::nullopt, on, ""); }) ==
        ended);
  CHECK(bench.write([&](Writing& w) { return add_payment(w, job, eur(50'00), on, "").has_value(); }));
}

TEST_CASE("a cancelled job is settled by what it cost so far") {
  JobBench bench;
  bench.lay_down(2, 2'00);
  bench.accept();
  JobHeader const job = bench.job();
  bench.write([&](Writing& writing) {
    (void)add_time(writing, job, sewing, std::nullopt, {3600}, std::nullopt, day("2026-11-27"), "").value();
    return add_payment(writing, job, eur(100'00), day("2026-11-27"), "deposit").value();
  });
  CHECK(bench.refusal([&](Writing& w) {
    return cancel(w, job, bench.frozen, eur(-1), day("2026-11-28"), "");
  }) == "out-of-range, --keep: -0.01: nothing or more");
  CHECK(bench.refusal([&](Writing& w) {
    return cancel(w, job, bench.frozen, std::nullopt, day("2026-11-26"), "");
  }) == "rule-refused, --on: 2026-11-26: something of job 26-001 is dated 2026-11-27");
  Settlement const settled = bench.write([&](Writing& w) {
    return cancel(w, job, bench.frozen, std::nullopt, day("2026-11-28"), "moved away").value();
  });
  CHECK(settled.keeps == eur(32'00));
  CHECK(settled.tax == eur(6'08));
  CHECK(settled.to_give_back == eur(61'92));
  CHECK(bench.reserved() == 0);
  CHECK(bench.job().state == JobState::cancelled);
  CHECK(bench.write([&](Writing& w) {
    return add_payment(w, job, eur(-61'92), day("2026-11-29"), "given back").has_value();
  }));
}

TEST_CASE("a rebinding is not finished before the customer's book and goods are home") {
  JobBench bench;
  bench.frozen.custody = {{"a psalter, boards off", "spine lost", eur(300'00)}};
  bench.quote = bench.revise(bench.quote);
  bench.lay_down(5, 0, "(SELECT id FROM customer)");
  bench.accept();
  bench.close();
  CHECK(load_record(bench.workshop, bench.job()).custody_here);
  auto const finished = [&] {
    return bench.refusal([&](Writing& w) { return finish(w, bench.job(), bench.frozen, day("2026-12-01")); });
  };
  CHECK(finished() ==
        "rule-refused, custody: 26-001: the customer's goods are still here; endband job return 26-001");
  CHECK(bench.refusal([&](Writing& w) { return give_back_custody(w, bench.job(), day("2026-11-26"), ""); }) ==
        "rule-refused, --on: 2026-11-26: L1 last moved on 2026-11-27");
  bench.write(
      [&](Writing& w) { return give_back_custody(w, bench.job(), day("2026-12-01"), "fetched").value(); });
  CHECK_FALSE(load_record(bench.workshop, bench.job()).custody_here);
  CHECK(bench.workshop.connection().database.execAndGet("SELECT quantity FROM lot_state").getInt64() == 0);
  CHECK(bench.refusal([&](Writing& w) { return give_back_custody(w, bench.job(), day("2026-12-01"), ""); }) ==
        "rule-refused, job: 26-001: nothing of the customer's is here for it");
  CHECK(finished() == "");
}

TEST_CASE("a change makes the job go on by the new issue, at the price of the change") {
  JobBench bench;
  bench.lay_down(3, 3'00);
  bench.accept(day("2027-01-15"));
  JobHeader const job = bench.job();
  FrozenQuote const before = bench.frozen;
  bench.frozen.outside.push_back(bench.frozen.outside[0]);
  bench.frozen.outside[1].words = "a die";
  bench.price();
  Change const change =
      priced_change(before, job.price, before.sheet, bench.frozen, load_record(bench.workshop, job)).value();
  CHECK(change.difference == eur(40'00));  // stands at cost
  bench.write([&](Writing& w) {
    QuoteHeader const now = save_issue(w, job.quote, bench.until, bench.frozen).value();
    return change_agreed(w, job, now, change, day("2026-12-01"), "with a title").value();
  });
  JobHeader const varied = bench.job();
  CHECK(number_text(varied.quote.number) == "26-001b");
  CHECK(varied.since == day("2026-11-26"));
  CHECK(varied.needed_on == day("2027-01-15"));
  CHECK(varied.price == job.price + eur(40'00));
  CHECK(varied.to_pay == job.to_pay + eur(47'60));
  CHECK(varied.deposit == job.deposit);
  CHECK(bench.state(bench.quote) == QuoteState::revised);
  CHECK(bench.state(varied.quote) == QuoteState::accepted);
  CHECK(bench.reserved() > 0);
  // Who still holds the old header is told.
  CHECK(bench.refusal([&](Writing& w) { return add_billed(w, job, "a die", eur(1), day("2026-12-02")); })
            .starts_with("changed-meanwhile, job: 26-001"));
}

TEST_CASE("a change sets aside no more than the job does not hold yet") {
  JobBench bench;
  bench.lay_down(20'000, 20'000'00);
  bench.accept();
  std::int64_t const needs = bench.needs("laid-120");
  REQUIRE(bench.reserved() == needs);
  JobHeader const job = bench.job();
  REQUIRE(needs > 3000);
  bench.write([&](Writing& w) {
    let_go(w, job.id);
    return 0;
  });
  bench.move("used", -1000, -1'00, std::to_string(job.id));
  Change const none = priced_change(bench.frozen, job.price, bench.frozen.sheet, bench.frozen,
                                    load_record(bench.workshop, job))
                          .value();
  bench.write([&](Writing& w) {
    QuoteHeader const now = save_issue(w, job.quote, bench.until, bench.frozen).value();
    return change_agreed(w, job, now, none, day("2026-12-01"), "").value();
  });
  CHECK(bench.job().price == job.price);
  CHECK(bench.job().to_pay == job.to_pay);
  CHECK(bench.reserved() == needs - 1000);
}

TEST_CASE("what was bought for the job stays its own through a change, and is not set aside again") {
  JobBench bench;
  bench.accept();
  JobHeader const job = bench.job();
  bench.lay_down(3, 3'00, "NULL", std::to_string(job.id));
  bench.lay_down(20'000, 20'000'00);
  Change const none = priced_change(bench.frozen, job.price, bench.frozen.sheet, bench.frozen,
                                    load_record(bench.workshop, job))
                          .value();
  bench.write([&](Writing& w) {
    QuoteHeader const now = save_issue(w, job.quote, bench.until, bench.frozen).value();
    return change_agreed(w, job, now, none, day("2026-12-01"), "").value();
  });
  SQLite::Database& database = bench.workshop.connection().database;
  CHECK(database.execAndGet("SELECT quantity FROM reserved WHERE lot <> 0").getInt64() == 3000);
  CHECK(database.execAndGet("SELECT sum(quantity) FROM reserved WHERE lot = 0").getInt64() ==
        bench.needs("laid-120") - 3000);
}
