// Jobs changed behind the program's back: what they came to is no longer what their rows give.
#include "tests/db/broken.h"
#include "tests/db/job_bench.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;

namespace {

std::string to_text(std::vector<Fault> const& faults) {
  std::string text;
  for (std::string const& line : told(faults)) text += line + "\n";
  return text;
}

// Two hours of sewing, gilding billed at 41.50, 8 sheets taken; and ended, one way or the other.
struct Ended : JobBench {
  explicit Ended(JobState how) {
    accept();
    JobHeader const of = job();
    Amount const sheets{Dimension::count, 20'000}, taken{Dimension::count, 8'000};
    Parcel parcel;
    parcel.on = day("2026-11-26");
    parcel.currency = euro();
    parcel.terms.carriage = eur(0);
    parcel.lines = {{"laid-120", sheets, "20 sheets", eur(20'00), {}, {}, {}}};
    write([&](Writing& writing) {
      (void)receive(writing, parcel).value();
      (void)take_for_job(writing, of.id, "laid-120", "", taken, MovementKind::used, day("2026-11-27"), "")
          .value();
      for (BillLine const& line : frozen.bill.lines)
        for (Material const& material : frozen.materials)
          if (material.id == line.material && material.code != "laid-120" && needed(line).n > 0)
            (void)say_without(writing, of, material.code).value();
      (void)add_time(writing, of, sewing, std::nullopt, Duration{7200}, std::nullopt, day("2026-11-27"), "")
          .value();
      return add_billed(writing, of, "edge gilding", eur(41'50), day("2026-11-28")).value();
    });
    Date const on = day("2026-11-29");
    if (how == JobState::finished)
      write([&](Writing& writing) { return finish(writing, of, frozen, on).value(); });
    else
      write([&](Writing& writing) { return cancel(writing, of, frozen, eur(100'00), on, "").value(); });
  }
  std::string broken_by(std::string const& sql) {
    return to_text(broken_copy(folder.file("workshop.db"), sql));
  }
};

}  // namespace

TEST_CASE("a job that ended is well, and so is one whose end was taken back and told anew") {
  for (JobState const how : {JobState::finished, JobState::cancelled}) {
    Ended bench(how);
    CHECK(bench.broken_by("SELECT 1") == "");
    bench.take_back();
    CHECK(bench.broken_by("SELECT 1") == "");
    JobHeader const of = bench.job();
    bench.write([&](Writing& writing) {
      (void)add_time(writing, of, sewing, std::nullopt, {60}, std::nullopt, day("2026-11-29"), "").value();
      return finish(writing, bench.job(), bench.frozen, day("2026-11-30")).value();
    });
    CHECK(bench.broken_by("SELECT 1") == "");
  }
}

TEST_CASE("a finished job's result is what its rows give, and what was agreed") {
  Ended bench(JobState::finished);
  std::string const price = money_text(bench.job().price), to_pay = money_text(bench.job().to_pay);
  struct Case {
    std::string sql, told;
  };
  for (Case const& each : {
           Case{"UPDATE job_result SET materials = materials + 5, total = total + 5",
                "job_result 1: materials of 8.05: 8.00, as the job's rows give\n"},
           Case{"UPDATE job_result SET labour = 1, total = total - 4399",
                "job_result 1: labour of 0.01: 44.00, as the job's rows give\n"},
           Case{"UPDATE job_result SET overhead = 1, total = total - 1999",
                "job_result 1: overhead of 0.01: 20.00, as the job's rows give\n"},
           Case{"UPDATE job_result SET outside = 1, total = total - 4149",
                "job_result 1: work by others of 0.01: 41.50, as the job's rows give\n"},
           Case{"UPDATE job_result SET total = 1", "job_result 1: a cost of 0.01: 113.50"},
           Case{"UPDATE job_result SET seconds = 99", "job_result 1: hours of 1 min 39 s: 2 h"},
           Case{"UPDATE job_result SET kept = 1", "job_result 1: keeps 0.01: " + price + ", as the job was"},
           Case{"UPDATE job_result SET to_pay = 1", "job_result 1: to pay 0.01: " + to_pay},
           // The rows, where the result stands.
           Case{"UPDATE job_time SET seconds = 99", "job_result 1: hours of 2 h: 1 min 39 s"},
           Case{"UPDATE job_outside SET price = 1", "job_result 1: work by others of 41.50: 0.01"},
           Case{"DELETE FROM job_result", "job_event 1: ends a job without its result"},
           Case{"UPDATE job_result SET entry = entry - 1", "job_result 1: is of a job that did not end then"},
           Case{"DELETE FROM job_event", "job_result 1: is of a job that did not end then"},
       }) {
    CAPTURE(each.sql);
    CHECK(bench.broken_by(each.sql).find(each.told) != std::string::npos);
  }
}

TEST_CASE("a settlement keeps what the workshop says, and the tax on it") {
  Ended bench(JobState::cancelled);
  CHECK(bench.broken_by("UPDATE job_result SET to_pay = to_pay + 1") ==
        "job_result 1: to pay 119.01: 119.00, what is kept and the tax on it\n");
  CHECK(bench.broken_by("UPDATE job_result SET kept = kept + 100")
            .find("job_result 1: to pay 119.00: 120.19") != std::string::npos);
  CHECK(
      bench.broken_by("UPDATE job_result SET kept = -1").find("job_result 1: keeps -0.01: nothing or more") !=
      std::string::npos);
  CHECK(bench.broken_by("UPDATE job_time SET seconds = 99").find("job_result 1: hours of 2 h") !=
        std::string::npos);
}

TEST_CASE("what was agreed on is what the accepted quote offers, and then what each change makes of it") {
  JobBench bench;
  bench.accept();
  JobHeader const job = bench.job();
  FrozenQuote const before = bench.frozen;
  bench.frozen.outside[0].price = bench.frozen.outside[0].each = eur(70'00);
  bench.price();
  Change const change =
      priced_change(before, job.price, before.sheet, bench.frozen, load_record(bench.workshop, job)).value();
  bench.write([&](Writing& w) {
    QuoteHeader const now = save_issue(w, job.quote, bench.until, bench.frozen).value();
    return change_agreed(w, job, now, change, day("2026-12-01"), "more gold").value();
  });
  std::string const path = bench.folder.file("workshop.db");
  CHECK(to_text(broken_copy(path, "SELECT 1")) == "");
  for (auto const& [sql, named] :
       {std::pair{"price = price + 1 WHERE id = 1", "job_agreed 1: price "},
        {"to_pay = to_pay - 1 WHERE id = 1", "job_agreed 1: to pay "},
        {"deposit = deposit - 1 WHERE id = 1", "job_agreed 1: deposit "},
        {"thrown_away = 1 WHERE id = 1", "job_agreed 1: thrown away 0.01: 0.00, before any change"},
        {"quote = 2 WHERE id = 1", "job_agreed 1: names a quote that was not accepted then"},
        {"price = price + 100 WHERE id = 2", "job_agreed 2: to pay "},
        {"to_pay = to_pay + 1 WHERE id = 2", "job_agreed 2: to pay "},
        {"deposit = deposit + 1 WHERE id = 2", "job_agreed 2: deposit "},
        {"entry = entry - 1 WHERE id = 2", "job_agreed 2: names a quote that was not accepted then"}}) {
    std::string const change_made = sql;  // clang 14 captures no binding
    CAPTURE(change_made);
    CHECK(to_text(broken_copy(path, std::string("UPDATE job_agreed SET ") + sql)).find(named) !=
          std::string::npos);
  }
}

TEST_CASE("amounts that no command would have taken are told at their row, and nothing overflows") {
  JobBench bench;
  bench.accept();
  JobHeader const job = bench.job();
  bench.write([&](Writing& w) {
    (void)add_time(w, job, sewing, std::nullopt, {7200}, std::nullopt, day("2026-11-27"), "").value();
    (void)add_billed(w, job, "edge gilding", eur(41'50), day("2026-11-27")).value();
    (void)add_billed(w, job, "a die", eur(1'00), day("2026-11-27")).value();
    (void)add_payment(w, job, eur(100'00), day("2026-11-27"), "").value();
    return add_payment(w, job, eur(20'00), day("2026-11-28"), "").value();
  });
  std::string const path = bench.folder.file("workshop.db"), most = "9223372036854775807";
  CHECK(to_text(broken_copy(path, "UPDATE job_payment SET amount = " + most + " WHERE id = 1")) ==
        "job_payment 2: 2000 is too large to be summed: smaller numbers\n");
  CHECK(to_text(broken_copy(path, "UPDATE job_payment SET amount = -" + most +
                                      " WHERE id = 2; DELETE FROM job_payment WHERE id = 1")) ==
        "job 26-001: a number grew too large to be right: smaller numbers\n");
  CHECK(to_text(broken_copy(path, "UPDATE job_outside SET price = " + most + " WHERE id = 2"))
            .starts_with("job_outside 2: " + most + " is too large to be summed"));
  CHECK(to_text(broken_copy(
            path, "DELETE FROM job_outside WHERE id = 2; UPDATE job_outside SET price = " + most)) ==
        "job 26-001: a number grew too large to be right: smaller numbers\n");
  CHECK(names(broken_copy(path, "UPDATE price_version SET said = " + most +
                                    ", rate_num = 7, rate_den = 2 WHERE id = 2"),
              "price_version 2"));
  broken_copy(path, "UPDATE job_payment SET amount = " + most + " WHERE id = 1");
  Workshop broken = Workshop::open(path + ".broken").value();
  CHECK_THROWS_AS(list_jobs(broken, true), Overflow);
}
