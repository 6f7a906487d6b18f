// What a later entry builds on stays until that one is taken back.
#include "db/statement.h"
#include "db/undo_parts.h"

#include <array>
#include <map>

namespace endband::db {
namespace {

// Rows of (later entry, what it does). ?1 is the entry, LATER the later entries that stand, JOB(x) a job's
// number.
constexpr std::array builds_on_texts{
    // What came into a lot at its own cost, or a pool, was taken from or written down.
    "SELECT b.entry, 'takes from ' || l.mark || l.number FROM movement m JOIN lot l ON l.id = m.lot "
    "JOIN movement b ON b.lot = m.lot WHERE m.entry = ?1 AND (m.quantity > 0 OR m.kind = 'written-down') "
    "AND l.costed = 'own' AND (b.quantity < 0 OR b.kind = 'written-down') AND b.entry IN LATER",

    "SELECT b.entry, 'takes ' || t.code || ' at the average' FROM movement m JOIN lot l ON l.id = m.lot "
    "JOIN material t ON t.id = m.material JOIN movement b ON b.material = m.material JOIN lot o ON o.id = "
    "b.lot "
    "WHERE m.entry = ?1 AND (m.quantity > 0 OR m.kind = 'written-down') AND l.costed = 'pool' AND o.costed = "
    "'pool' "
    "AND (b.quantity < 0 OR b.kind = 'written-down') AND b.entry IN LATER",

    // What was counted or written down since was so without what would come back.
    "SELECT b.entry, 'counts ' || t.code FROM movement m JOIN lot l ON l.id = m.lot JOIN material t ON t.id "
    "= m.material "
    "JOIN movement b ON b.material = m.material AND (b.lot = m.lot OR l.mark = 'L') "
    "WHERE m.entry = ?1 AND b.kind IN ('found', 'missing', 'opening') AND b.entry IN LATER",

    "SELECT b.entry, 'writes ' || l.mark || l.number || ' down' FROM movement m JOIN lot l ON l.id = m.lot "
    "JOIN movement b ON b.material = m.material JOIN lot o ON o.id = b.lot WHERE m.entry = ?1 AND m.quantity "
    "< 0 "
    "AND b.kind = 'written-down' AND (b.lot = m.lot OR l.costed = 'pool' AND o.costed = 'pool') AND b.entry "
    "IN LATER",

    // What a job took it gave back, or kept an offcut of.
    "SELECT b.entry, 'gives back from ' || l.mark || l.number FROM movement m JOIN lot l ON l.id = m.lot "
    "JOIN movement b ON b.job = m.job JOIN lot o ON o.id = b.lot WHERE m.entry = ?1 AND m.quantity < 0 "
    "AND b.quantity > 0 AND (b.lot = m.lot OR o.parent = m.lot) AND b.entry IN LATER",

    // A lot set aside.
    "SELECT b.entry, 'sets ' || l.mark || l.number || ' aside for ' || JOB(b.job) FROM lot l "
    "JOIN reservation b ON b.lot = l.id WHERE l.entry = ?1 AND b.quantity > 0 AND b.entry IN LATER",

    // A job that ended. Payments come and go after that, but a settlement rests on those before it.
    "SELECT b.entry, 'is the end of job ' || JOB(b.job) FROM job_event b "
    "WHERE b.event IN ('finished', 'cancelled') AND b.entry IN LATER AND b.job IN ("
    "SELECT job FROM movement WHERE entry = ?1 UNION SELECT job FROM reservation WHERE entry = ?1 "
    "UNION SELECT job FROM job_event WHERE entry = ?1 UNION SELECT job FROM job_time WHERE entry = ?1 "
    "UNION SELECT job FROM job_done WHERE entry = ?1 "
    "UNION SELECT job FROM job_outside WHERE entry = ?1 UNION SELECT job FROM job_without WHERE entry = ?1 "
    "UNION SELECT job FROM lot WHERE entry = ?1 "
    "UNION SELECT job FROM job_payment WHERE entry = ?1 AND b.event = 'cancelled')",

    // What was agreed, and what was done for the job since.
    "SELECT b.entry, 'is of job ' || JOB(b.job) FROM job_agreed a JOIN ("
    "SELECT job, entry FROM movement UNION SELECT job, entry FROM reservation UNION SELECT job, entry FROM "
    "lot "
    "UNION SELECT job, entry FROM job_event UNION SELECT job, entry FROM job_time UNION SELECT job, entry "
    "FROM job_outside "
    "UNION SELECT job, entry FROM job_done UNION SELECT job, entry FROM job_payment UNION SELECT job, entry "
    "FROM job_sale UNION SELECT job, entry "
    "FROM job_without UNION SELECT job, "
    "entry FROM job_agreed UNION SELECT job, entry FROM listing WHERE job IS NOT NULL"
    ") b ON b.job = a.job WHERE a.entry = ?1 AND b.entry IN LATER",

    "SELECT b.entry, 'goes on with ' || b.gate FROM job_event a JOIN job_event b ON b.job = a.job AND b.gate "
    "= a.gate "
    "WHERE a.entry = ?1 AND a.gate <> '' AND b.entry IN LATER",

    // A quote that moved on.
    "SELECT b.entry, 'moves quote ' || JOB_OF(q.commission) || q.issue || ' on' FROM quote_event b "
    "JOIN quote q ON q.id = b.quote WHERE b.entry IN LATER AND "
    "(q.entry = ?1 OR q.id IN (SELECT quote FROM quote_event WHERE entry = ?1))",

    "SELECT b.entry, 'is a new issue of ' || JOB_OF(b.commission) FROM quote q JOIN quote b ON b.commission "
    "= q.commission "
    "WHERE q.entry = ?1 AND b.entry IN LATER",

    // A version that another of the same day took the place of.
    "SELECT b.entry, 'sets ' || b.name FROM setting_version a JOIN setting_version b ON b.name = a.name "
    "AND b.valid_from = a.valid_from WHERE a.entry = ?1 AND b.entry IN LATER",
    "SELECT b.entry, 'sets ' || b.operation FROM step_version a JOIN step_version b ON b.operation = "
    "a.operation "
    "AND b.valid_from = a.valid_from WHERE a.entry = ?1 AND b.entry IN LATER",
    "SELECT b.entry, 'changes ' || t.code FROM material_version a JOIN material t ON t.id = a.material "
    "JOIN material_version b ON b.material = a.material AND b.valid_from = a.valid_from "
    "WHERE a.entry = ?1 AND b.entry IN LATER",
    "SELECT b.entry, 'prices ' || t.code FROM price_version a JOIN material t ON t.id = a.material "
    "JOIN price_version b ON b.material = a.material AND b.valid_from = a.valid_from "
    "WHERE a.entry = ?1 AND b.entry IN LATER",
    "SELECT b.entry, 'says the supply of ' || t.code FROM supply_version a JOIN material t ON t.id = "
    "a.material "
    "JOIN supply_version b ON b.material = a.material AND b.valid_from = a.valid_from "
    "WHERE a.entry = ?1 AND b.entry IN LATER",
    "SELECT b.entry, 'says ' || b.fact || ' of ' || l.mark || l.number FROM lot_fact a JOIN lot l ON l.id = "
    "a.lot "
    "JOIN lot_fact b ON b.lot = a.lot AND b.fact = a.fact WHERE a.entry = ?1 AND l.entry <> ?1 AND b.entry "
    "IN LATER",

    "SELECT b.entry, 'says how ' || b.code || ' works' FROM person_version a JOIN person_version b ON b.code "
    "= "
    "a.code AND b.valid_from = a.valid_from WHERE a.entry = ?1 AND b.entry IN LATER",
    "SELECT b.entry, 'says the count of ' || b.code FROM place_version a JOIN place_version b ON b.code = "
    "a.code AND b.valid_from = a.valid_from WHERE a.entry = ?1 AND b.entry IN LATER",

    // An outlet that something is listed at, and listings that went on.
    "SELECT b.entry, 'changes outlet ' || b.code FROM outlet_version a JOIN outlet_version b ON b.code = "
    "a.code AND b.valid_from = a.valid_from WHERE a.entry = ?1 AND b.entry IN LATER",
    "SELECT b.entry, 'changes carriage ' || b.code FROM carriage_version a JOIN carriage_version b ON b.code "
    "= a.code AND b.valid_from = a.valid_from WHERE a.entry = ?1 AND b.entry IN LATER",
    "SELECT b.entry, 'lists ' || b.title || ' there' FROM outlet_version a JOIN listing b ON b.outlet = "
    "a.code "
    "WHERE a.entry = ?1 AND b.entry IN LATER AND NOT EXISTS (SELECT 1 FROM outlet_version o WHERE o.code = "
    "a.code AND o.id < a.id)",
    "SELECT b.entry, 'prices listing ' || a.id FROM listing a JOIN listing_price b ON b.listing = a.id WHERE "
    "a.entry = ?1 AND b.entry IN LATER",
    "SELECT b.entry, 'ends listing ' || a.id FROM listing a JOIN listing_event b ON b.listing = a.id WHERE "
    "a.entry = ?1 AND b.entry IN LATER",
    "SELECT b.entry, 'prices listing ' || b.listing || ' anew' FROM listing_price a JOIN listing_price b ON "
    "b.listing = a.listing WHERE a.entry = ?1 AND b.entry IN LATER AND b.on_date <= a.on_date",

    // Days off that were taken back since.
    "SELECT b.entry, 'takes its days back' FROM day_off a JOIN day_off b ON b.undoes = a.id WHERE a.entry = "
    "?1 "
    "AND b.entry IN LATER",

    // The way of costing holds from the first movement on.
    "SELECT b.entry, 'moved stock in the way of costing set' FROM setting_version a, movement b "
    "WHERE a.entry = ?1 AND a.name = 'stock.formula' AND b.entry IN LATER",
};

void replace_all(std::string& text, std::string_view what, std::string_view with) {
  for (std::size_t at = 0; (at = text.find(what, at)) != std::string::npos; at += with.size())
    text.replace(at, what.size(), with);
}

std::string filled_in(std::string_view text) {
  constexpr std::string_view number =
      "(SELECT printf('%02d-%03d', year % 100, count) FROM commission WHERE id = ";
  std::string sql(text);
  replace_all(sql, "LATER", later_text);
  replace_all(sql, "JOB_OF(", number);
  replace_all(sql, "JOB(b.job)", std::string(number) + "(SELECT commission FROM job WHERE id = b.job))");
  return sql + " ORDER BY 1, 2";
}

// One fault for each later entry, the newest first: it is the first to take back.
std::vector<Fault> builds_on(Connection& connection, std::int64_t entry) {
  std::map<std::int64_t, std::string, std::greater<>> later;
  for (std::string_view const text : builds_on_texts) {
    Statement select(connection, filled_in(text));
    select.bind(entry);
    while (select.step()) {
      auto const seq = select.value<std::int64_t>();
      later.try_emplace(seq, select.value<std::string>());
    }
  }
  std::vector<Fault> faults;
  for (auto const& [seq, deed] : later) faults.push_back(built_on(connection, entry, seq, deed));
  return faults;
}

// What once written stays.
std::vector<Fault> stays(Connection& connection, std::int64_t entry) {
  static constexpr std::array<std::pair<char const*, char const*>, 4> kept{{
      {"SELECT 1 FROM workshop WHERE entry = ?", "it made the workshop"},
      {"SELECT 1 FROM customer WHERE entry = ?1 AND NOT EXISTS (SELECT 1 FROM quote WHERE entry = ?1)",
       "a customer once added stays; endband customer change corrects it"},
      {"SELECT 1 FROM material WHERE entry = ?",
       "a material once added stays; endband material change corrects it"},
      {"SELECT 1 FROM customer_address a JOIN customer c ON c.id = a.customer WHERE a.entry = ?1 AND c.entry "
       "<> ?1",
       "a customer's name and address are not kept twice; endband customer change says them anew"},
  }};
  std::vector<Fault> faults;
  for (auto const& [sql, why] : kept) {
    Statement select(connection, sql);
    if (select.bind(entry).step()) faults.push_back(refused_entry(entry, why));
  }
  return faults;
}

// A movement is not dated before the last one of its lot, nor of its pool.
std::vector<Fault> moved_later(Connection& connection, std::int64_t entry, Date on) {
  Statement select(
      connection,
      "SELECT DISTINCT l.mark || l.number, CASE WHEN l.costed = 'pool' THEN (SELECT pooled_on FROM shelf "
      "WHERE material = m.material) ELSE s.moved_on END AS last FROM movement m JOIN lot l ON l.id = m.lot "
      "JOIN lot_state s ON s.lot = m.lot "
      "WHERE m.entry = ?1 AND last > ?2");
  select.bind(entry, on);
  std::vector<Fault> faults;
  while (select.step()) {
    std::string mark, last;
    select.read(mark, last);
    faults.push_back(refused_entry(
        entry, mark + " moved on " + last + "; take it back on that day or later: --on " + last));
  }
  return faults;
}

}  // namespace

Fault built_on(Connection& connection, std::int64_t entry, std::int64_t later, std::string const& deed) {
  Statement select(connection, "SELECT command FROM entry WHERE seq = ?");
  select.bind(later).step();
  return refused_entry(entry, "entry " + std::to_string(later) + " (" + select.value<std::string>() + ") " +
                                  deed + "; take that back first: endband workshop undo " +
                                  std::to_string(later));
}

std::vector<Fault> undo_refusals(Workshop& workshop, std::int64_t entry, Date on) {
  Connection& connection = workshop.connection();
  std::vector<Fault> faults = stays(connection, entry);
  for (auto const& part : {builds_on(connection, entry), moved_later(connection, entry, on)})
    faults.insert(faults.end(), part.begin(), part.end());
  return faults;
}

}  // namespace endband::db
