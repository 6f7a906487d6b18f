// What is told of a job adds up within the numbers that there are, as each command sees to.
#include "db/check.h"
#include "db/job_rows.h"
#include "db/statement.h"

#include <array>

namespace endband::db {
namespace {

// Rows of one key are summed wherever the job is looked at.
struct Summed {
  std::string_view table, column, key;
};
constexpr std::array summed{Summed{"job_payment", "amount", "job"}, Summed{"job_outside", "price", "job"},
                            Summed{"job_sale", "amount", "job || kind"},
                            Summed{"job_time", "seconds", "job"}};

// Gives back whether all do; the row is named that takes the sum too far.
bool adds_up(Findings& findings, Summed const& what) {
  std::string const table(what.table), key(what.key);
  Statement select(findings.connection(), "SELECT id, CAST(" + key + " AS TEXT), " +
                                              std::string(what.column) + " FROM " + table + " x WHERE " +
                                              standing(table, "x") + " ORDER BY " + key + ", id");
  bool good = true;
  std::string last;
  std::int64_t sum = 0;
  while (select.step()) {
    std::string of;
    std::int64_t id = 0, more = 0;
    select.read(id, of, more);
    if (of != last) sum = 0;
    last = of;
    if (__builtin_add_overflow(sum, more, &sum)) {
      findings.add(what.table, id, std::to_string(more) + " is too large to be summed", "smaller numbers");
      sum = 0;
      good = false;
    }
  }
  return good;
}

}  // namespace

bool job_sums_add_up(Findings& findings) {
  bool good = true;
  for (Summed const& what : summed) good = adds_up(findings, what) && good;
  return good;
}

}  // namespace endband::db
