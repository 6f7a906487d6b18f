#include "tests/db/job_bench.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;

TEST_CASE("a quote is open, is sent, and lapses after its last day") {
  JobBench bench;
  CHECK(bench.state(bench.quote) == QuoteState::open);
  bench.write([&](Writing& writing) {
    return quote_send(writing, bench.quote, day("2026-11-26"), "by post").value();
  });
  CHECK(bench.state(bench.quote) == QuoteState::sent);
  CHECK(bench.state(bench.quote, "2026-12-31") == QuoteState::sent);
  CHECK(bench.state(bench.quote, "2027-01-01") == QuoteState::lapsed);
  auto const events = quote_events(bench.workshop, bench.quote.id);
  REQUIRE(events.size() == 1);
  CHECK(events[0].event == "sent");
  CHECK(events[0].on == day("2026-11-26"));
  CHECK(events[0].words == "by post");
}

TEST_CASE("a declined quote is not sent again, but may be accepted while it holds") {
  JobBench bench;
  bench.write([&](Writing& writing) {
    return quote_decline(writing, bench.quote, day("2026-11-25"), "too dear").value();
  });
  CHECK(bench.state(bench.quote) == QuoteState::declined);
  CHECK(bench.refusal([&](Writing& writing) {
    return quote_send(writing, bench.quote, day("2026-11-26"), "");
  }) == "rule-refused, quote: 26-001a: it was declined on 2026-11-25");
  CHECK(bench.accept().number == "26-001");
}

TEST_CASE("a quote moves nowhere before its day, nor after its last") {
  JobBench bench;
  CHECK(bench.refusal([&](Writing& writing) {
    return quote_send(writing, bench.quote, day("2026-11-24"), "");
  }) == "rule-refused, quote: 26-001a: it is of 2026-11-25, after 2026-11-24");
  std::string const lapsed =
      "rule-refused, quote: 26-001a: it held until 2026-12-31; endband quote revise 26-001a FILE prices it "
      "anew";
  CHECK(bench.refusal([&](Writing& writing) {
    return quote_accept(writing, bench.quote, day("2027-01-01"), std::nullopt);
  }) == lapsed);
  CHECK(bench.refusal([&](Writing& writing) {
    return quote_send(writing, bench.quote, day("2027-01-01"), "");
  }) == lapsed);
}

TEST_CASE("an accepted quote is a job at its price, with its deposit asked") {
  JobBench bench;
  AcceptedJob const accepted = bench.accept(day("2027-01-15"));
  CHECK(accepted.number == "26-001");
  CHECK(accepted.deposit == bench.frozen.offer.deposit);
  CHECK(bench.state(bench.quote) == QuoteState::accepted);
  JobHeader const job = bench.job();
  CHECK(job.id == accepted.job);
  CHECK(job.quote.id == bench.quote.id);
  CHECK(job.since == day("2026-11-26"));
  CHECK(job.needed_on == day("2027-01-15"));
  CHECK(job.state == JobState::open);
  CHECK_FALSE(job.ended.has_value());
  CHECK(job.price == bench.frozen.offer.goods);
  CHECK(job.to_pay == bench.frozen.offer.total);
  CHECK(job.deposit == bench.frozen.offer.deposit);
  CHECK(job.paid == eur(0));
  CHECK(list_jobs(bench.workshop, false).size() == 1);
}

TEST_CASE("a quote of no customer becomes a job too") {
  JobBench bench("");
  CHECK(bench.accept().number == "26-001");
  CHECK(bench.job().quote.customer == "");
}

TEST_CASE("nobody accepts twice, nor another issue of what is a job") {
  JobBench bench;
  bench.accept();
  CHECK(bench.refusal([&](Writing& writing) {
    return quote_accept(writing, bench.quote, day("2026-11-27"), std::nullopt);
  }) == "rule-refused, quote: 26-001a: it was accepted on 2026-11-26 and is job 26-001");
  QuoteHeader const second = bench.revise(bench.quote);
  CHECK(bench.refusal([&](Writing& writing) {
    return quote_accept(writing, second, day("2026-11-27"), std::nullopt);
  }) == "rule-refused, quote: 26-001b: another issue was accepted and is job 26-001; endband job vary 26-001 "
        "FILE "
        "changes that");
  CHECK(bench
            .refusal(
                [&](Writing& writing) { return quote_decline(writing, bench.quote, day("2026-11-27"), ""); })
            .ends_with("endband job cancel 26-001 calls it off"));
}

TEST_CASE("materials are not needed before the day of acceptance") {
  JobBench bench;
  CHECK(bench.refusal([&](Writing& writing) {
    return quote_accept(writing, bench.quote, day("2026-11-26"), day("2026-11-25"));
  }) == "out-of-range, --needed-on: 2026-11-25: 2026-11-26, the day of the acceptance, or later");
}

TEST_CASE("acceptance sets aside what the bill needs as far as it lies there, by its order") {
  JobBench bench;
  bench.lay_down(3, 3'00);
  AcceptedJob const accepted = bench.accept();
  std::vector<BillLine> wanting = bench.frozen.bill.lines;
  std::erase_if(wanting, [](BillLine const& line) { return needed(line).n == 0; });
  REQUIRE(accepted.reserved.size() == wanting.size());
  REQUIRE(wanting.size() >= 3);
  std::int64_t set_aside = 0;
  for (std::size_t i = 0; i < wanting.size(); ++i) {
    Reserved const& row = accepted.reserved[i];
    CHECK(row.material == wanting[i].material);
    CHECK(row.wanted ==
          (wanting[i].charging == Charging::as_used ? wanting[i].consumed() : wanting[i].opened));
    CHECK(row.reserved.n == (row.code == "laid-120" ? std::min<std::int64_t>(3000, row.wanted.n) : 0));
    set_aside += row.reserved.n;
  }
  CHECK(set_aside > 0);
  CHECK(bench.reserved() == set_aside);
}

TEST_CASE("what the customer supplies is not set aside") {
  JobBench bench;
  std::size_t const all = bench.accept().reserved.size();
  JobBench supplied;
  supplied.frozen.bill.lines[0].customer_supplied = true;
  supplied.price();
  supplied.quote = supplied.revise(supplied.quote);
  REQUIRE(needed(supplied.frozen.bill.lines[0]).n > 0);
  CHECK(supplied.accept().reserved.size() == all - 1);
}

TEST_CASE("a new issue takes the place of those before it") {
  JobBench bench;
  QuoteHeader const second = bench.revise(bench.quote);
  CHECK(number_text(second.number) == "26-001b");
  CHECK(second.customer == "otter-stage");
  CHECK(bench.state(bench.quote) == QuoteState::revised);
  CHECK(bench.state(second) == QuoteState::open);
  QuoteHeader const third = bench.revise(bench.quote);  // of the first again
  CHECK(number_text(third.number) == "26-001c");
  CHECK(bench.state(second) == QuoteState::revised);
  CHECK(quote_events(bench.workshop, bench.quote.id).size() == 1);
  CHECK(bench.refusal([&](Writing& writing) {
    return quote_accept(writing, second, day("2026-11-26"), std::nullopt);
  }) == "rule-refused, quote: 26-001b: it was revised on 2026-11-25; what holds is 26-001c");
  CHECK(bench.damage() == "");
}

TEST_CASE("a commission has no issue after z") {
  JobBench bench;
  QuoteHeader last = bench.quote;
  while (last.number.issue != 'z') last = bench.revise(last);
  CHECK(bench.refusal([&](Writing& writing) { return save_issue(writing, last, bench.until, bench.frozen); })
            .starts_with("rule-refused, quote: 26-001z: the commission has issues a to z"));
}

TEST_CASE("an acceptance that was taken back is no job, and may be said anew for another day") {
  JobBench bench;
  bench.lay_down(2, 2'00);
  bench.accept(day("2027-01-15"));
  bench.take_back();
  CHECK(bench.state(bench.quote) == QuoteState::open);
  CHECK(list_jobs(bench.workshop, true).empty());
  CHECK(find_job(bench.workshop, "26-001").error().front().code == FaultCode::unknown_code);
  CHECK(bench.reserved() == 0);
  bench.accept(day("2027-02-01"));
  CHECK(bench.job().needed_on == day("2027-02-01"));
  CHECK(bench.reserved() > 0);
}

TEST_CASE("an issue that was taken back gives way to the one before it") {
  JobBench bench;
  QuoteHeader const second = bench.revise(bench.quote);
  bench.take_back();
  CHECK(bench.state(second) == QuoteState::withdrawn);
  CHECK(bench.state(bench.quote) == QuoteState::open);
  CHECK(find_quote(bench.workshop, "26-001").value().id == bench.quote.id);
  CHECK(bench.refusal([&](Writing& writing) {
    return quote_accept(writing, second, day("2026-11-26"), std::nullopt);
  }) == "rule-refused, quote: 26-001b: it was taken back on 2026-11-25");
  CHECK(number_text(bench.revise(bench.quote).number) == "26-001c");
}
