#include "db/repricing.h"

#include "db/jobs.h"
#include "tests/db/any_quote.h"
#include "tests/db/bench.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <algorithm>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;

namespace {

// Prices and times are others than in any quote.
void change_all(Workshop& workshop) {
  set_all(
      workshop,
      {{"year.pay", "24000"}, {"year.hours", "1000 h"}, {"overhead.rent", "6000"}, {"contingency", "5 %"}});
  Writing writing(workshop, info());
  for (std::string const code : {"laid-120", "end-grey", "wove-90"})
    (void)add_price(writing, code, pack_of_sheets(20, 9'000, "2026-06-01")).value();
  set_step(
      writing,
      {0, OperationKind::sew_sections, {{90}, {120}, {300}}, {{60}, {150}, {300}}, {0}, {0}, "", {}, {}, {}},
      day("2026-06-01"));
  writing.commit();
}

std::int64_t save(Workshop& workshop, FrozenQuote const& quote) {
  return write(workshop, [&](Writing& writing) {
    return save_quote(writing, "otter-stage", day("2030-01-01"), quote).value().id;
  });
}

std::vector<PastQuote> all(Workshop& workshop, QuotesWanted const& wanted, std::size_t batch = 7) {
  Reading const reading(workshop);
  QuoteStream stream(workshop, wanted);
  std::vector<PastQuote> quotes;
  for (auto some = stream.next(batch); !some.empty(); some = stream.next(batch)) {
    CHECK(some.size() <= batch);
    std::ranges::move(some, std::back_inserter(quotes));
  }
  CHECK(stream.next(batch).empty());
  CHECK(std::ssize(quotes) == count_quotes(workshop, wanted));
  return quotes;
}

std::vector<std::int64_t> ids(std::vector<PastQuote> const& quotes) {
  std::vector<std::int64_t> result;
  for (PastQuote const& quote : quotes) result.push_back(quote.id);
  return result;
}

void same(Repriced const& a, Repriced const& b) {
  RC_ASSERT(a.cost_then == b.cost_then);
  RC_ASSERT(a.cost_now == b.cost_now);
  RC_ASSERT(a.price == b.price);
  RC_ASSERT(a.left_then == b.left_then);
  RC_ASSERT(a.left_now == b.left_now);
  RC_ASSERT(a.below_goal == b.below_goal);
  RC_ASSERT(a.ticket == b.ticket);
  RC_ASSERT(a.ticket_then == b.ticket_then);
  RC_ASSERT(a.not_priced == b.not_priced);
  RC_ASSERT(a.alone == b.alone);
  RC_ASSERT(a.largest.has_value() == b.largest.has_value());
  if (!a.largest) return;
  RC_ASSERT(a.largest->kind == b.largest->kind);
  RC_ASSERT(a.largest->material == b.largest->material);
  RC_ASSERT(a.largest->operation == b.largest->operation);
  RC_ASSERT(a.largest->dearer == b.largest->dearer);
}

// No sum may be too large for money: then both ways throw.
template <class Made>
std::optional<Repriced> unless_too_large(Made&& made) {
  try {
    return made();
  } catch (Overflow const&) {
    return std::nullopt;
  }
}

}  // namespace

TEST_CASE("a quote that is streamed is repriced as the whole quote is") {
  Folder folder;
  Workshop workshop = new_workshop(folder.file("workshop.db"));
  stock_workshop(workshop);
  change_all(workshop);
  Today const today = load_today(workshop, day("2026-11-25")).value();
  int changed = 0, under = 0, quotes = 0;
  CHECK(rc::check("streamed", [&] {
    std::uint64_t const seed = *rc::gen::arbitrary<std::uint64_t>();
    std::int64_t const id = save(workshop, any_quote(workshop, seed));
    std::vector<PastQuote> const streamed = all(workshop, {});
    RC_ASSERT(std::ssize(streamed) == ++quotes);
    RC_ASSERT(streamed.back().id == id);
    // Rows follow their own quote, whatever those before it have: looked at for the last two.
    for (std::size_t i = streamed.size() - std::min<std::size_t>(2, streamed.size()); i < streamed.size();
         ++i) {
      FrozenQuote const whole = load_quote(workshop, streamed[i].id);
      RC_ASSERT(streamed[i].title == whole.title);
      RC_ASSERT(streamed[i].on == whole.on);
      RC_ASSERT(streamed[i].binding == whole.binding);
      RC_ASSERT(number_text(streamed[i].number) == number_text(load_header(workshop, streamed[i].id).number));
      auto const a = unless_too_large([&] { return repriced(streamed[i].quote, today); });
      auto const b = unless_too_large([&] { return repriced(whole, today); });
      RC_ASSERT(a.has_value() == b.has_value());
      if (!a) continue;
      same(*a, *b);
      changed += a->cost_now != a->cost_then ? 1 : 0;
      under += a->largest ? 1 : 0;
    }
  }));
  CHECK(changed > 50);
  CHECK(under > 5);
}

TEST_CASE("of each commission the newest issue, or every one, of some day on, only what was accepted") {
  Folder folder;
  Workshop workshop = new_workshop(folder.file("workshop.db"));
  stock_workshop(workshop);
  auto const of = [&](std::uint64_t seed, std::string_view on) {
    FrozenQuote quote = any_quote(workshop, seed);
    quote.on = day(on);
    return quote;
  };
  CHECK(all(workshop, {}).empty());
  std::int64_t const first = save(workshop, of(1, "2026-02-01"));
  std::int64_t const second = save(workshop, of(3, "2026-03-01"));
  std::int64_t const anew = write(workshop, [&](Writing& writing) {
    return save_issue(writing, load_header(workshop, first), day("2030-01-01"), of(5, "2026-04-01"))->id;
  });
  std::int64_t const third = save(workshop, of(2, "2026-05-01"));
  CHECK(ids(all(workshop, {})) == std::vector{second, anew, third});
  CHECK(ids(all(workshop, {.every_issue = true})) == std::vector{first, second, anew, third});
  CHECK(ids(all(workshop, {.since = day("2026-03-02")})) == std::vector{anew, third});
  CHECK(ids(all(workshop, {.since = day("2026-03-01"), .every_issue = true}, 1)) ==
        std::vector{second, anew, third});
  CHECK(all(workshop, {.since = day("2027-01-01")}).empty());
  CHECK(all(workshop, {.accepted = true}).empty());
  write(workshop, [&](Writing& writing) {
    return quote_accept(writing, load_header(workshop, second), day("2026-06-01"), {}).value().job;
  });
  CHECK(ids(all(workshop, {.accepted = true})) == std::vector{second});
  CHECK(all(workshop, {.since = day("2026-03-02"), .accepted = true}).empty());
}

TEST_CASE("two streams read side by side") {
  Folder folder;
  Workshop workshop = new_workshop(folder.file("workshop.db"));
  stock_workshop(workshop);
  for (std::uint64_t seed = 0; seed < 4; ++seed) save(workshop, any_quote(workshop, seed));
  Reading const reading(workshop);
  QuoteStream a(workshop, {}), b(workshop, {});
  CHECK(a.next(3).size() == 3);
  CHECK(b.next(1).size() == 1);
  CHECK(a.next(3).size() == 1);
  CHECK(b.next(9).size() == 3);
}

TEST_CASE("today is the prices, steps, rates and rules of its day") {
  Folder folder;
  Workshop workshop = new_workshop(folder.file("workshop.db"));
  stock_workshop(workshop);
  CHECK(load_today(workshop, day("2026-11-25")).error().front().code == FaultCode::missing_setting);
  change_all(workshop);
  Today const then = load_today(workshop, day("2026-05-01")).value();
  Today const now = load_today(workshop, day("2026-11-25")).value();
  int others = 0;
  for (std::uint64_t seed = 0; seed < 8; ++seed) {
    FrozenQuote const quote = any_quote(workshop, seed);
    others += repriced(quote, then).cost_now == repriced(quote, now).cost_now ? 0 : 1;
  }
  CHECK(others >= 4);
}
