// Counter-rows: each names the row that it takes back, so that the two together say nothing.
#include "db/statement.h"
#include "db/undo_parts.h"
#include "engine/measure/measure.h"

#include <algorithm>
#include <array>
#include <functional>
#include <string>

namespace endband::db {
namespace {

struct Countered {
  std::string_view table;
  std::vector<std::string_view> turned;  // columns whose sign is turned
  std::vector<std::string_view> left_out;
};
// Job rows before what they rest on; movements before reservations, which a CHECK compares with nothing.
std::array<Countered, 15> const& countered() {
  static std::array<Countered, 15> const all{{
      {"job_result",
       {"materials", "labour", "overhead", "outside", "total", "seconds", "kept", "to_pay"},
       {}},
      {"job_event", {}, {}},
      {"job_time", {"seconds"}, {"began", "ended"}},
      {"job_done", {}, {}},
      {"job_outside", {"price"}, {}},
      {"job_payment", {"amount"}, {}},
      {"job_sale", {"amount"}, {}},
      {"job_without", {}, {}},
      {"movement", {"quantity", "value"}, {}},
      {"reservation", {"quantity"}, {}},
      {"job_agreed", {}, {}},
      {"quote_event", {}, {}},
      {"day_off", {}, {}},
      {"listing_event", {}, {}},
      {"listing_price", {}, {}},
  }};
  return all;
}

bool has(std::vector<std::string_view> const& columns, std::string_view column) {
  return std::find(columns.begin(), columns.end(), column) != columns.end();
}

// ?1 the entry, ?2 that of the undoing, ?3 its day. The last row written is the first taken back.
std::string counter_text(Connection& connection, Countered const& what) {
  std::string const table(what.table);
  std::string columns, values;
  for (std::string const& column : columns_of_table(connection, table)) {
    if (column == "id" || has(what.left_out, column)) continue;
    columns += (columns.empty() ? "" : ", ") + column;
    std::string const value = column == "undoes"                            ? "id"
                              : column == "entry"                           ? "?2"
                              : column == "on_date"                         ? "?3"
                              : table + "." + column == "quote_event.event" ? "'withdrawn'"
                              : has(what.turned, column)                    ? "-" + column
                                                                            : column;
    values += (values.empty() ? "" : ", ") + value;
  }
  return "INSERT INTO " + table + " (" + columns + ") SELECT " + values + " FROM " + table +
         " WHERE entry = ?1 AND ?3 IS NOT NULL ORDER BY id DESC";
}

// --- telling it. Every text has the entry as ?1.

constexpr std::string_view number_of =
    "(SELECT printf('%02d-%03d', c.year % 100, c.count) FROM commission c WHERE c.id = ";

using Rows = std::vector<Undone>;

void each_row(Connection& connection, std::string const& sql, std::int64_t entry,
              std::function<void(Statement&)> const& take) {
  Statement select(connection, sql);
  select.bind(entry);
  while (select.step()) take(select);
}

void tell_lots(Connection& connection, std::int64_t entry, Rows& rows) {
  each_row(
      connection,
      "SELECT l.mark || l.number || ' ' || t.code, l.dimension, l.costed = 'own' AND l.source <> 'custody', "
      "s.quantity, s.value, sum(m.quantity), sum(m.value) FROM movement m JOIN lot l ON l.id = m.lot "
      "JOIN lot_state s ON s.lot = m.lot JOIN material t ON t.id = m.material WHERE m.entry = ?1 GROUP BY "
      "m.lot",
      entry, [&](Statement& select) {
        std::string lot;
        Dimension dimension{};
        bool valued = false;
        std::int64_t quantity = 0, value = 0, moved = 0, worth = 0;
        select.read(lot, dimension, valued, quantity, value, moved, worth);
        auto const text = [&](std::int64_t n, std::int64_t minor) {
          if (n == 0 && minor == 0) return std::string();
          std::string const many = amount_text({dimension, n});
          return valued ? many + ", worth " + money_text({minor, connection.currency}) : many;
        };
        rows.push_back({lot, text(quantity, value), text(quantity - moved, value - worth)});
      });
}

void tell_reservations(Connection& connection, std::int64_t entry, Rows& rows) {
  std::string const sql =
      "SELECT t.code || ' for ' || " + std::string(number_of) +
      "j.commission), (SELECT dimension FROM material_version WHERE material = r.material LIMIT 1), "
      "d.quantity, sum(r.quantity) FROM reservation r JOIN job j ON j.id = r.job JOIN material t ON t.id = "
      "r.material "
      "JOIN reserved d ON d.job = r.job AND d.material = r.material AND d.lot = ifnull(r.lot, 0) WHERE "
      "r.entry = ?1 "
      "GROUP BY r.job, r.material, ifnull(r.lot, 0)";
  each_row(connection, sql, entry, [&](Statement& select) {
    std::string what;
    Dimension dimension{};
    std::int64_t now = 0, change = 0;
    select.read(what, dimension, now, change);
    auto const text = [&](std::int64_t n) {
      return n == 0 ? "" : amount_text({dimension, n}) + " set aside";
    };
    rows.push_back({what, text(now), text(now - change)});
  });
}

void tell_job(Connection& connection, std::int64_t entry, Rows& rows) {
  std::string const job = "'job ' || " + std::string(number_of) + "j.commission)";
  auto const tell = [&](std::string const& what, std::string const& now, std::string const& from) {
    each_row(connection,
             "SELECT " + job + " || " + what + ", " + now + " FROM " + from +
                 " x JOIN job j ON j.id = x.job WHERE x.entry = ?1",
             entry, [&](Statement& select) {
               Undone& row = rows.emplace_back();
               select.read(row.what, row.now);
             });
  };
  tell("''", "x.event || iif(x.gate = '', '', ' for ' || x.gate)", "job_event");
  tell("''", "'without ' || (SELECT code FROM material WHERE id = x.material)", "job_without");
  tell("', ' || x.operation || x.part", "'nothing left to do'", "job_done");
  auto const money = [&](std::string const& what, std::string const& column, std::string const& from,
                         std::function<std::string(std::int64_t)> const& text) {
    each_row(connection,
             "SELECT " + job + " || " + what + ", x." + column + " FROM " + from +
                 " x JOIN job j ON j.id = x.job WHERE x.entry = ?1",
             entry, [&](Statement& select) {
               std::string name;
               std::int64_t number = 0;
               select.read(name, number);
               rows.push_back({name, text(number), ""});
             });
  };
  auto const as_money = [&](std::int64_t minor) { return money_text({minor, connection.currency}); };
  money("', agreed'", "price", "job_agreed", as_money);
  money("', paid'", "amount", "job_payment", as_money);
  money("', ' || x.kind || ' of the sale'", "amount", "job_sale", as_money);
  money("', ' || x.words", "price", "job_outside", as_money);
  money("', ' || x.operation || x.part", "seconds", "job_time",
        [](std::int64_t seconds) { return duration_text(Duration{seconds}); });
}

void tell_quotes(Connection& connection, std::int64_t entry, Rows& rows) {
  std::string const quote = "'quote ' || " + std::string(number_of) + "q.commission) || q.issue";
  std::string const sql =
      "SELECT " + quote +
      ", e.event, ifnull((SELECT event FROM quote_event WHERE quote = q.id AND id < e.id AND undoes IS NULL "
      "AND entry IN " +
      std::string(standing_text) +
      " ORDER BY id DESC LIMIT 1), 'open') "
      "FROM quote_event e JOIN quote q ON q.id = e.quote WHERE e.entry = ?1 "
      "UNION ALL SELECT " +
      quote + ", 'open', 'withdrawn' FROM quote q WHERE q.entry = ?1";
  each_row(connection, sql, entry, [&](Statement& select) {
    Undone& row = rows.emplace_back();
    select.read(row.what, row.now, row.then);
  });
}

void tell_days_off(Connection& connection, std::int64_t entry, Rows& rows) {
  each_row(connection,
           "SELECT iif(person = '', 'everyone', person), iif(first = last, first, first || ' to ' || last), "
           "undoes IS NULL FROM day_off WHERE entry = ?1 ORDER BY id",
           entry, [&](Statement& select) {
             Undone& row = rows.emplace_back();
             bool off = false;
             std::string days;
             select.read(row.what, days, off);
             row.what += ", " + days;
             (off ? row.now : row.then) = "off";
           });
}

void tell_listings(Connection& connection, std::int64_t entry, Rows& rows) {
  each_row(connection,
           "SELECT printf('listing %d, %s', l.id, l.title), e.event, 'listed' FROM listing_event e "
           "JOIN listing l ON l.id = e.listing WHERE e.entry = ?1 UNION ALL "
           "SELECT printf('listing %d, %s', id, title), 'listed', '' FROM listing WHERE entry = ?1",
           entry, [&](Statement& select) {
             Undone& row = rows.emplace_back();
             select.read(row.what, row.now, row.then);
           });
  each_row(connection,
           "SELECT printf('listing %d, ticket', p.listing), p.ticket, p.currency FROM listing_price p "
           "JOIN listing l ON l.id = p.listing WHERE p.entry = ?1 AND l.entry <> ?1",
           entry, [&](Statement& select) {
             std::string what;
             Money ticket;
             select.read(what, ticket.minor, ticket.currency);
             rows.push_back({what, money_text(ticket), ""});
           });
}

// --- what is set aside

// An undoing that takes goods off the shelf, or sets goods aside anew, may find them set aside for another
// meanwhile.
struct Shortage {
  std::int64_t material = 0, quantity = 0;
};
std::vector<Shortage> shortages(Connection& connection, std::int64_t entry) {
  Statement select(
      connection,
      "SELECT s.material, ifnull((SELECT sum(quantity) FROM reserved WHERE material = s.material AND "
      "quantity > 0), 0) "
      "- s.quantity FROM shelf s WHERE s.material IN "
      "(SELECT material FROM movement WHERE entry = ?1 UNION SELECT material FROM reservation WHERE entry = "
      "?1)");
  select.bind(entry);
  std::vector<Shortage> all;
  while (select.step()) {
    Shortage& each = all.emplace_back();
    select.read(each.material, each.quantity);
  }
  return all;
}

std::vector<Fault> worse(Connection& connection, std::int64_t entry, std::vector<Shortage> const& before) {
  std::vector<Fault> faults;
  for (Shortage const& now : shortages(connection, entry)) {
    auto const was = std::find_if(before.begin(), before.end(),
                                  [&](Shortage const& s) { return s.material == now.material; });
    if (now.quantity <= 0 || now.quantity <= was->quantity) continue;
    // Without a later hand in it, it was as short before the entry.
    static std::string const sql =
        "SELECT entry, deed FROM (SELECT r.entry, 'sets ' || t.code || ' aside for ' || " +
        std::string(number_of) +
        "j.commission) AS deed FROM reservation r JOIN job j ON j.id = r.job JOIN material t ON t.id = "
        "r.material "
        "WHERE r.material = ?2 AND r.quantity > 0 UNION ALL SELECT m.entry, 'takes ' || t.code FROM movement "
        "m "
        "JOIN material t ON t.id = m.material WHERE m.material = ?2 AND m.quantity < 0) WHERE entry IN " +
        std::string(later_text) + " ORDER BY entry DESC LIMIT 1";
    Statement select(connection, sql);
    if (!select.bind(entry, now.material).step()) continue;
    std::int64_t seq = 0;
    std::string deed;
    select.read(seq, deed);
    faults.push_back(built_on(connection, entry, seq, deed));
  }
  return faults;
}

std::vector<Fault> let_go_since(Connection& connection, std::int64_t entry) {
  Statement select(connection,
                   "SELECT DISTINCT t.code FROM reservation r JOIN material t ON t.id = r.material JOIN "
                   "reserved d ON d.job = r.job "
                   "AND d.material = r.material AND d.lot = ifnull(r.lot, 0) WHERE r.entry = ?1 "
                   "GROUP BY r.job, r.material, ifnull(r.lot, 0) HAVING d.quantity < sum(r.quantity)");
  select.bind(entry);
  std::vector<Fault> faults;
  while (select.step())
    faults.push_back(refused_entry(
        entry, "of the " + select.value<std::string>() +
                   " that it set aside some was taken since; endband workshop log shows by what"));
  return faults;
}

void withdraw_quotes(Writing& writing, std::int64_t entry, Date on) {
  Statement insert(writing.workshop().connection(),
                   "INSERT INTO quote_event (quote, event, on_date, words, entry) "
                   "SELECT id, 'withdrawn', ?2, '', ?3 FROM quote WHERE entry = ?1 ORDER BY id");
  insert.bind(entry, on, writing.entry()).run();
}

void withdraw_listings(Writing& writing, std::int64_t entry, Date on) {
  Statement insert(
      writing.workshop().connection(),
      "INSERT INTO listing_event (listing, event, on_date, words, entry) "
      "SELECT id, 'withdrawn', max(on_date, ?2), '', ?3 FROM listing WHERE entry = ?1 ORDER BY id");
  insert.bind(entry, on, writing.entry()).run();
}

}  // namespace

std::vector<Fault> counter_rows(Writing& writing, std::int64_t entry, Date on, std::vector<Undone>& undone) {
  Connection& connection = writing.workshop().connection();
  if (std::vector<Fault> faults = let_go_since(connection, entry); !faults.empty()) return faults;
  for (auto const tell : {tell_quotes, tell_job, tell_lots, tell_reservations, tell_days_off, tell_listings})
    tell(connection, entry, undone);
  std::vector<Shortage> const before = shortages(connection, entry);
  for (Countered const& what : countered()) {
    Statement insert(connection, counter_text(connection, what));
    insert.bind(entry, writing.entry(), on).run();
  }
  withdraw_quotes(writing, entry, on);
  withdraw_listings(writing, entry, on);
  return worse(connection, entry, before);
}

}  // namespace endband::db
