// All past quotes at today's prices: so many a second, in how much memory, and against what bare SQLite needs
// to read the same rows.
//   bench_reprice grow WORKSHOP QUOTES    makes the workshop's quotes that many, all copies of those it has
//   bench_reprice measure WORKSHOP ON     reprices them as of that day
// Copied are the rows that a price follows from: repricing reads no others. Targets: 10,000 quotes a second,
// less than 300 MB, however many there are.
#include "cli/process/stream_together.h"
#include "db/repricing.h"
#include "row.h"

#include <sqlite3.h>
#include <sys/resource.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace {

using namespace endband;
using Clock = std::chrono::steady_clock;

constexpr double quotes_a_second = 10'000, most_megabytes = 300;
constexpr std::size_t batch = 64;

double seconds_since(Clock::time_point began) {
  return std::chrono::duration<double>(Clock::now() - began).count();
}

double peak_megabytes() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024;
}

class Bare {
 public:
  explicit Bare(std::string const& path) {
    if (sqlite3_open_v2(path.c_str(), &db_, SQLITE_OPEN_READWRITE, nullptr) != SQLITE_OK)
      throw std::runtime_error("cannot open " + path);
  }
  ~Bare() { sqlite3_close(db_); }
  Bare(Bare const&) = delete;
  Bare& operator=(Bare const&) = delete;

  void run(std::string const& sql) {
    if (sqlite3_exec(db_, sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK)
      throw std::runtime_error(std::string(sqlite3_errmsg(db_)) + ": " + sql);
  }
  std::int64_t number(std::string const& sql) {
    sqlite3_stmt* const select = prepared(sql);
    if (sqlite3_step(select) != SQLITE_ROW) throw std::runtime_error("no row: " + sql);
    std::int64_t const value = sqlite3_column_int64(select, 0);
    sqlite3_finalize(select);
    return value;
  }
  std::vector<std::string> names(std::string const& sql) {
    sqlite3_stmt* const select = prepared(sql);
    std::vector<std::string> all;
    while (sqlite3_step(select) == SQLITE_ROW)
      all.emplace_back(reinterpret_cast<char const*>(sqlite3_column_text(select, 0)));
    sqlite3_finalize(select);
    return all;
  }
  // Every value of every row.
  std::int64_t read_all(std::string const& sql) {
    sqlite3_stmt* const select = prepared(sql);
    std::int64_t sum = 0;
    while (sqlite3_step(select) == SQLITE_ROW) sum += touch(select);
    sqlite3_finalize(select);
    return sum;
  }
  // The bill, and the uses of those lines that may be ruined.
  std::int64_t read_bill(std::string const& sql) {
    sqlite3_stmt* const select = prepared(sql);
    sqlite3_stmt* const uses = prepared("SELECT part, net FROM quote_use WHERE quote = ? AND bill = ?");
    std::int64_t sum = 0, quote = 0, line = 0;
    while (sqlite3_step(select) == SQLITE_ROW) {
      std::int64_t const of = sqlite3_column_int64(select, 0);
      line = of == quote ? line + 1 : 0;
      quote = of;
      sum += touch(select);
      if (sqlite3_column_int64(select, 7) == 0) continue;
      sqlite3_bind_int64(uses, 1, quote);
      sqlite3_bind_int64(uses, 2, line);
      while (sqlite3_step(uses) == SQLITE_ROW) sum += touch(uses);
      sqlite3_reset(uses);
    }
    sqlite3_finalize(select);
    sqlite3_finalize(uses);
    return sum;
  }

 private:
  static std::int64_t touch(sqlite3_stmt* row) {
    std::int64_t sum = 0;
    for (int i = sqlite3_column_count(row) - 1; i >= 0; --i) {
      if (sqlite3_column_type(row, i) == SQLITE_TEXT)
        sum += sqlite3_column_text(row, i)[0] + sqlite3_column_bytes(row, i);
      else
        sum += sqlite3_column_int64(row, i) & 0xff;
    }
    return sum;
  }
  sqlite3_stmt* prepared(std::string const& sql) {
    sqlite3_stmt* statement = nullptr;
    if (sqlite3_prepare_v2(db_, sql.c_str(), -1, &statement, nullptr) != SQLITE_OK)
      throw std::runtime_error(std::string(sqlite3_errmsg(db_)) + ": " + sql);
    return statement;
  }
  sqlite3* db_ = nullptr;
};

// What the stream reads of each table, whose first column is the quote.
struct Table {
  char const* table;
  char const* columns;
  char const* condition = "";
};
constexpr std::array reads{
    Table{"quote_terms", "*"},
    Table{"quote_bill",
          "quote, material, dimension, charged, customer_supplied, unit_minor, unit_pack, ruin_chance_num, "
          "ruin_chance_den"},
    Table{"quote_use", ""},
    Table{"quote_work", "quote, operation, part, step_version, count, mean_s_num, mean_s_den"},
    Table{"quote_hand", "quote, position, rate", " WHERE rate IS NOT NULL"},
    Table{"quote_outside", "quote, price, at_cost"},
    Table{"quote_outside_detail", "quote, position, redo_num, redo_den"},
    Table{"quote_sheet", "quote, earning, total"},
    Table{"quote_offer", "quote, goods, goods_shown, money_left"},
    Table{"quote_risk", "quote, contingency"},
    Table{"quote_overtime", "*"},
    Table{"quote_selling", "quote, pieces"},
    Table{"quote_outlet", "*"},
    Table{"quote_fee", "*"},
    Table{"quote_fee_step", "*"},
    Table{"quote_walk", "quote, ticket, price"},
    Table{"quote_tax_of_line", "*"},
    Table{"quote_discount", "*"},
};

void grow(std::string const& path, std::int64_t wanted) {
  Bare file(path);
  file.run("PRAGMA foreign_keys = OFF");
  file.run("BEGIN");
  std::int64_t const made = file.number("SELECT count(*) FROM quote"),
                     last = file.number("SELECT max(id) FROM quote"),
                     commissions = file.number("SELECT max(id) FROM commission");
  if (made == 0) throw std::runtime_error("a workshop without a quote");
  file.run("CREATE TEMP TABLE of AS SELECT row_number() OVER (ORDER BY id) - 1 AS place, id FROM quote");
  // n from 1: the new quote, and the one that it is a copy of.
  file.run(
      "CREATE TEMP TABLE copied AS WITH RECURSIVE k (n) AS (SELECT 1 UNION ALL SELECT n + 1 FROM k WHERE n "
      "< " +
      std::to_string(wanted - made) + ") SELECT n, " + std::to_string(last) +
      " + n AS id, of.id AS source FROM k JOIN of ON of.place = n % " + std::to_string(made) + " ORDER BY n");
  std::string const commission = std::to_string(commissions) + " + n";
  file.run("INSERT INTO commission SELECT " + commission + ", 2000, " + std::to_string(commissions) +
           " + n, 1 FROM copied");
  file.run("INSERT INTO quote SELECT copied.id, " + commission +
           ", 'a', customer, on_date, valid_until, rules, title, binding, model, description, mass_mg, entry "
           "FROM copied JOIN quote q ON q.id = copied.source ORDER BY copied.n");
  for (Table const& read : reads) {
    std::string columns;
    for (std::string const& name : file.names("SELECT name FROM pragma_table_info('" +
                                              std::string(read.table) + "') WHERE name <> 'quote'"))
      columns += ", t." + name;
    file.run("INSERT INTO " + std::string(read.table) + " SELECT copied.id" + columns +
             " FROM copied CROSS JOIN " + read.table + " t ON t.quote = copied.source");
  }
  file.run("COMMIT");
  file.run("PRAGMA wal_checkpoint(TRUNCATE)");
}

struct Sums {
  std::int64_t quotes = 0, under = 0, below_goal = 0, left_now = 0;
};

void add(Sums& sums, Repriced const& each) {
  ++sums.quotes;
  sums.under += each.under ? 1 : 0;
  sums.below_goal += each.below_goal ? 1 : 0;
  sums.left_now += each.left_now.minor;
}

Sums reprice_all(db::Workshop& workshop, Today const& today) {
  db::Reading const reading(workshop);
  db::QuoteStream stream(workshop, {});
  Sums sums;
  cli::stream_together([&]() -> std::optional<cli::Streamed> {
    auto quotes = std::make_shared<std::vector<db::PastQuote>>(stream.next(batch));
    if (quotes->empty()) return std::nullopt;
    auto seen = std::make_shared<std::vector<Repriced>>();
    return cli::Streamed{[quotes, seen, &today] {
                           for (db::PastQuote const& each : *quotes)
                             seen->push_back(repriced(each.quote, today));
                         },
                         [quotes, seen, &sums] {
                           for (Repriced const& each : *seen) add(sums, each);
                         }};
  });
  return sums;
}

double stream_alone(db::Workshop& workshop) {
  db::Reading const reading(workshop);
  auto const began = Clock::now();
  db::QuoteStream stream(workshop, {});
  while (!stream.next(batch).empty()) {
  }
  return seconds_since(began);
}

double reprice_alone(db::Workshop& workshop, Today const& today) {
  db::Reading const reading(workshop);
  std::vector<db::PastQuote> const quotes = db::QuoteStream(workshop, {}).next(2'000);
  auto const began = Clock::now();
  Sums sums;
  for (db::PastQuote const& each : quotes) add(sums, repriced(each.quote, today));
  return seconds_since(began) / static_cast<double>(sums.quotes);
}

double read_bare(std::string const& path) {
  Bare file(path);
  file.run("BEGIN");
  auto const began = Clock::now();
  std::int64_t sum = file.read_all(
      "SELECT q.id, c.year, c.count, q.issue, q.title, q.binding, q.on_date FROM quote q JOIN commission c "
      "ON c.id = "
      "q.commission ORDER BY q.id");
  for (Table const& read : reads) {
    std::string const select = "SELECT " + std::string(read.columns) + " FROM " + read.table + read.condition;
    std::string_view const table = read.table;
    if (table == "quote_use") continue;  // with the bill
    sum += table == "quote_bill" ? file.read_bill(select) : file.read_all(select);
  }
  double const took = seconds_since(began);
  if (sum == 0) throw std::runtime_error("nothing was read");
  return took;
}

bool told(char const* what, double value, double limit, bool at_least) {
  bool const good = at_least ? value >= limit : value <= limit;
  std::printf("%s: %.0f, %s %.0f%s\n", what, value, at_least ? "at least" : "at most", limit,
              good ? "" : "  MISSED");
  return good;
}

bool measure(std::string const& path, Date on) {
  db::Workshop workshop = db::Workshop::open(path).value();
  Today const today = db::load_today(workshop, on).value();
  auto const began = Clock::now();
  Sums const sums = reprice_all(workshop, today);
  double const took = seconds_since(began), megabytes = peak_megabytes();
  double ours = took, bare = 1e9, alone = 1e9;
  for (int repeat = 0; repeat < 3;
       ++repeat) {  // turn about, so that whatever else the machine does falls on both
    bare = std::min(bare, read_bare(path));
    auto const again = Clock::now();
    (void)reprice_all(workshop, today);
    ours = std::min(ours, seconds_since(again));
    alone = std::min(alone, stream_alone(workshop));
  }
  auto const quotes = static_cast<double>(sums.quotes);
  std::printf("%lld quotes: %lld under their cost, %lld below their goal\n",
              static_cast<long long>(sums.quotes), static_cast<long long>(sums.under),
              static_cast<long long>(sums.below_goal));
  std::printf(
      "each: read and repriced %.1f us, at first %.1f us; read only %.1f us; repriced only %.1f us; bare "
      "%.1f us\n",
      ours / quotes * 1e6, took / quotes * 1e6, alone / quotes * 1e6, reprice_alone(workshop, today) * 1e6,
      bare / quotes * 1e6);
  std::printf("read and repriced / bare: %.2f\n", ours / bare);
  bench::row("quotes repriced", quotes, ours, "the same rows by the C API", bare);
  Today dear = db::load_today(workshop, on).value();
  for (char const* const what : {"rate=+60.00", "overhead=+5.00"})
    if (!dear.suppose(what)) throw std::runtime_error(what);
  std::printf("repriced only, where every hour is dearer and most are under their cost: %.1f us\n",
              reprice_alone(workshop, dear) * 1e6);
  bool const fast = told("quotes a second", quotes / ours, quotes_a_second, true);
  return told("megabytes at most", megabytes, most_megabytes, false) && fast;
}

}  // namespace

int main(int argc, char** argv) try {
  std::string_view const what = argc == 4 ? argv[1] : "";
  if (what == "grow") {
    grow(argv[2], std::atoll(argv[3]));
    return 0;
  }
  if (what == "measure") return measure(argv[2], read_date(argv[3]).value()) ? 0 : 1;
  std::fputs("usage: bench_reprice grow WORKSHOP QUOTES | measure WORKSHOP ON\n", stderr);
  return 2;
} catch (std::exception const& e) {
  std::fprintf(stderr, "bench_reprice: %s\n", e.what());
  return 1;
}
