#include "db/settings.h"

#include "engine/book/spec.h"
#include "tests/db/bench.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <set>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;

namespace {

struct Made {
  Folder folder;
  Workshop workshop = new_workshop(folder.file("workshop.db"));
};

std::string stored(Workshop& workshop, std::string_view name, std::string_view value) {
  auto const setting = check_setting(workshop, name, value);
  return setting ? setting->value : "refused: " + std::string(fault_row(setting.error().front().code).name);
}

void set_needed(Workshop& workshop) { set_all(workshop, {{"year.pay", "24000"}, {"year.hours", "1100 h"}}); }

}  // namespace

TEST_CASE("every setting's example and fallback are right") {
  Made bench;
  for (SettingRow const& row : setting_table()) {
    std::string name(row.name);
    if (name == "default.*")
      name = "default.sewing.thread";
    else if (name == "tax-class.*")
      name = "tax-class.box";
    else if (name == "word.*")
      name = "word.total";
    else if (name.starts_with("exchange"))
      name.replace(name.size() - 1, 1, "usd");
    else if (name.ends_with('*'))
      name.back() = 'x';
    CAPTURE(name);
    CHECK(setting_row(name) == &row);
    CHECK(check_setting(bench.workshop, name, row.example));
    CHECK(check_setting(bench.workshop, name, row.fallback));
    CHECK_FALSE(row.help.empty());
  }
}

TEST_CASE("a value is stored in one form") {
  Made bench;
  Workshop& workshop = bench.workshop;
  CHECK(stored(workshop, "year.pay", "24,000.5") == "24000.50");
  CHECK(stored(workshop, "goal.margin", "0.35") == "35 %");
  CHECK(stored(workshop, "goal.margin", "7/20") == "35 %");
  CHECK(stored(workshop, "tax.rate", "7,5 %") == "7.5 %");
  CHECK(stored(workshop, "contingency", "1/3") == "1/3");
  CHECK(stored(workshop, "year.hours", "1100 h") == "1100 h");
  CHECK(stored(workshop, "enquiries.an-order", "2,5") == "2.5");
  CHECK(stored(workshop, "quote.valid-days", " 030 ") == "30");
  CHECK(stored(workshop, "maker.name", "O'Brien & \"Søn\" 🦦 <script>") ==
        "O'Brien & \"Søn\" 🦦 <script>");
  CHECK(stored(workshop, "goal.margin", "") == "");
}

TEST_CASE("a value of the wrong form or out of range is refused") {
  Made bench;
  Workshop& workshop = bench.workshop;
  CHECK(stored(workshop, "word.totl", "Sum") == "refused: unknown-code");
  CHECK(stored(workshop, "paper.numbers", "1'234.50") == "refused: bad-value");
  CHECK(stored(workshop, "year.pay", "much") == "refused: bad-value");
  CHECK(stored(workshop, "year.pay", "-1") == "refused: out-of-range");
  CHECK(stored(workshop, "goal.margin", "100 %") == "refused: out-of-range");
  CHECK(stored(workshop, "year.hours", "0 h") == "refused: out-of-range");
  CHECK(stored(workshop, "year.hours", "1100") == "refused: missing-unit");
  CHECK(stored(workshop, "quote.valid-days", "2.5") == "refused: bad-value");
  CHECK(stored(workshop, "tax.mode", "inclusive") == "refused: bad-value");
  CHECK(stored(workshop, "covers.sundries", "abrasiv") == "refused: unknown-code");
  CHECK(stored(workshop, "default.sewing.tread", "linen-18-3") == "refused: unknown-key");
  CHECK(stored(workshop, "default.sewing.tread", "") == "refused: unknown-key");
  CHECK(stored(workshop, "default.lines[].width", "1 mm") == "refused: unknown-key");
  CHECK(stored(workshop, "default.boards.square", "4") == "refused: missing-unit");
  CHECK(stored(workshop, "goal.margn", "35 %") == "refused: unknown-code");
  CHECK(check_setting(workshop, "goal.margn", "35 %").error().front().near.front() == "goal.margin");
  CHECK(check_setting(workshop, "tax.mode", "include").error().front().near.front() == "included");
  CHECK(check_setting(workshop, "covers.x", "abrasiv").error().front().near.front() == "abrasive");
}

TEST_CASE("in force is the latest day, then the latest entry") {
  Made bench;
  Workshop& workshop = bench.workshop;
  set_all(workshop, {{"least.charge", "60"}}, "2026-03-01");
  set_all(workshop, {{"least.charge", "50"}}, "2026-01-01");
  set_all(workshop, {{"least.charge", "55"}}, "2026-01-01");
  set_needed(workshop);
  CHECK(load_shop(workshop, day("2025-12-31")).error().size() == 2);  // nothing was set yet
  CHECK(load_shop(workshop, day("2026-02-28"))->shop.least_charge == eur(5500));
  CHECK(load_shop(workshop, day("2026-03-01"))->shop.least_charge == eur(6000));
  set_all(workshop, {{"least.charge", ""}}, "2026-04-01");
  CHECK(load_shop(workshop, day("2026-04-01"))->shop.least_charge == eur(0));
  for (Setting const& setting : settings(workshop, day("2026-04-01"))) CHECK(setting.name != "least.charge");
}

TEST_CASE("all missing settings are told at once, each with what sets it") {
  Made bench;
  auto const shop = load_shop(bench.workshop, day("2026-11-25"));
  REQUIRE_FALSE(shop.has_value());
  std::set<std::string> commands;
  for (Fault const& fault : shop.error()) {
    CHECK(fault.code == FaultCode::missing_setting);
    commands.insert(fault.expected);
  }
  CHECK(commands ==
        std::set<std::string>{"workshop set year.pay=24000", "workshop set year.hours=\"1100 h\""});
  set_all(bench.workshop, {{"tax.mode", "added"}});
  CHECK(load_shop(bench.workshop, day("2026-11-25")).error().size() == 3);  // a rate is now needed too
}

TEST_CASE("what copies learn, overtime and the wanted confidence come from the settings, or are usual") {
  Made bench;
  set_needed(bench.workshop);
  Shop const usual = load_shop(bench.workshop, day("2026-11-25")).value();
  CHECK(usual.work.learning.model == LearningModel::crawford);
  CHECK(usual.work.learning.rate == Ratio(95, 100));
  CHECK(usual.work.learning.plateau == 20);
  CHECK(usual.overtime_share == Ratio(1, 2));
  CHECK(usual.confidence == Ratio(4, 5));
  set_all(bench.workshop, {{"learning.model", "cumulative-average"},
                           {"learning.rate", "90 %"},
                           {"learning.plateau", "0"},
                           {"overtime.share", "25 %"},
                           {"promise.confidence", "95 %"}});
  Shop const said = load_shop(bench.workshop, day("2026-11-25")).value();
  CHECK(said.work.learning.model == LearningModel::wright);
  CHECK(said.work.learning.rate == Ratio(9, 10));
  CHECK(said.work.learning.plateau == 0);
  CHECK(is_valid(said.work.learning));
  CHECK(said.overtime_share == Ratio(1, 4));
  CHECK(said.confidence == Ratio(19, 20));
  CHECK(stored(bench.workshop, "learning.rate", "40 %") == "refused: out-of-range");
  CHECK(stored(bench.workshop, "learning.model", "average") == "refused: bad-value");
}

TEST_CASE("settings become the rules of a price") {
  Made bench;
  set_needed(bench.workshop);
  set_all(bench.workshop, {{"year.charges", "4200"},
                           {"overhead.rent", "3600"},
                           {"overhead.light", "480.50"},
                           {"tax.mode", "included"},
                           {"tax.rate", "19 %"},
                           {"tax.name", "VAT"},
                           {"tax.recovered", "100 %"},
                           {"price.step", "10"},
                           {"price.below", "1"},
                           {"deposit.share", "50 %"},
                           {"deposit.step", "5"},
                           {"goal.margin", "35 %"},
                           {"contingency", "5 %"},
                           {"least.hourly", "15"},
                           {"enquiries.an-order", "3"},
                           {"quote.valid-days", "21"},
                           {"maker.email", "bench@example.org"}});
  Shop const shop = load_shop(bench.workshop, day("2026-11-25")).value();
  CHECK(shop.shop.currency == euro());
  CHECK(shop.shop.basis.pay_wanted == eur(2'400'000));
  CHECK(shop.shop.basis.charges_on_pay == eur(420'000));
  CHECK(shop.shop.basis.overhead == eur(408'050));
  CHECK(shop.shop.basis.hours_charged == Duration{1100 * 3600});
  CHECK(shop.shop.contingency == Ratio(1, 20));
  CHECK(shop.shop.least_hourly == eur(1500));
  CHECK(shop.selling.tax.mode == TaxMode::included);
  CHECK(shop.selling.tax.rate == Ratio(19, 100));
  CHECK(shop.selling.tax.name == "VAT");
  CHECK(shop.selling.points.step == 1000);
  CHECK(shop.selling.points.below == 100);
  CHECK(shop.selling.deposit.share == Ratio(1, 2));
  CHECK(shop.selling.deposit.step == 500);
  CHECK(shop.buying.tax_recovered == Ratio(1));
  CHECK(shop.work.enquiries_an_order == Ratio(3));
  CHECK(std::get<MarginGoal>(shop.goal.value()).margin == Ratio(35, 100));
  CHECK(shop.valid_days == 21);
  CHECK(shop.maker_name == "Alder Lane Bindery");
  CHECK(shop.maker_email == "bench@example.org");
}

TEST_CASE("prices less than their step contradict") {
  Made bench;
  set_needed(bench.workshop);
  set_all(bench.workshop, {{"price.step", "1"}, {"price.below", "1"}});
  CHECK(load_shop(bench.workshop, day("2026-11-25")).error().front().code == FaultCode::contradiction);
}

TEST_CASE("workshop defaults are a layer of a description, each typed by its key") {
  Made bench;
  set_needed(bench.workshop);
  set_all(bench.workshop, {{"default.sewing.thread", "linen-18-3"},
                           {"default.boards.square", "4 mm"},
                           {"default.endbands.silk", "silk-red, silk-gold"},
                           {"default.sewing.supports", "5"},
                           {"default.spine.round", "120 deg"}});
  BookText const defaults = load_shop(bench.workshop, day("2026-11-25"))->defaults;
  REQUIRE(defaults.entries.size() == 5);
  CHECK(std::get<std::string>(defaults.find("sewing.thread")->value) == "linen-18-3");
  CHECK(std::get<std::int64_t>(defaults.find("boards.square")->value) == 4000);
  CHECK(std::get<std::int64_t>(defaults.find("sewing.supports")->value) == 5);
  CHECK(std::get<Ratio>(defaults.find("spine.round")->value) == Ratio(120));
  CHECK(std::get<std::vector<std::string>>(defaults.find("endbands.silk")->value) ==
        std::vector<std::string>{"silk-red", "silk-gold"});
  CHECK(defaults.find("sewing.thread")->where.field == "default.sewing.thread");
}
