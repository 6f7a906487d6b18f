// What `check` is made of. Each part adds what it finds; none stops at the first.
#pragma once

#include "db/connection.h"
#include "db/workshop.h"

#include <cstdint>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace endband::db {

class Findings {
 public:
  explicit Findings(Workshop& in) : workshop(in) {}

  // "price_version 12": a table and its row.
  void add(std::string_view table, std::string_view row, std::string found, std::string expected);
  void add(std::string_view table, std::int64_t row, std::string found, std::string expected) {
    add(table, std::to_string(row), std::move(found), std::move(expected));
  }
  // A sum of money is held to what is due: "to pay 1.00" is told of one that is not, and why it should be.
  void hold(std::string_view table, std::int64_t row, std::string_view what, Money found, Money due,
            std::string_view why);
  // Looks at one row: what cannot be read or reckoned of it is a fault there.
  void look_at(std::string_view table, std::string_view row, std::function<void()> const& look);
  // The file cannot be read as it should: said once, and each detail once.
  void add_damage(std::string const& detail);
  Connection& connection() { return workshop.connection(); }

  Workshop& workshop;
  std::vector<Fault> faults;
};

void check_file(Findings& findings);  // SQLite's own checks, and the schema as the migrations made it
void check_rows(Findings& findings);  // none lost, each in the order of its entry
void check_versions(
    Findings& findings);                // settings, steps, materials, prices: each still what its rules allow
void check_bench(Findings& findings);   // the bench, and what the steps ask of it
void check_quotes(Findings& findings);  // seals, identities, replay
void check_stock(Findings& findings);   // sums anew the shelf, and holds each movement to its rules
void check_lots_said(Findings& findings);  // each lot began with as much as was said of it
void check_plans(Findings& findings);      // cutting plans as they are planned anew
void check_selling(Findings& findings);    // outlets, carriage services, listings
void check_agreed(Findings& findings);     // what each job is made by, and for how much
void check_jobs(Findings& findings);       // what each job that ended came to, as its rows give it
bool job_sums_add_up(Findings& findings);  // else their rows are told, and no job can be looked at
void check_homes(Findings& findings);      // no cost both in the overhead and on a job

}  // namespace endband::db
