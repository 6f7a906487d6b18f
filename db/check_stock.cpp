// The shelf as its rows sum up: what triggers keep against the rows themselves, each lot and pool conserved,
// each counter-movement the mirror of what it undoes, days in order, and the one value of each offcut.
#include "db/check.h"
#include "db/stock_ledger.h"

#include <algorithm>
#include <array>

namespace endband::db {
namespace {

std::string pair_text(std::int64_t quantity, std::int64_t value) {
  return std::to_string(quantity) + " worth " + std::to_string(value);
}

// Rows of a table that a trigger keeps: `sql` gives key, what stands there, and what the rows sum to.
void check_sums(Findings& findings, std::string_view table, std::string_view sql) {
  Statement select(findings.connection(), sql);
  while (select.step()) {
    std::string key;
    std::int64_t quantity = 0, value = 0, due = 0, due_value = 0;
    select.read(key, quantity, value, due, due_value);
    findings.add(table, key, pair_text(quantity, value), pair_text(due, due_value) + ", as its rows sum up");
  }
}

void check_lot_states(Findings& findings) {
  check_sums(findings, "lot_state",
             "SELECT 'of ' || l.mark || l.number, ifnull(s.quantity, 0), ifnull(s.value, 0), ifnull(t.q, 0), "
             "CASE costed "
             "WHEN 'own' THEN ifnull(t.v, 0) ELSE 0 END AS due FROM lot l LEFT JOIN lot_state s ON s.lot = "
             "l.id LEFT JOIN "
             "(SELECT lot, sum(quantity) AS q, sum(value) AS v FROM movement GROUP BY lot) t ON t.lot = l.id "
             "WHERE s.quantity IS NOT ifnull(t.q, 0) OR s.value IS NOT due");
  Statement other(
      findings.connection(),
      "SELECT l.mark || l.number, s.moved_on, t.last FROM lot l JOIN lot_state s ON s.lot = l.id LEFT JOIN "
      "(SELECT lot, max(on_date) AS last FROM movement GROUP BY lot) t ON t.lot = l.id "
      "WHERE s.material <> l.material OR s.moved_on IS NOT max(l.on_date, ifnull(t.last, l.on_date))");
  while (other.step()) {
    std::string mark, moved_on, last;
    other.read(mark, moved_on, last);
    findings.add("lot_state", "of " + mark, "last moved " + moved_on,
                 "its lot's material and the day it last moved, " + last);
  }
}

void check_shelf(Findings& findings) {
  constexpr std::string_view sums =
      "SELECT v.material, sum(v.quantity) AS q, sum(v.value) AS v, sum(CASE l.costed WHEN 'pool' THEN "
      "v.quantity ELSE 0 "
      "END) AS pq, sum(CASE l.costed WHEN 'pool' THEN v.value ELSE 0 END) AS pv, max(CASE l.costed WHEN "
      "'pool' THEN "
      "v.on_date END) AS pooled_on FROM movement v JOIN lot l ON l.id = v.lot WHERE l.source <> 'custody' "
      "GROUP BY v.material";
  std::string const from = " FROM material m LEFT JOIN shelf s ON s.material = m.id LEFT JOIN (" +
                           std::string(sums) + ") t ON t.material = m.id WHERE ";
  check_sums(
      findings, "shelf",
      "SELECT 'of ' || m.code, ifnull(s.quantity, 0), ifnull(s.value, 0), ifnull(t.q, 0), ifnull(t.v, 0)" +
          from + "ifnull(s.quantity, 0) <> ifnull(t.q, 0) OR ifnull(s.value, 0) <> ifnull(t.v, 0)");
  check_sums(findings, "shelf",
             "SELECT 'of ' || m.code || ' at the average', ifnull(s.pooled, 0), ifnull(s.pooled_value, 0), "
             "ifnull(t.pq, 0), "
             "ifnull(t.pv, 0)" +
                 from +
                 "ifnull(s.pooled, 0) <> ifnull(t.pq, 0) OR ifnull(s.pooled_value, 0) <> ifnull(t.pv, 0) OR "
                 "s.pooled_on IS NOT t.pooled_on");
}

void check_reserved(Findings& findings) {
  check_sums(findings, "shelf",
             "SELECT 'of ' || m.code || ', set aside', s.reserved, 0, ifnull(t.q, 0), 0 FROM shelf s JOIN "
             "material m ON m.id = "
             "s.material LEFT JOIN (SELECT material, sum(quantity) AS q FROM reservation GROUP BY material) "
             "t ON t.material = "
             "s.material WHERE s.reserved <> ifnull(t.q, 0)");
  check_sums(findings, "reserved",
             "SELECT 'of job ' || k.job || ', ' || m.code, ifnull(r.quantity, 0), 0, ifnull(t.q, 0), 0 FROM "
             "(SELECT job, "
             "material, lot FROM reserved UNION SELECT job, material, ifnull(lot, 0) FROM reservation) k "
             "JOIN material m ON "
             "m.id = k.material LEFT JOIN reserved r ON r.job = k.job AND r.material = k.material AND r.lot "
             "= k.lot LEFT "
             "JOIN (SELECT job, material, ifnull(lot, 0) AS lot, sum(quantity) AS q FROM reservation GROUP "
             "BY 1, 2, 3) t "
             "ON t.job = k.job AND t.material = k.material AND t.lot = k.lot WHERE r.quantity IS NOT t.q");
  Statement lot(findings.connection(),
                "SELECT r.id FROM reservation r JOIN lot l ON l.id = r.lot WHERE l.material <> r.material OR "
                "l.source = "
                "'custody'");
  while (lot.step())
    findings.add("reservation", lot.value<std::int64_t>(), "sets aside a lot of another material or owner",
                 "a lot of its material");
}

// Nothing that came in is lost: what came in less what went out is what lies there, and neither ever falls
// below nothing.
void check_conserved(Findings& findings) {
  Statement lots(findings.connection(),
                 "SELECT id, mark, quantity, value FROM (SELECT v.id, l.mark || l.number AS mark, "
                 "sum(v.quantity) OVER w AS "
                 "quantity, CASE l.costed WHEN 'own' THEN sum(v.value) OVER w ELSE 0 END AS value FROM "
                 "movement v JOIN lot "
                 "l ON l.id = v.lot WINDOW w AS (PARTITION BY v.lot ORDER BY v.id)) "
                 "WHERE quantity < 0 OR value < 0 OR (quantity = 0 AND value <> 0)");
  while (lots.step()) {
    std::int64_t id = 0, quantity = 0, value = 0;
    std::string mark;
    lots.read(id, mark, quantity, value);
    findings.add("movement", id, "leaves " + pair_text(quantity, value) + " of " + mark,
                 "nothing less than what came in, and no value without goods");
  }
  Statement pools(
      findings.connection(),
      "SELECT id, code, quantity, value FROM (SELECT v.id, m.code, sum(v.quantity) OVER w AS quantity, "
      "sum(v.value) OVER w AS value FROM movement v JOIN lot l ON l.id = v.lot JOIN material m ON m.id = "
      "l.material WHERE l.costed = 'pool' WINDOW w AS (PARTITION BY l.material ORDER BY v.id)) "
      "WHERE quantity < 0 OR value < 0 OR (quantity = 0 AND value <> 0)");
  while (pools.step()) {
    std::int64_t id = 0, quantity = 0, value = 0;
    std::string code;
    pools.read(id, code, quantity, value);
    findings.add("movement", id, "leaves " + pair_text(quantity, value) + " of " + code + " at the average",
                 "nothing less than what came in, and no value without goods");
  }
}

// Each of these selects the rows that break a rule: the row, and what it is.
struct Rule {
  std::string_view table, sql, expected;
};
constexpr std::array rules{
    Rule{"movement",
         "SELECT c.id FROM movement c JOIN movement m ON m.id = c.undoes WHERE c.lot <> m.lot OR c.material "
         "<> m.material "
         "OR c.kind <> m.kind OR c.quantity <> -m.quantity OR c.value <> -m.value OR c.job IS NOT m.job OR "
         "m.undoes IS NOT "
         "NULL",
         "the mirror of what it undoes"},
    Rule{"movement",
         "SELECT c.id FROM movement c JOIN movement m ON m.id = c.undoes JOIN entry e ON e.seq = c.entry "
         "WHERE e.undoes IS "
         "NOT m.entry",
         "written by the entry that takes the other back"},
    Rule{"movement",
         "SELECT id FROM (SELECT id, on_date, lag(on_date) OVER (PARTITION BY lot ORDER BY id) AS earlier "
         "FROM movement) "
         "WHERE on_date < earlier",
         "a day not before the lot's last movement"},
    Rule{"movement",
         "SELECT id FROM (SELECT v.id, v.on_date, lag(v.on_date) OVER (PARTITION BY v.material ORDER BY "
         "v.id) AS earlier "
         "FROM movement v JOIN lot l ON l.id = v.lot WHERE l.costed = 'pool') WHERE on_date < earlier",
         "a day not before the last movement of its average"},
    Rule{"movement",
         "SELECT v.id FROM movement v JOIN lot l ON l.id = v.lot WHERE v.on_date < l.on_date OR v.material "
         "<> l.material",
         "of its lot's material, and not before the lot began"},
    Rule{"movement",
         "SELECT v.id FROM movement v JOIN lot l ON l.id = v.lot WHERE l.source = 'custody' AND (v.value <> "
         "0 OR v.kind IN "
         "('opening', 'received', 'written-down'))",
         "no value: the goods are a customer's"},
    Rule{"movement",
         "SELECT id FROM movement WHERE NOT (quantity >= 0 AND value >= 0 OR quantity <= 0 AND value <= 0) "
         "OR (quantity = 0) "
         "<> (kind = 'written-down') OR (undoes IS NULL AND kind NOT IN ('used', 'cut-away', 'spoiled') AND "
         "(quantity > 0) "
         "<> (kind IN ('opening', 'received', 'found', 'kept', 'custody')))",
         "the signs of its kind"},
    // What a job gives back it took before.
    Rule{"movement",
         "SELECT id FROM (SELECT id, sum(quantity) OVER w AS held, sum(value) OVER w AS worth FROM movement "
         "WHERE kind IN "
         "('used', 'cut-away', 'spoiled') WINDOW w AS (PARTITION BY job, lot, kind ORDER BY id)) WHERE held "
         "> 0 OR worth > 0",
         "no more given back than the job took"},
    // Taking what was set aside takes down the reservation by the same entry.
    Rule{"movement",
         "SELECT v.id FROM movement v JOIN (SELECT DISTINCT entry, material FROM reservation) r ON r.entry = "
         "v.entry AND r.material = v.material LEFT JOIN (SELECT DISTINCT entry, material, job FROM "
         "reservation) o ON o.entry = v.entry AND o.material = v.material AND o.job = v.job WHERE o.job IS "
         "NULL AND v.undoes IS NULL AND v.kind IN ('used', 'cut-away', 'spoiled')",
         "of the job that it was set aside for"},
    Rule{"lot",
         "SELECT l.id FROM lot l LEFT JOIN movement v ON v.id = (SELECT min(id) FROM movement WHERE lot = "
         "l.id) WHERE v.id IS "
         "NULL OR v.entry <> l.entry OR v.on_date <> l.on_date OR v.quantity <= 0 OR NOT (v.kind = l.source "
         "OR l.source = "
         "'custody' AND v.kind = 'kept')",
         "the movement that it began with"},
    Rule{"lot",
         "SELECT l.id FROM lot l JOIN movement v ON v.id = (SELECT min(id) FROM movement WHERE lot = l.id) "
         "WHERE l.source <> "
         "'custody' AND v.value <> l.price + l.carriage + l.duty + l.tax_borne",
         "landed at the value that it began with"},
    Rule{"lot",
         "SELECT l.id FROM lot l JOIN lot p ON p.id = l.parent WHERE p.material <> l.material OR p.id >= "
         "l.id OR l.owner IS "
         "NOT p.owner",
         "cut from an older lot of its material and owner"},
    Rule{"lot",
         "SELECT id FROM lot WHERE tax_borne > tax OR (costed = 'pool' AND (source IN ('kept', 'custody') OR "
         "job IS NOT NULL OR mark = 'K'))",
         "its own cost, and no more tax borne than there was"},
    Rule{"lot_fact",
         "SELECT id FROM lot_fact WHERE fact IN ('opened-on', 'keeps-until') AND value <> '' AND value IS "
         "NOT date(value)",
         "a date"},
};

void check_rules(Findings& findings) {
  for (Rule const& rule : rules) {
    Statement select(findings.connection(), rule.sql);
    while (select.step())
      findings.add(rule.table, select.value<std::int64_t>(), "is something else", std::string(rule.expected));
  }
}

// Marks are numbered without a gap.
void check_marks(Findings& findings) {
  Statement select(
      findings.connection(),
      "SELECT mark, count(*), max(number) FROM lot GROUP BY mark HAVING count(*) <> max(number)");
  while (select.step()) {
    std::string mark;
    std::int64_t count = 0, last = 0;
    select.read(mark, count, last);
    findings.add("lot", "of mark " + mark, std::to_string(count) + " lots",
                 std::to_string(last) + " without a gap");
  }
}

// The carriage of a parcel is shared over its lines to the last minor unit.
void check_deliveries(Findings& findings) {
  Statement select(findings.connection(),
                   "SELECT d.id, d.carriage, ifnull(sum(l.carriage), 0) FROM delivery d LEFT JOIN lot l ON "
                   "l.delivery = d.id "
                   "GROUP BY d.id HAVING d.carriage <> ifnull(sum(l.carriage), 0)");
  while (select.step()) {
    std::int64_t id = 0, carriage = 0, shared = 0;
    select.read(id, carriage, shared);
    findings.add("delivery", id, "carriage of " + std::to_string(carriage),
                 std::to_string(shared) + ", as its lots bear it");
  }
}

// Under the average goods that are alike are pooled, under first in first out none is.
void check_formula(Findings& findings) {
  std::optional<CostFormula> const formula = formula_in_use(findings.workshop);
  if (!formula) return;
  bool const average = *formula == CostFormula::moving_average;
  Statement select(
      findings.connection(),
      "SELECT id, costed FROM lot WHERE costed <> CASE WHEN ? AND mark = 'L' AND source IN ('received', "
      "'opening', 'found') AND job IS NULL THEN 'pool' ELSE 'own' END");
  select.bind(average);
  while (select.step()) {
    std::int64_t id = 0;
    std::string costed;
    select.read(id, costed);
    findings.add("lot", id, "costed by " + costed, "as " + std::string(formula_name(*formula)) + " has it");
  }
}

// An offcut has one value: the share kept x its part of what the job took of the lot, as it stood when it was
// cut.
void check_kept(Findings& findings) {
  Statement select(findings.connection(),
                   "SELECT v.id, v.quantity, v.value, v.on_date, ifnull(-(SELECT sum(quantity) FROM movement "
                   "h WHERE h.lot = l.parent AND "
                   "h.job = v.job AND h.kind IN ('used', 'cut-away', 'spoiled') AND h.id < v.id), 0), "
                   "ifnull(-(SELECT sum(value) FROM movement h WHERE h.lot = l.parent AND h.job = v.job AND "
                   "h.kind IN ('used', 'cut-away', "
                   "'spoiled') AND h.id < v.id), 0), ifnull((SELECT sum(h.value) FROM lot o JOIN movement h "
                   "ON h.lot = o.id WHERE o.parent "
                   "= l.parent AND h.kind = 'kept' AND h.job = v.job AND h.id < v.id), 0), ifnull((SELECT "
                   "sum(h.quantity) FROM lot o JOIN "
                   "movement h ON h.lot = o.id WHERE o.parent = l.parent AND h.kind = 'kept' AND h.job = "
                   "v.job AND h.id < v.id), 0), "
                   "m.kept_worth_num, m.kept_worth_den FROM movement v JOIN lot l ON l.id = v.lot JOIN "
                   "material_version m ON m.id = "
                   "(SELECT id FROM material_version WHERE material = l.material AND valid_from <= v.on_date "
                   "AND entry <= v.entry ORDER BY "
                   "valid_from DESC, id DESC LIMIT 1) WHERE v.kind = 'kept' AND v.undoes IS NULL");
  while (select.step()) {
    std::int64_t id = 0, quantity = 0, value = 0, kept_value_before = 0, kept_before = 0;
    Date on;
    Held held;
    Ratio worth;
    select.read(id, quantity, value, on, held.quantity, held.value, kept_value_before, kept_before, worth);
    if (quantity <= 0 || kept_before + quantity > held.quantity) {
      findings.add("movement", id, "keeps more than the job holds",
                   "at most " + std::to_string(held.quantity - kept_before));
      continue;
    }
    std::int64_t const due = std::min(kept_value(held, quantity, worth), held.value - kept_value_before);
    if (value != due)
      findings.add("movement", id, "keeps a value of " + std::to_string(value),
                   std::to_string(due) + ", its share of what the job took");
  }
}

}  // namespace

void check_stock(Findings& findings) {
  check_lot_states(findings);
  check_shelf(findings);
  check_reserved(findings);
  check_conserved(findings);
  check_rules(findings);
  check_marks(findings);
  check_deliveries(findings);
  check_formula(findings);
  check_kept(findings);
}

}  // namespace endband::db
