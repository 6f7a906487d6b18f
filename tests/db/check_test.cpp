#include "db/connection.h"
#include "db/quotes.h"
#include "db/whole.h"
#include "tests/db/any_quote.h"
#include "tests/db/bench.h"
#include "tests/db/broken.h"

#include <SQLiteCpp/Column.h>
#include <doctest/doctest.h>

#include <algorithm>

using namespace endband;
using namespace endband::db;
using namespace endband::db::test;

namespace {

// A workshop with three quotes, and a way to break a copy of it behind the program's back.
struct Made {
  Folder folder;
  std::string const path = folder.file("workshop.db");

  Made() {
    Workshop workshop = new_workshop(path);
    stock_workshop(workshop);
    for (std::uint64_t seed : {11u, 13u, 15u})
      write(workshop, [&](Writing& writing) {
        return save_quote(writing, "otter-stage", day("2027-01-31"), any_quote(workshop, seed)).value();
      });
  }

  std::vector<Fault> broken_by(std::string const& sql) const { return broken_copy(path, sql); }

  std::vector<std::string> columns_of(std::string const& table) {
    SQLite::Database database(path);
    SQLite::Statement select(database, "SELECT name FROM pragma_table_info(?)");
    select.bind(1, table);
    std::vector<std::string> names;
    while (select.executeStep()) names.push_back(select.getColumn(0).getString());
    return names;
  }

  std::string type_of(std::string const& table, std::string const& column) {
    SQLite::Database database(path);
    SQLite::Statement select(database, "SELECT type FROM pragma_table_info(?) WHERE name = ?");
    select.bind(1, table);
    select.bind(2, column);
    select.executeStep();
    return select.getColumn(0).getString();
  }
};

}  // namespace

TEST_CASE("a good workshop has no fault") {
  Made bench;
  CHECK(bench.broken_by("SELECT 1").empty());
}

TEST_CASE("every field of a quote's parts, changed behind the program's back, is found and its table named") {
  Made bench;
  for (std::string const table : {"quote",
                                  "quote_terms",
                                  "quote_figure",
                                  "quote_choice",
                                  "quote_piece",
                                  "quote_warning",
                                  "quote_material",
                                  "quote_bill",
                                  "quote_use",
                                  "quote_work",
                                  "quote_outside",
                                  "quote_cost",
                                  "quote_part_share",
                                  "quote_sheet",
                                  "quote_rung",
                                  "quote_offer_line",
                                  "quote_offer",
                                  "quote_seal",
                                  "quote_way",
                                  "quote_order",
                                  "quote_volume",
                                  "quote_copies",
                                  "quote_repair",
                                  "quote_custody",
                                  "quote_outside_detail",
                                  "quote_piece_detail",
                                  "quote_plan",
                                  "quote_hand",
                                  "quote_promise",
                                  "quote_risk",
                                  "quote_overtime"}) {
    std::string const quote = table == "quote" ? "id" : "quote";
    std::string const last =
        table == "quote_use" ? "quote DESC, bill DESC" : quote + " DESC";  // no key to collide with
    for (std::string const& column : bench.columns_of(table)) {
      if (column == quote || column == "position") continue;
      CAPTURE(table);
      CAPTURE(column);
      std::string const changed = bench.type_of(table, column) == "TEXT" ? " || 'x'" : " + 1";
      CHECK(names(bench.broken_by("UPDATE " + table + " SET " + column + " = ifnull(" + column + ", '0')" +
                                  changed + " ORDER BY " + last + " LIMIT 1"),
                  table == "quote_seal" ? "quote" : table));
    }
  }
}

TEST_CASE("a row of a quote that is gone is found") {
  Made bench;
  for (std::string const table :
       {"quote_terms",  "quote_figure",     "quote_choice",  "quote_material",       "quote_use",
        "quote_cost",   "quote_part_share", "quote_sheet",   "quote_rung",           "quote_offer_line",
        "quote_offer",  "quote_seal",       "quote_way",     "quote_order",          "quote_volume",
        "quote_copies", "quote_repair",     "quote_custody", "quote_outside_detail", "quote_piece_detail",
        "quote_plan",   "quote_hand",       "quote_promise", "quote_risk",           "quote_overtime"}) {
    CAPTURE(table);
    CHECK(
        names(bench.broken_by("DELETE FROM " + table + " WHERE quote = 2 ORDER BY quote LIMIT 1"), "quote"));
  }
  CHECK(names(bench.broken_by("DELETE FROM quote WHERE id = 2"), "quote 2"));
  CHECK(names(bench.broken_by("DELETE FROM commission WHERE id = 2"), "commission"));
}

TEST_CASE("a quote whose figures were changed together with their seals still does not replay") {
  Made bench;
  auto const faults = bench.broken_by("UPDATE quote_offer SET total = total + 1 WHERE quote = 1");
  auto const at =
      std::find_if(faults.begin(), faults.end(), [](Fault const& f) { return f.found == "offer.total"; });
  REQUIRE(at != faults.end());
  CHECK(at->where.field.starts_with("quote 2"));
}

TEST_CASE("figures that nothing can be reckoned with are told of their quote") {
  Made bench;
  auto const faults = told(bench.broken_by(
      "UPDATE quote_bill SET ruin_chance_num = 1, ruin_chance_den = 1 WHERE quote = 2 AND position = 0"));
  auto const has = [&](std::string const& line) { return std::ranges::find(faults, line) != faults.end(); };
  CHECK(has("quote_bill 0 of quote 2: a chance of ruin of 1/1: less than 1"));
  CHECK(
      names(bench.broken_by("UPDATE quote_bill SET ruin_chance_num = 1, ruin_chance_den = 1 WHERE quote = 2"),
            "quote_bill of "));
  CHECK(names(bench.broken_by("UPDATE quote_bill SET ruin_chance_den = 0 WHERE quote = 2 AND position = 0"),
              "quote_bill 0 of quote 2"));
  CHECK(
      names(bench.broken_by("UPDATE quote_cost SET amount = 9223372036854775807 WHERE quote = 2"), "quote"));
}

TEST_CASE("every column that the schema holds to a date is known as one of days") {
  Made bench;
  SQLite::Database database(bench.path);
  int const dates = database
                        .execAndGet(
                            "SELECT sum(length(sql) - length(replace(sql, 'date(', ''))) / 5 FROM "
                            "sqlite_schema WHERE type = 'table'")
                        .getInt();
  Filling const empty(bench.folder.file("empty.db"), schema_version);
  int days = 0;
  for (WholeTable const& table : empty.tables())
    days += static_cast<int>(std::ranges::count_if(table.columns, &WholeColumn::day));
  CHECK(days == dates);
  CHECK(days > 30);
}

TEST_CASE("a version that was changed, lost or put in is found and named") {
  Made bench;
  struct Case {
    char const* sql;
    char const* named;
  };
  for (Case const& each : {
           Case{"UPDATE price_version SET price = price + 1 WHERE id = 2", "price_version 2"},
           Case{"UPDATE price_version SET dimension = 'mass' WHERE id = 2", "price_version 2"},
           Case{"UPDATE price_version SET rate_num = 2 WHERE id = 2", "price_version 2"},
           Case{"UPDATE material_version SET kind = 'leathr' WHERE id = 3", "material_version 3"},
           Case{"UPDATE material_version SET caliper_nm = NULL WHERE id = 3", "material_version 3"},
           Case{"UPDATE material_version SET caliper_nm = caliper_nm + 1", "quote_material"},
           Case{"UPDATE step_version SET operation = 'sow-sections' WHERE id = 1", "step_version 1"},
           Case{"INSERT INTO setting_version VALUES (2, 'goal.margin', '135 %', '2026-01-01', 1)",
                "setting_version 2"},
           Case{"INSERT INTO setting_version VALUES (2, 'goal.margin', '0.35', '2026-01-01', 1)",
                "setting_version 2"},
           Case{"INSERT INTO setting_version VALUES (2, 'goal.margn', '35 %', '2026-01-01', 1)",
                "setting_version 2"},
           Case{"INSERT INTO setting_version VALUES (2, 'default.boards.square', '4', '2026-01-01', 1)",
                "setting_version 2"},
           Case{"UPDATE material SET entry = 4 WHERE id = 1", "material 2"},
           Case{"DELETE FROM price_version WHERE id = 5", "price_version 5"},
           Case{"DELETE FROM step_version WHERE id = 1", "step_version 1"},
           Case{"DELETE FROM entry WHERE seq = 3", "entry 3"},
           Case{"DELETE FROM customer_address", "customer 1"},
           Case{"UPDATE commission SET count = 7 WHERE id = 3", "commission of"},
           Case{"UPDATE quote SET issue = 'c' WHERE id = 3", "commission 3"},
           Case{"UPDATE entry SET on_date = '2026-02-30' WHERE seq = 2", "entry 2"},
           Case{"UPDATE customer SET since = '2026-02-29'", "customer 1"},
           Case{"UPDATE material_version SET valid_from = '2026-04-31' WHERE id = 3", "material_version 3"},
           Case{"UPDATE quote SET valid_until = '2027-02-30' WHERE id = 2", "quote 2"},
           Case{"UPDATE quote_bill SET material = material % 5 + 1 WHERE quote = 1", "quote_bill"},
       }) {
    CAPTURE(std::string(each.sql));
    CHECK(names(bench.broken_by(each.sql), each.named));
  }
}

TEST_CASE("a schema that is not the program's is found and named") {
  Made bench;
  CHECK(names(bench.broken_by("DROP INDEX price_in_force"), "schema index price_in_force"));
  CHECK(names(bench.broken_by("CREATE TABLE notes (x)"), "schema table notes"));
  {
    SQLite::Database database(bench.path, SQLite::OPEN_READWRITE);
    database.exec(
        "DROP TRIGGER quote_stays; DROP TRIGGER entry_kept;"
        "CREATE TRIGGER entry_kept BEFORE DELETE ON entry BEGIN SELECT 1; END;");
  }
  Workshop workshop = Workshop::open(bench.path).value();
  auto const faults = check(workshop);
  CHECK(names(faults, "schema trigger quote_stays"));
  CHECK(names(faults, "schema trigger entry_kept"));
  CHECK(faults.size() == 2);
}

TEST_CASE("a cost has one home: what an overhead covers is charged on no job") {
  Made bench;
  Workshop workshop = Workshop::open(bench.path).value();
  auto const save = [&] {
    FrozenQuote quote = any_quote(workshop, 11);
    quote.on = day("2026-11-25");
    write(workshop,
          [&](Writing& writing) { return save_quote(writing, "", day("2027-01-31"), quote).value(); });
  };
  set_all(workshop, {{"covers.paper", "paper"}});
  save();
  CHECK(check(workshop).empty());  // nothing is paid by an overhead that is not there
  set_all(workshop, {{"overhead.paper", "120"}});
  CHECK(check(workshop).empty());  // the quotes before it were right when they were made
  save();
  auto const faults = check(workshop);
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].where.field == "quote 26-003a");
  CHECK(faults[0].found == "paper is charged on the job");
}

TEST_CASE("a step that an overhead covers takes no time") {
  Made bench;
  Workshop workshop = Workshop::open(bench.path).value();
  set_all(workshop, {{"overhead.sewing", "600"}, {"covers.sewing", "sew-sections"}}, "2027-01-01");
  CHECK(names(check(workshop), "step_version 1"));
  write(workshop, [](Writing& writing) {
    set_step(writing, {0, OperationKind::sew_sections, {}, {}, {0}, {0}, "", {}, {}, {}}, day("2027-01-01"));
    return true;
  });
  CHECK(check(workshop).empty());
}
