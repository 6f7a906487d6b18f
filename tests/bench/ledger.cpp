// A ledger of a million movements over 2,000 materials, against what bare SQLite needs for the same: prints
// four ratios and how long the whole shelf takes, each with its limit.
//   bench_ledger FOLDER [MOVEMENTS]
// The bare side runs the same rows through the sqlite3 C API into a copy of the same file: same schema, same
// triggers, same transactions.
#include "db/materials.h"
#include "db/stock.h"
#include "db/workshop.h"
#include "row.h"

#include <sqlite3.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <stdexcept>
#include <string>
#include <vector>

using namespace endband;

namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;

constexpr std::int64_t materials = 2'000, lots_each = 4, a_writing = 10'000;

double seconds_since(Clock::time_point began) {
  return std::chrono::duration<double>(Clock::now() - began).count();
}
Date day(std::string_view text) { return read_date(text).value(); }
std::string code_of(std::int64_t n) { return "paper-" + std::to_string(n); }
db::EntryInfo info() { return {0, "2026-11-25T09:10:05Z", day("2026-11-25"), "job use", "bench"}; }

struct Bare {  // the C API, as plainly as it goes
  sqlite3* handle = nullptr;
  explicit Bare(std::string const& path) {
    must(sqlite3_open_v2(path.c_str(), &handle, SQLITE_OPEN_READWRITE, nullptr));
    run("PRAGMA foreign_keys = ON; PRAGMA recursive_triggers = ON; PRAGMA synchronous = FULL");
  }
  ~Bare() { sqlite3_close(handle); }
  Bare(Bare const&) = delete;
  Bare& operator=(Bare const&) = delete;
  void must(int code) const {
    if (code != SQLITE_OK && code != SQLITE_DONE && code != SQLITE_ROW)
      throw std::runtime_error(sqlite3_errmsg(handle));
  }
  void run(char const* sql) const { must(sqlite3_exec(handle, sql, nullptr, nullptr, nullptr)); }
  sqlite3_stmt* prepared(char const* sql) const {
    sqlite3_stmt* statement = nullptr;
    must(sqlite3_prepare_v2(handle, sql, -1, &statement, nullptr));
    return statement;
  }
};

db::Workshop new_workshop(std::string const& path) {
  db::Workshop workshop = db::Workshop::create(path, read_currency("EUR").value(), "Alder Lane Bindery",
                                               "2026-01-01T09:00:00Z", day("2026-01-01"))
                              .value();
  db::Writing writing(workshop, info());
  Material paper;
  paper.name = "Laid paper";
  paper.kind = MaterialKind::paper;
  paper.sold_by = SoldBy::sheet;
  paper.properties.caliper = Thickness{160'000};
  paper.properties.grammage_mg = 120'000;
  paper.properties.sheet = SheetSize{{640'000}, {900'000}};
  db::Parcel parcel;
  parcel.on = day("2026-01-02");
  parcel.supplier = "Harrow Paper Store";
  parcel.currency = workshop.currency();
  parcel.terms.carriage = {0, parcel.currency};
  for (std::int64_t n = 0; n < materials; ++n) {
    paper.code = code_of(n);
    db::add_material(writing, paper, day("2026-01-01")).value();
    for (std::int64_t lot = 0; lot < lots_each; ++lot)
      parcel.lines.push_back({paper.code,
                              {Dimension::count, 500'000'000},
                              "500000 sheets",
                              {9'000'000 + n + lot, parcel.currency},
                              {},
                              {},
                              {}});
  }
  db::receive(writing, parcel).value();
  writing.commit();
  return workshop;
}

std::int64_t new_job(std::string const& path) {
  Bare bare(path);
  bare.run(
      "INSERT INTO commission (year, count, entry) VALUES (2026, 1, 1);"
      "INSERT INTO job (commission, on_date, entry) VALUES (1, '2026-01-02', 1)");
  return sqlite3_last_insert_rowid(bare.handle);
}

// Uses go round the materials, so that each finds other pages than the one before.
struct Uses {
  db::Workshop& workshop;
  std::int64_t job, posted = 0;
  void one(db::Writing& writing) {
    std::int64_t const n = posted++ * 7 % materials;
    db::take_for_job(writing, job, code_of(n), "", {Dimension::count, 1'000 + n}, MovementKind::used,
                     day("2026-03-01"), "")
        .value();
  }
  void many(std::int64_t wanted) {
    while (wanted > 0) {
      db::Writing writing(workshop, info());
      for (std::int64_t i = 0; i < std::min(wanted, a_writing); ++i) one(writing);
      writing.commit();
      wanted -= a_writing;
    }
  }
};

// One use in a command of its own, as a binder posts it. By the clock it is mostly the disk's.
struct OneUse {
  std::vector<double> wall;
  std::clock_t processor = 0;
  void post(Uses& uses) {
    std::clock_t const processor_began = std::clock();
    auto const began = Clock::now();
    db::Writing writing(uses.workshop, info());
    uses.one(writing);
    writing.commit();
    wall.push_back(seconds_since(began));
    processor += std::clock() - processor_began;
  }
  double median() {
    auto const middle = wall.begin() + std::ssize(wall) / 2;
    std::ranges::nth_element(wall, middle);
    return *middle;
  }
  double mean_of_processor() const {
    return static_cast<double>(processor) / CLOCKS_PER_SEC / static_cast<double>(wall.size());
  }
};

struct Row {
  std::string on, kind;
  std::int64_t lot, material, quantity, value, job;
};
std::vector<Row> last_rows(Bare const& bare, std::int64_t count) {
  sqlite3_stmt* select = bare.prepared(
      "SELECT on_date, kind, lot, material, quantity, value, job FROM (SELECT * FROM movement ORDER BY id "
      "DESC LIMIT ?) "
      "ORDER BY id");
  sqlite3_bind_int64(select, 1, count);
  std::vector<Row> rows;
  auto const text = [&](int column) {
    return reinterpret_cast<char const*>(sqlite3_column_text(select, column));
  };
  auto const number = [&](int column) { return std::int64_t{sqlite3_column_int64(select, column)}; };
  while (sqlite3_step(select) == SQLITE_ROW)
    rows.push_back({text(0), text(1), number(2), number(3), number(4), number(5), number(6)});
  sqlite3_finalize(select);
  return rows;
}

double insert_bare(Bare const& bare, std::vector<Row> const& rows) {
  auto const began = Clock::now();
  sqlite3_stmt* insert = bare.prepared(
      "INSERT INTO movement (on_date, lot, material, kind, quantity, value, job, reason, entry) "
      "VALUES (?, ?, ?, ?, ?, ?, ?, '', ?)");
  std::int64_t entry = 0, n = 0;
  for (Row const& row : rows) {
    if (n++ % a_writing == 0) {
      bare.run(n == 1 ? "BEGIN IMMEDIATE" : "COMMIT; BEGIN IMMEDIATE");
      bare.run(
          "INSERT INTO entry (at_utc, on_date, command, program) "
          "VALUES ('2026-11-25T09:10:05Z', '2026-11-25', 'job use', 'bench')");
      entry = sqlite3_last_insert_rowid(bare.handle);
    }
    sqlite3_bind_text(insert, 1, row.on.data(), static_cast<int>(row.on.size()), SQLITE_STATIC);
    sqlite3_bind_int64(insert, 2, row.lot);
    sqlite3_bind_int64(insert, 3, row.material);
    sqlite3_bind_text(insert, 4, row.kind.data(), static_cast<int>(row.kind.size()), SQLITE_STATIC);
    sqlite3_bind_int64(insert, 5, row.quantity);
    sqlite3_bind_int64(insert, 6, row.value);
    sqlite3_bind_int64(insert, 7, row.job);
    sqlite3_bind_int64(insert, 8, entry);
    bare.must(sqlite3_step(insert));
    sqlite3_reset(insert);
  }
  bare.run("COMMIT");
  double const took = seconds_since(began);
  sqlite3_finalize(insert);
  return took;
}

template <class Look>
double per_look(Look&& look) {
  constexpr std::int64_t looks = 20'000;
  auto const began = Clock::now();
  for (std::int64_t i = 0; i < looks; ++i) look(code_of(i * 13 % materials));
  return seconds_since(began) / looks;
}

double median_of(std::vector<double> times) {
  std::ranges::sort(times);
  return times[times.size() / 2];
}

struct Looks {
  double ours = 0, bare = 0;
};
Looks look_up(db::Workshop& workshop, std::string const& path) {
  db::Reading const reading(workshop);
  Bare const bare(path);
  bare.run("BEGIN");
  sqlite3_stmt* select = bare.prepared(
      "SELECT s.quantity, s.value FROM material m JOIN shelf s ON s.material = m.id WHERE m.code = ?");
  std::vector<double> of_ours, of_bare;
  for (int repeat = 0; repeat < 15; ++repeat) {
    of_ours.push_back(per_look([&](std::string const& code) {
      if (db::on_hand(workshop, code)->quantity.n == 0) std::abort();
    }));
    of_bare.push_back(per_look([&](std::string const& code) {
      sqlite3_bind_text(select, 1, code.data(), static_cast<int>(code.size()), SQLITE_STATIC);
      if (sqlite3_step(select) != SQLITE_ROW || sqlite3_column_int64(select, 0) == 0) std::abort();
      sqlite3_reset(select);
    }));
  }
  sqlite3_finalize(select);
  return {median_of(of_ours), median_of(of_bare)};
}

double whole_shelf(db::Workshop& workshop) {
  std::vector<double> times;
  for (int repeat = 0; repeat < 7; ++repeat) {
    auto const began = Clock::now();
    if (db::shelf(workshop, std::nullopt).size() != static_cast<std::size_t>(materials)) std::abort();
    times.push_back(seconds_since(began));
  }
  std::ranges::sort(times);
  return times[3];
}

bool told(char const* what, double value, double limit, bool at_least = false) {
  bool const good = at_least ? value >= limit : value <= limit;
  std::printf("%s: %.2f, %s %.2f%s\n", what, value, at_least ? "at least" : "at most", limit,
              good ? "" : "  MISSED");
  return good;
}

bool run(std::string const& folder, std::int64_t movements) {
  std::string const path = folder + "/ledger.db", copy = folder + "/copy.db",
                    young_path = folder + "/young.db";
  std::int64_t job = 0;
  {
    db::Workshop const workshop = new_workshop(path);
    job = new_job(path);
  }
  fs::copy_file(path, young_path);
  db::Workshop workshop = db::Workshop::open(path).value(),
               young_one = db::Workshop::open(young_path).value();
  Uses uses{workshop, job}, young{young_one, job};
  std::int64_t const compared = std::min(movements / 2, std::int64_t{100'000});
  uses.many(movements - compared);
  {
    Bare const bare(path);
    bare.run(("VACUUM INTO '" + copy + "'").c_str());
    Bare const fresh(copy);
    fresh.run("PRAGMA journal_mode = WAL");
    bare.run("VACUUM; PRAGMA wal_checkpoint(TRUNCATE)");  // both begin with files of one shape
  }
  auto const began = Clock::now();
  uses.many(compared);
  double const ours = seconds_since(began);
  double const bare = insert_bare(Bare(copy), last_rows(Bare(path), compared));
  OneUse early, late;  // turn about, so that whatever else the machine does falls on both
  for (int i = 0; i < 2'000; ++i) {
    early.post(young);
    late.post(uses);
  }
  auto const [look, bare_look] = look_up(workshop, path);
  double const shelf = whole_shelf(workshop);
  auto const count = static_cast<double>(compared), size = static_cast<double>(movements);
  bench::row("a movement posted, in bulk", size, ours / count, "the same rows by the C API", bare / count);
  bench::row("what is on hand of a material", size, look, "the same select by the C API", bare_look);
  std::printf("%lld movements over %lld materials\n", static_cast<long long>(uses.posted),
              static_cast<long long>(materials));
  std::printf("one use: %.1f us at the start, %.1f us at the end; of the processor %.1f us and %.1f us\n",
              early.median() * 1e6, late.median() * 1e6, early.mean_of_processor() * 1e6,
              late.mean_of_processor() * 1e6);
  std::printf("in bulk %.1f us, bare %.1f us; on hand %.2f us, bare %.2f us\n", ours / count * 1e6,
              bare / count * 1e6, look * 1e6, bare_look * 1e6);
  bool good = told("posting at the end / at the start", late.median() / early.median(), 1.3);
  good =
      told("the same, of the processor's time", late.mean_of_processor() / early.mean_of_processor(), 1.3) &&
      good;
  good = told("on hand of one material / bare look-up", look / bare_look, 3) && good;
  good = told("bulk rate / bare rate", bare / ours, 0.5, true) && good;
  return told("the whole shelf, ms", shelf * 1e3, 100) && good;
}

}  // namespace

int main(int argc, char** argv) try {
  if (argc < 2) {
    std::fputs("usage: bench_ledger FOLDER [MOVEMENTS]\n", stderr);
    return 2;
  }
  return run(argv[1], argc > 2 ? std::max(std::int64_t{std::atol(argv[2])}, std::int64_t{1'000}) : 1'000'000)
             ? 0
             : 1;
} catch (std::exception const& e) {
  std::fprintf(stderr, "bench_ledger: %s\n", e.what());
  return 1;
}
