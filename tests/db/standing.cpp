#include "tests/db/standing.h"

#include "db/bench.h"
#include "db/connection.h"
#include "db/jobs.h"
#include "db/listings.h"
#include "db/outlets.h"
#include "db/steps.h"
#include "db/week.h"
#include "tests/db/bench.h"

#include <SQLiteCpp/Column.h>

#include <array>

namespace endband::db::test {
namespace {

constexpr std::array days{"2026-01-01", "2026-06-01", "2026-11-24", "2026-11-25",
                          "2026-11-26", "2027-01-01", "2028-01-01"};

std::string rows(Workshop& workshop, std::string const& sql) {
  std::string text;
  SQLite::Statement select(workshop.connection().database, sql);
  while (select.executeStep()) {
    for (int i = 0; i < select.getColumnCount(); ++i) text += select.getColumn(i).getString() + "|";
    text += "\n";
  }
  return text;
}

std::string in_force(Workshop& workshop, std::string const& table, std::string const& key,
                     std::string const& day) {
  std::string const latest = "(SELECT id FROM " + table + " WHERE " + key + " = v." + key +
                             " AND valid_from <= '" + day + "' ORDER BY valid_from DESC, id DESC LIMIT 1)";
  std::string columns;
  SQLite::Statement info(workshop.connection().database, "SELECT name FROM pragma_table_info(?)");
  info.bind(1, table);
  while (info.executeStep())
    if (std::string const name = info.getColumn(0).getString();
        name != "id" && name != "valid_from" && name != "entry")
      columns += (columns.empty() ? "" : ", ") + name;
  return rows(workshop,
              "SELECT " + columns + " FROM " + table + " v WHERE id = " + latest + " ORDER BY " + key);
}

std::string versions(Workshop& workshop) {
  std::string text;
  for (std::string const day_text : days) {
    text += "on " + day_text + "\n";
    for (Setting const& setting : settings(workshop, day(day_text)))
      text += setting.name + "=" + setting.value + "\n";
    text += in_force(workshop, "step_version", "operation", day_text);
    Bench const bench = load_bench(workshop, day(day_text));
    for (Person const& person : bench.people) {
      text += person.code + " " + week_text(person.week) + (person.rate ? money_text(*person.rate) : "");
      for (DaysOff const& off : person.off) text += " " + date_text(off.first) + "/" + date_text(off.last);
      text += "\n";
    }
    for (Place const& place : bench.places) text += place.code + " " + std::to_string(place.count) + "\n";
    for (TextOf const of : {TextOf::outlet, TextOf::carriage})
      for (TextVersion const& version : texts_in_force(workshop, of, day(day_text)))
        text += version.code + " " + version.text + "\n";
    for (Listing const& listing : list_listings(workshop, day(day_text), true))
      text += std::to_string(listing.id) + " " + listing.outlet + " " + money_text(listing.ticket) + " " +
              date_text(listing.ticket_since) + " " + listing.ended + "\n";
    text += in_force(workshop, "material_version", "material", day_text);
    text += in_force(workshop, "price_version", "material", day_text);
    text +=
        rows(workshop,
             "SELECT m.code, v.reorder_at, v.order_size, v.lead_days, v.keeps_days, v.keeps_opened_days "
             "FROM material m JOIN supply_version v ON v.id = (SELECT id FROM supply_version WHERE material "
             "= m.id "
             "AND valid_from <= '" +
                 day_text +
                 "' ORDER BY valid_from DESC, id DESC LIMIT 1) "
                 "WHERE v.reorder_at IS NOT NULL OR v.order_size IS NOT NULL OR v.lead_days IS NOT NULL OR "
                 "v.keeps_days IS NOT NULL OR v.keeps_opened_days IS NOT NULL ORDER BY m.code");
  }
  return text;
}

std::string stock(Workshop& workshop) {
  return rows(workshop,
              "SELECT lot, quantity, value FROM lot_state WHERE quantity > 0 OR value > 0 ORDER BY lot") +
         rows(workshop,
              "SELECT material, quantity, value, pooled, pooled_value FROM shelf WHERE quantity > 0 ORDER BY "
              "material") +
         rows(workshop,
              "SELECT job, material, lot, quantity FROM reserved WHERE quantity > 0 ORDER BY 1, 2, 3") +
         rows(workshop,
              "SELECT s.lot, f.fact, f.value FROM lot_state s JOIN lot_fact f ON f.id = (SELECT max(id) FROM "
              "lot_fact "
              "WHERE lot = s.lot AND fact = f.fact) WHERE s.quantity > 0 AND f.value <> '' ORDER BY 1, 2");
}

std::string jobs(Workshop& workshop) {
  std::string text;
  for (JobHeader const& job : list_jobs(workshop, true)) {
    text += job.number + " " + std::string(job_state_name(job.state)) + " " + money_text(job.price) + " " +
            money_text(job.paid) + " " + number_text(job.quote.number) + "\n";
    JobRecord const record = load_record(workshop, job);
    for (Holding const& taken : record.taken)
      if (taken.quantity() != 0 || taken.value.minor != 0)
        text += std::to_string(taken.material.value) + " " + std::to_string(taken.quantity()) + " " +
                money_text(taken.value) + "\n";
    for (MaterialId const id : record.without) text += "without " + std::to_string(id.value) + "\n";
    for (Worked const& worked : record.worked)
      if (worked.time.n != 0) text += "worked " + duration_text(worked.time) + "\n";
    for (Gate const& gate : record.gates) text += "gate " + gate.name + "\n";
  }
  text += rows(workshop,
               "SELECT job, words, sum(price) FROM job_outside GROUP BY job, words HAVING sum(price) <> 0 "
               "ORDER BY 1, 2");
  for (QuoteHeader const& quote : list_quotes(workshop, std::nullopt, 1000)) {
    QuoteState const state = quote_state(workshop, quote.id, quote.valid_until, day("2026-11-25"));
    if (state != QuoteState::withdrawn)
      text += number_text(quote.number) + " " + std::string(quote_state_name(state)) + "\n";
  }
  return text;
}

}  // namespace

std::string standing_state(Workshop& workshop) {
  return versions(workshop) + stock(workshop) + jobs(workshop);
}

}  // namespace endband::db::test
