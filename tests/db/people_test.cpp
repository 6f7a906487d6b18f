#include "db/customers.h"
#include "db/steps.h"
#include "tests/db/bench.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;

namespace {

struct Made {
  Folder folder;
  Workshop workshop = new_workshop(folder.file("workshop.db"));
};

Customer otter() {
  return {0,
          "otter-stage",
          "Otter Stage \"Søn\" & O'Brien 🦦",
          "props@example.org",
          "1 Quay Street\nOxbury",
          "IE",
          "pays promptly",
          day("2026-02-03")};
}

Step sewing() {
  return {0,
          OperationKind::sew_sections,
          {{300}, {600}, {1200}},
          {{120}, {180}, {300}},
          {7200},
          {14400},
          "needles: never in the mouth",
          {},
          {},
          {}};
}

}  // namespace

TEST_CASE("a customer comes back field for field, and can be changed") {
  Made bench;
  write(bench.workshop, [](Writing& writing) { return add_customer(writing, otter()).value(); });
  auto const same = [&](Customer const& expected) {
    Customer const c = find_customer(bench.workshop, "otter-stage").value();
    CHECK(c.name == expected.name);
    CHECK(c.email == expected.email);
    CHECK(c.address == expected.address);
    CHECK(c.country == expected.country);
    CHECK(c.notes == expected.notes);
    CHECK(c.since == expected.since);
  };
  same(otter());
  Customer changed = otter();
  changed.name = std::string(200, 'n');
  changed.address = "";
  write(bench.workshop, [&](Writing& writing) { return change_customer(writing, changed).value(); });
  same(changed);
  CHECK(list_customers(bench.workshop).size() == 1);
}

TEST_CASE("an unknown customer is told with near ones, a taken or bad code is refused") {
  Made bench;
  write(bench.workshop, [](Writing& writing) { return add_customer(writing, otter()).value(); });
  CHECK(find_customer(bench.workshop, "oter-stage").error().front().near ==
        std::vector<std::string>{"otter-stage"});
  Writing writing(bench.workshop, info());
  CHECK(add_customer(writing, otter()).error().front().code == FaultCode::already_exists);
  Customer other = otter();
  other.code = "Otter";
  CHECK(add_customer(writing, other).error().front().code == FaultCode::bad_value);
  other.code = "badger";
  CHECK(change_customer(writing, other).error().front().code == FaultCode::unknown_code);
}

TEST_CASE("a step comes back field for field, as in force on the day, in the order of the operations") {
  Made bench;
  Step later = sewing();
  later.each.likely = Duration{200};
  later.caution = "";
  Step folding = sewing();
  folding.kind = OperationKind::fold_sheets;
  write(bench.workshop, [&](Writing& writing) {
    set_step(writing, sewing(), day("2026-01-01"));
    set_step(writing, later, day("2026-06-01"));
    set_step(writing, folding, day("2026-02-01"));
    return true;
  });
  CHECK(load_steps(bench.workshop, day("2025-12-31")).steps.empty());
  StepLibrary const library = load_steps(bench.workshop, day("2026-05-31"));
  REQUIRE(library.steps.size() == 2);
  CHECK(library.steps[0].kind == OperationKind::fold_sheets);
  Step const& step = library.steps[1];
  CHECK(step.version > 0);
  CHECK(step.kind == OperationKind::sew_sections);
  CHECK(step.set_up.low == Duration{300});
  CHECK(step.set_up.likely == Duration{600});
  CHECK(step.set_up.high == Duration{1200});
  CHECK(step.each.low == Duration{120});
  CHECK(step.each.likely == Duration{180});
  CHECK(step.each.high == Duration{300});
  CHECK(step.wait_low == Duration{7200});
  CHECK(step.wait_high == Duration{14400});
  CHECK(step.caution == sewing().caution);
  CHECK(load_steps(bench.workshop, day("2026-06-01")).steps[1].each.likely == Duration{200});
}

TEST_CASE("times that do not rise are refused by the file itself") {
  Made bench;
  Step wrong = sewing();
  wrong.each.high = Duration{100};
  Writing writing(bench.workshop, info());
  CHECK_THROWS_AS(set_step(writing, wrong, day("2026-01-01")), std::logic_error);
}
