/* The least a program can do for `quote list` and `quote make`: open the workshop, run the same selects,
 * insert the same rows, nothing else. No check, no arithmetic, no output but a count: what
 * tests/bench/process.sh holds the program against. bare_select WORKSHOP list LAST bare_select WORKSHOP make
 * DAY CODE...     the rows are those of the quote made last, once more bare_select WORKSHOP read SELECT... */
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static sqlite3* db;

static void fail(char const* what) {
  fprintf(stderr, "bare_select: %s: %s\n", what, db ? sqlite3_errmsg(db) : "");
  exit(1);
}
static void must(int code) {
  if (code != SQLITE_OK) fail(sqlite3_errstr(code));
}
static void run(char const* sql) { must(sqlite3_exec(db, sql, NULL, NULL, NULL)); }
static sqlite3_stmt* prepared(char const* sql) {
  sqlite3_stmt* statement = NULL;
  if (sqlite3_prepare_v2(db, sql, -1, &statement, NULL) != SQLITE_OK) fail(sql);
  return statement;
}

/* Steps to the end and touches every value, as a program that wants them must. */
static long long read_all(sqlite3_stmt* select) {
  long long bytes = 0;
  int code = 0;
  while ((code = sqlite3_step(select)) == SQLITE_ROW)
    for (int i = 0; i < sqlite3_column_count(select); ++i) {
      unsigned char const* text = sqlite3_column_text(select, i);
      if (text) bytes += (long long)strlen((char const*)text);
    }
  if (code != SQLITE_DONE) fail("step");
  sqlite3_reset(select);
  return bytes;
}

static long long number(char const* sql) {
  sqlite3_stmt* select = prepared(sql);
  if (sqlite3_step(select) != SQLITE_ROW) fail(sql);
  long long const value = sqlite3_column_int64(select, 0);
  sqlite3_finalize(select);
  return value;
}

static long long list(char const* last) {
  sqlite3_stmt* select = prepared(
      "SELECT q.id, c.year, c.count, q.issue, k.code, a.name, q.title, q.binding, q.on_date, q.valid_until, "
      "o.total, "
      "o.money_left, q.rules FROM quote q JOIN commission c ON c.id = q.commission JOIN quote_offer o ON "
      "o.quote = q.id "
      "LEFT JOIN customer k ON k.id = q.customer LEFT JOIN customer_address a ON a.customer = k.id "
      "ORDER BY q.id DESC LIMIT ?");
  sqlite3_bind_text(select, 1, last, -1, SQLITE_STATIC);
  long long const bytes = read_all(select);
  sqlite3_finalize(select);
  return bytes;
}

static long long read_inputs(char const* day, char** codes, int count) {
  long long bytes = 0;
  char const* const dated[] = {
      "SELECT name, value, valid_from, id FROM setting_version WHERE valid_from <= ? ORDER BY name, "
      "valid_from, id",
      "SELECT * FROM step_version WHERE valid_from <= ? ORDER BY operation, valid_from, id"};
  for (int i = 0; i < 2; ++i) {
    sqlite3_stmt* select = prepared(dated[i]);
    sqlite3_bind_text(select, 1, day, -1, SQLITE_STATIC);
    bytes += read_all(select);
    sqlite3_finalize(select);
  }
  sqlite3_stmt* material = prepared(
      "SELECT * FROM material m JOIN material_version v ON v.id = (SELECT id FROM material_version WHERE "
      "material = m.id "
      "AND valid_from <= ?1 ORDER BY valid_from DESC, id DESC LIMIT 1) "
      "LEFT JOIN price_version p ON p.id = (SELECT id FROM price_version WHERE material = m.id AND "
      "valid_from <= ?1 "
      "ORDER BY valid_from DESC, id DESC LIMIT 1) WHERE m.code = ?2");
  for (int i = 0; i < count; ++i) {
    sqlite3_bind_text(material, 1, day, -1, SQLITE_STATIC);
    sqlite3_bind_text(material, 2, codes[i], -1, SQLITE_STATIC);
    long long const row = read_all(material);
    if (row == 0) fail(codes[i]);
    bytes += row;
  }
  sqlite3_finalize(material);
  return bytes;
}

/* The rows of `table` that belong to `of`, inserted once more with `instead` in their first column. */
static void copy_rows(char const* table, char const* key, long long of, long long instead) {
  char sql[2000];
  snprintf(sql, sizeof sql, "SELECT * FROM %s WHERE %s = %lld", table, key, of);
  sqlite3_stmt* select = prepared(sql);
  int const columns = sqlite3_column_count(select);
  int length = snprintf(sql, sizeof sql, "INSERT INTO %s VALUES (?", table);
  for (int i = 1; i < columns; ++i) length += snprintf(sql + length, sizeof sql - (size_t)length, ",?");
  snprintf(sql + length, sizeof sql - (size_t)length, ")");
  sqlite3_stmt* insert = prepared(sql);
  while (sqlite3_step(select) == SQLITE_ROW) {
    sqlite3_bind_int64(insert, 1, instead);
    for (int i = 1; i < columns; ++i) sqlite3_bind_value(insert, i + 1, sqlite3_column_value(select, i));
    if (sqlite3_step(insert) != SQLITE_DONE) fail(table);
    sqlite3_reset(insert);
  }
  sqlite3_finalize(select);
  sqlite3_finalize(insert);
}

static void copy_parts(long long of, long long instead) {
  sqlite3_stmt* tables =
      prepared("SELECT name FROM sqlite_schema WHERE type = 'table' AND name GLOB 'quote_*' ORDER BY rowid");
  while (sqlite3_step(tables) == SQLITE_ROW)
    copy_rows((char const*)sqlite3_column_text(tables, 0), "quote", of, instead);
  sqlite3_finalize(tables);
}

static long long make(char const* day, char** codes, int count) {
  run("BEGIN");
  long long bytes = read_inputs(day, codes, count);
  run("COMMIT; BEGIN IMMEDIATE");
  run("INSERT INTO entry (at_utc, on_date, command, program) "
      "VALUES ('2026-11-25T09:00:00Z', '2026-11-25', 'quote make', 'bare')");
  long long const entry = sqlite3_last_insert_rowid(db);
  bytes += read_inputs(day, codes, count);
  char sql[400];
  snprintf(sql, sizeof sql,
           "INSERT INTO commission (year, count, entry) "
           "SELECT 2026, ifnull(max(count), 0) + 1, %lld FROM commission WHERE year = 2026",
           entry);
  run(sql);
  long long const commission = sqlite3_last_insert_rowid(db);
  long long const of = number("SELECT max(id) FROM quote");
  snprintf(sql, sizeof sql,
           "INSERT INTO quote SELECT NULL, %lld, 'a', customer, on_date, valid_until, rules, title, binding, "
           "model, "
           "description, mass_mg, %lld FROM quote WHERE id = %lld",
           commission, entry, of);
  run(sql);
  copy_parts(of, sqlite3_last_insert_rowid(db));
  run("COMMIT");
  return bytes;
}

int main(int argc, char** argv) {
  if (argc < 4) {
    fputs("usage: bare_select WORKSHOP list LAST | WORKSHOP make DAY CODE... | WORKSHOP read SELECT...\n",
          stderr);
    return 2;
  }
  must(sqlite3_open_v2(argv[1], &db, SQLITE_OPEN_READWRITE, NULL));
  run("PRAGMA foreign_keys = ON; PRAGMA recursive_triggers = ON; PRAGMA synchronous = FULL");
  long long bytes = 0;
  if (strcmp(argv[2], "list") == 0)
    bytes = list(argv[3]);
  else if (strcmp(argv[2], "read") == 0) {
    for (int i = 3; i < argc; ++i) {
      sqlite3_stmt* const select = prepared(argv[i]);
      bytes += read_all(select);
      sqlite3_finalize(select);
    }
  } else
    bytes = make(argv[3], argv + 4, argc - 4);
  printf("%lld\n", bytes);
  return sqlite3_close(db) == SQLITE_OK ? 0 : 1;
}
