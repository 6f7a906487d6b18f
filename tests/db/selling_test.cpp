#include "db/check.h"
#include "db/connection.h"
#include "db/listings.h"
#include "db/outlets.h"
#include "db/settings.h"
#include "engine/pricing/terms_text.h"
#include "tests/db/undo_bench.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;

namespace {

constexpr std::string_view fair = "endband = 1\nname = \"A fair\"\nkind = \"own\"\n";
constexpr std::string_view abroad = "endband = 1\nname = \"Far\"\nkind = \"own\"\ncurrency = \"USD\"\n";

struct Made {
  Folder folder;
  Workshop workshop = new_workshop(folder.file("workshop.db"));

  template <class Change>
  std::int64_t entry(Change&& change) {
    Writing writing(workshop, info());
    change(writing);
    std::int64_t const seq = writing.entry();
    writing.commit();
    return seq;
  }
  std::int64_t said(std::string_view code, std::string_view text, std::string_view from) {
    return entry([&](Writing& writing) { set_text(writing, TextOf::outlet, code, text, day(from)); });
  }
  void set_value(std::string_view name, std::string_view value, std::string_view from) {
    entry([&](Writing& writing) {
      Setting setting = read_setting(workshop, name, value).value();
      setting.valid_from = day(from);
      set(writing, setting);
    });
  }
  Read<std::vector<Undone>> take_back(std::int64_t entry) { return test::take_back(workshop, entry); }
  Listing listing(std::int64_t number, std::string_view on) {
    return find_listing(workshop, number, day(on)).value();
  }
  std::int64_t posted(std::int64_t cents, std::string_view on) {
    NewListing const book{"fair",
                          std::nullopt,
                          "A book",
                          {eur(100'00), eur(60'00), eur(0), eur(5'00), 1, Ratio(3600), eur(0)},
                          eur(cents)};
    std::int64_t id = 0;
    entry([&](Writing& writing) { id = post_listing(writing, book, day(on)); });
    return id;
  }
  void priced(std::int64_t number, std::int64_t cents, std::string_view on) {
    entry([&](Writing& writing) {
      (void)set_ticket(writing, listing(number, on), eur(cents), day(on), "").value();
    });
  }
  bool sound() {
    Findings findings(workshop);
    check_selling(findings);
    return findings.faults.empty();
  }
};

}  // namespace

TEST_CASE("an outlet is what was said of it last, from its day on") {
  Made made;
  made.said("fair", fair, "2026-01-01");
  made.said("fair", "endband = 1\nname = \"Another\"\nkind = \"own\"\n", "2026-06-01");
  CHECK(load_outlet(made.workshop, "fair", day("2026-05-31")).value().outlet.name == "A fair");
  CHECK(load_outlet(made.workshop, "fair", day("2026-06-01")).value().outlet.name == "Another");
  auto const before = load_outlet(made.workshop, "fair", day("2025-12-31"));
  REQUIRE_FALSE(before);
  CHECK(before.error().front().code == FaultCode::unknown_code);
}

TEST_CASE("an outlet that is gone is not there, and a near code is named") {
  Made made;
  made.said("fair", fair, "2026-01-01");
  made.said("fair", "", "2026-06-01");
  CHECK(outlet_codes(made.workshop, day("2026-05-31")) == std::vector<std::string>{"fair"});
  CHECK(outlet_codes(made.workshop, day("2026-06-01")).empty());
  auto const wrong = load_outlet(made.workshop, "fare", day("2026-05-31"));
  REQUIRE_FALSE(wrong);
  CHECK(wrong.error().front().near == std::vector<std::string>{"fair"});
}

TEST_CASE("tickets in other money need the rate of a day that has come") {
  Made made;
  made.said("far", abroad, "2026-01-01");
  auto const none = load_outlet(made.workshop, "far", day("2026-03-01"));
  REQUIRE_FALSE(none);
  CHECK(none.error().front().code == FaultCode::missing_setting);
  CHECK(none.error().front().expected.find("rates exchange USD") != std::string::npos);
  made.set_value("exchange.usd", "0.92", "2026-03-02");
  made.set_value("exchange-spread.usd", "1.5 %", "2026-03-02");
  CHECK_FALSE(load_outlet(made.workshop, "far", day("2026-03-01")));
  OutletInForce const far = load_outlet(made.workshop, "far", day("2026-04-01")).value();
  CHECK(far.outlet.exchange.rate == Ratio(92, 100));
  CHECK(far.outlet.exchange.spread == Ratio(15, 1000));
  CHECK(far.rate_since == day("2026-03-02"));
}

TEST_CASE("a tax class is of a component that there is, and needs its rate") {
  Made made;
  CHECK_FALSE(read_setting(made.workshop, "tax-class.ribbon", "reduced"));
  CHECK_FALSE(read_setting(made.workshop, "exchange.xyz", "2"));
  for (auto const& [name, value] : {std::pair{"year.pay", "24000"},
                                    {"year.hours", "1100 h"},
                                    {"tax.mode", "included"},
                                    {"tax.rate", "19 %"},
                                    {"tax-class.text-block", "reduced"}})
    made.set_value(name, value, "2026-01-01");
  auto const lacks = load_shop(made.workshop, day("2026-01-01"));
  REQUIRE_FALSE(lacks);
  CHECK(lacks.error().front().expected.find("rates tax reduced") != std::string::npos);
  made.set_value("tax-rate.reduced", "7 %", "2026-01-01");
  TaxRules const tax = load_shop(made.workshop, day("2026-01-01")).value().selling.tax;
  CHECK(tax.rate_of(Component::text_block) == Ratio(7, 100));
  CHECK(tax.rate_of(Component::box) == Ratio(19, 100));
  CHECK(tax.rate_of(std::nullopt) == Ratio(19, 100));
}

TEST_CASE("a listing has the ticket of its day, and the lowest of the days before") {
  Made made;
  made.said("fair", fair, "2026-01-01");
  std::int64_t const id = made.posted(480'00, "2026-03-01");
  made.priced(id, 420'00, "2026-04-01");
  made.priced(id, 460'00, "2026-04-10");
  CHECK(made.listing(id, "2026-03-31").ticket == eur(480'00));
  CHECK(made.listing(id, "2026-04-01").ticket == eur(420'00));
  CHECK(made.listing(id, "2026-04-15").ticket == eur(460'00));
  Listing const now = made.listing(id, "2026-06-01");
  auto const lowest = [&](std::string_view from, std::string_view until) {
    return lowest_ticket(made.workshop, now, day(from), day(until));
  };
  CHECK(lowest("2026-03-11", "2026-04-10") == eur(420'00));  // the sale itself counts from its first day
  CHECK(lowest("2026-03-02", "2026-04-01") == eur(480'00));  // the day of the change is not before it
  CHECK(lowest("2026-04-10", "2026-05-10") == eur(460'00));  // the sale was over by then
  CHECK_FALSE(lowest("2026-01-30", "2026-03-01").has_value());
  CHECK(made.sound());
}

TEST_CASE("a listing ends once, not before it began, and then has no other ticket") {
  Made made;
  made.said("fair", fair, "2026-01-01");
  std::int64_t const id = made.posted(480'00, "2026-03-01");
  auto const end = [&](std::string_view on) -> Read<std::int64_t> {
    Writing writing(made.workshop, info());
    auto done = end_listing(writing, made.listing(id, "2026-09-01"), "sold", day(on), "");
    if (done) writing.commit();
    return done;
  };
  CHECK_FALSE(end("2026-02-28"));
  CHECK(end("2026-05-01"));
  CHECK_FALSE(end("2026-05-02"));
  CHECK(list_listings(made.workshop, day("2026-05-01"), false).empty());
  CHECK(list_listings(made.workshop, day("2026-04-30"), false).size() == 1);
  CHECK(list_listings(made.workshop, day("2026-05-01"), true).front().ended == "sold");
  Writing writing(made.workshop, info());
  CHECK_FALSE(set_ticket(writing, made.listing(id, "2026-09-01"), eur(1), day("2026-09-01"), ""));
}

TEST_CASE("what was said of outlets and listings is taken back, the last first") {
  Made made;
  std::int64_t const added = made.said("fair", fair, "2026-01-01");
  std::int64_t id = 0;
  std::int64_t const posted = made.entry([&](Writing& writing) {
    id = post_listing(
        writing,
        {"fair", std::nullopt, "A book", {eur(1), eur(0), eur(0), eur(0), 1, Ratio(0), eur(0)}, eur(900)},
        day("2026-03-01"));
  });
  std::int64_t const changed = made.entry([&](Writing& writing) {
    (void)set_ticket(writing, made.listing(id, "2026-04-01"), eur(800), day("2026-04-01"), "").value();
  });
  auto const refused = made.take_back(posted);
  REQUIRE_FALSE(refused);
  CHECK(refused.error().front().expected.find("prices listing") != std::string::npos);
  CHECK_FALSE(made.take_back(added));  // something is listed there
  REQUIRE(made.take_back(changed));
  CHECK(made.listing(id, "2026-06-01").ticket == eur(900));
  REQUIRE(made.take_back(posted));
  CHECK(list_listings(made.workshop, day("2026-06-01"), true).empty());
  REQUIRE(made.take_back(added));
  CHECK(outlet_codes(made.workshop, day("2026-06-01")).empty());
  CHECK(made.sound());
}

TEST_CASE("a text that was changed behind our back is found") {
  Made made;
  made.said("fair", fair, "2026-01-01");
  CHECK(made.sound());
  made.entry([&](Writing& writing) {
    set_text(writing, TextOf::outlet, "worse", "endband = 1\nname = \"x\"\nkind = \"bazaar\"\n",
             day("2026-01-01"));
  });
  CHECK_FALSE(made.sound());
  CHECK_THROWS_AS((void)load_outlet(made.workshop, "worse", day("2026-01-01")), StoreError);
}
