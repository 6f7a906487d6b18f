#include "db/past.h"

#include "tests/db/job_bench.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;

namespace {

// One finished on 2026-11-28.
struct PastBench : JobBench {
  PastBench() {
    lay_down(2, 2'00);
    accept();
    close();
    JobHeader const open = job();
    write([&](Writing& writing) { return finish(writing, open, frozen, day("2026-11-28")).value(); });
  }
  PastJob only() {
    Past const past = load_past(workshop, {});
    REQUIRE(past.jobs.size() == 1);
    return past.jobs.front();
  }
  Difference difference() {
    JobHeader const of = job();
    JobRecord const record = load_record(workshop, of);
    auto const taken = load_taken_on(workshop, of, {});
    SaleTaken const sale = load_sale(workshop, of);
    return difference_of({frozen, record, taken, sale, load_agreed_first(workshop, of), of.price, of.kept});
  }
  std::int64_t told(SaleKind kind, Money amount) {
    return write([&](Writing& writing) {
      return add_sale(writing, job(), kind, amount, day("2026-11-30"), "").value();
    });
  }
};

}  // namespace

TEST_CASE("a finished job is listed with what its parts say was left") {
  PastBench bench;
  PastJob const job = bench.only();
  CHECK(job.number == "26-001");
  CHECK(job.ended == day("2026-11-28"));
  CHECK(job.customer == "otter-stage");
  CHECK(job.outlet.empty());
  CHECK(job.left_quoted == bench.frozen.offer.left);
  CHECK(job.left == bench.frozen.offer.goods - eur(105'50));  // what jobs_test says that it cost
  CHECK(job.left == bench.difference().left);
  CHECK(job.labour == eur(44'00));
  CHECK(job.seconds == 7200);
  CHECK(job.given_away() == eur(0));
}

TEST_CASE("what the sale took is told kind by kind, corrected, and taken back") {
  PastBench bench;
  Money const before = bench.only().left;
  bench.told(SaleKind::fees, eur(12'00));
  bench.told(SaleKind::fees, eur(3'00));
  bench.told(SaleKind::carriage, eur(9'00));
  bench.told(SaleKind::returned, eur(1'00));
  bench.told(SaleKind::exchange, eur(50));
  Money const carriage = bench.frozen.delivery.carriage;
  CHECK(bench.only().left == before - eur(16'50) - (eur(9'00) - carriage));
  CHECK(bench.only().left == bench.difference().left);
  bench.told(SaleKind::fees, eur(-15'00));
  bench.told(SaleKind::tax, bench.frozen.offer.tax + eur(2'00));
  CHECK(bench.only().left == before - eur(3'50) - (eur(9'00) - carriage));
  CHECK(bench.only().left == bench.difference().left);
  CHECK(load_sale(bench.workshop, bench.job()).fees == eur(0));
  CHECK(bench
            .refusal([&](Writing& w) {
              return add_sale(w, bench.job(), SaleKind::carriage, eur(-9'01), day("2026-11-30"), "");
            })
            .starts_with("out-of-range, --carriage: -9.01"));
  bench.take_back();
  CHECK(bench.only().left == before - eur(1'50) - (eur(9'00) - carriage));
}

TEST_CASE("a list is filtered by day, binding, outlet and customer") {
  PastBench bench;
  auto const found = [&](PastFilter const& filter) { return load_past(bench.workshop, filter).jobs.size(); };
  CHECK(found({.since = day("2026-11-28"),
               .until = day("2026-11-28"),
               .binding = {},
               .outlet = {},
               .customer = {}}) == 1);
  CHECK(found({.since = day("2026-11-29"), .until = {}, .binding = {}, .outlet = {}, .customer = {}}) == 0);
  CHECK(found({.since = {}, .until = day("2026-11-27"), .binding = {}, .outlet = {}, .customer = {}}) == 0);
  CHECK(found({.since = {},
               .until = {},
               .binding = bench.frozen.binding,
               .outlet = "",
               .customer = "otter-stage"}) == 1);
  CHECK(found({.since = {}, .until = {}, .binding = {}, .outlet = "post", .customer = {}}) == 0);
  CHECK(found({.since = {}, .until = {}, .binding = {}, .outlet = {}, .customer = "nobody"}) == 0);
}

TEST_CASE("a job that was called off is counted apart") {
  JobBench bench;
  bench.lay_down(2, 2'00);
  bench.accept();
  bench.write([&](Writing& writing) {
    return cancel(writing, bench.job(), bench.frozen, eur(30'00), day("2026-11-28"), "").value();
  });
  Past const past = load_past(bench.workshop, {});
  CHECK(past.jobs.empty());
  CHECK(past.called_off == 1);
  CHECK(past.left_of_called_off == eur(30'00));  // nothing was taken yet
  CHECK(bench
            .refusal([&](Writing& w) {
              return add_sale(w, bench.job(), SaleKind::fees, eur(1'00), day("2026-11-30"), "");
            })
            .starts_with("rule-refused"));
}

TEST_CASE("hours borne by a stretch of days, and enquiries of which it is known what became of them") {
  PastBench bench;
  Absorbed const absorbed = load_absorbed(bench.workshop, day("2026-11-01"), day("2026-11-28"));
  CHECK(absorbed.jobs == 1);
  CHECK(absorbed.overhead == eur(20'00));
  CHECK(absorbed.time == Duration{7200});
  CHECK(load_absorbed(bench.workshop, day("2026-11-29"), day("2026-12-28")).jobs == 0);
  EnquiriesSeen const seen = load_enquiries_seen(bench.workshop, {}, day("2026-12-01"));
  CHECK(seen.quoted == 1);
  CHECK(seen.taken == 1);
}
