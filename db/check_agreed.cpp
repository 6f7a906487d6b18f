// What was agreed on of each job: first the offer of the quote that was accepted, then, change by change,
// what the price and the issue of the change make it.
#include "db/check.h"
#include "db/frozen.h"
#include "db/job_rows.h"
#include "db/statement.h"

#include <algorithm>
#include <optional>

namespace endband::db {
namespace {

struct AgreedRow {
  std::int64_t id = 0, job = 0, quote = 0;
  Money price, to_pay, deposit, thrown_away;
};

void check_accepted(Findings& findings, AgreedRow const& row) {
  Statement select(findings.connection(), "SELECT goods, total, deposit FROM quote_offer WHERE quote = ?");
  if (!select.bind(row.quote).step()) return;  // told with the quote
  Money goods, total, deposit;
  select.read(goods, total, deposit);
  constexpr std::string_view why = "as the quote that was accepted offers";
  findings.hold("job_agreed", row.id, "price", row.price, goods, why);
  findings.hold("job_agreed", row.id, "to pay", row.to_pay, total, why);
  findings.hold("job_agreed", row.id, "deposit", row.deposit, deposit, why);
  findings.hold("job_agreed", row.id, "thrown away", row.thrown_away, {0, goods.currency},
                "before any change");
}

// The price of a change was made of prices of its day; what is to pay follows from it.
void check_changed(Findings& findings, AgreedRow const& before, AgreedRow const& row) {
  Change change;
  change.price = row.price;
  change.difference = row.price - before.price;
  Money const to_pay = to_pay_after(load_frozen(findings.connection(), before.quote), before.to_pay,
                                    load_frozen(findings.connection(), row.quote), change);
  findings.hold("job_agreed", row.id, "to pay", row.to_pay, to_pay, "as the change of the price makes it");
  findings.hold("job_agreed", row.id, "deposit", row.deposit, std::min(before.deposit, to_pay),
                "as it was, and no more than is to pay");
}

void check_figures(Findings& findings) {
  static std::string const sql =
      "SELECT id, job, quote, price, to_pay, deposit, thrown_away FROM job_agreed a WHERE " +
      standing("job_agreed", "a") + " ORDER BY job, id";
  Statement select(findings.connection(), sql);
  std::optional<AgreedRow> before;
  while (select.step()) {
    AgreedRow row;
    select.read(row.id, row.job, row.quote, row.price, row.to_pay, row.deposit, row.thrown_away);
    findings.look_at("job_agreed", std::to_string(row.id), [&] {
      if (before && before->job == row.job)
        check_changed(findings, *before, row);
      else
        check_accepted(findings, row);
    });
    before = row;
  }
}

void check_quote_named(Findings& findings) {
  Statement select(findings.connection(),
                   "SELECT a.id FROM job_agreed a JOIN job j ON j.id = a.job JOIN quote q ON q.id = a.quote "
                   "WHERE a.undoes IS NULL AND (q.commission <> j.commission OR NOT EXISTS (SELECT 1 FROM "
                   "quote_event e WHERE e.quote = a.quote AND e.event = 'accepted' AND e.entry = a.entry))");
  while (select.step())
    findings.add("job_agreed", select.value<std::int64_t>(), "names a quote that was not accepted then",
                 "a quote of the job's commission, accepted by the same entry");
}

}  // namespace

void check_agreed(Findings& findings) {
  check_quote_named(findings);
  check_figures(findings);
}

}  // namespace endband::db
