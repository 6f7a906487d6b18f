#include "db/statement.h"

#include <SQLiteCpp/Column.h>
#include <sqlite3.h>

#include <limits>
#include <stdexcept>

namespace endband::db {
namespace {

std::unique_ptr<Prepared> prepare(Connection& connection, std::string const& sql) {
  return guarded(
      [&] { return std::make_unique<Prepared>(Prepared{SQLite::Statement(connection.database, sql)}); });
}

[[noreturn]] void damaged(std::string const& what) { throw StoreError(FaultCode::not_a_workshop, what); }

}  // namespace

Statement::Statement(Connection& connection, std::string_view sql)
    : Sink(connection.currency), connection_(connection), prepared_(nullptr) {
  auto found = connection.statements.find(sql);
  if (found == connection.statements.end()) {
    std::string text(sql);
    auto fresh = prepare(connection, text);
    found = connection.statements.emplace(std::move(text), std::move(fresh)).first;
  }
  if (found->second->in_use) own_ = prepare(connection, found->first);
  prepared_ = own_ ? own_.get() : found->second.get();
  prepared_->in_use = true;
}

Statement::~Statement() {
  prepared_->statement.tryReset();
  prepared_->in_use = false;
}

void Statement::put_integer(std::int64_t value) {
  guarded([&] { prepared_->statement.bind(++bound_, value); });
}

void Statement::put_text(std::string_view value) {
  guarded([&] { prepared_->statement.bind(++bound_, std::string(value)); });
}

void Statement::put_null() {
  guarded([&] { prepared_->statement.bind(++bound_); });
}

bool Statement::step() {
  if (bound_ != prepared_->statement.getBindParameterCount())
    throw std::logic_error("values missing in: " + prepared_->statement.getQuery());
  column_ = 0;
  int const code = prepared_->statement.tryExecuteStep();
  if (code == SQLITE_ROW) return true;
  if (code == SQLITE_DONE) return false;
  fail(code, sqlite3_errmsg(connection_.database.getHandle()));
}

void Statement::run() {
  while (step()) {
  }
  prepared_->statement.tryReset();
  bound_ = 0;
}

std::int64_t Statement::insert() {
  run();
  return connection_.database.getLastInsertRowid();
}

bool Statement::null() const { return prepared_->statement.isColumnNull(column_); }

std::int64_t Statement::integer() { return prepared_->statement.getColumn(column_++).getInt64(); }

std::string_view Statement::text() {
  SQLite::Column const column = prepared_->statement.getColumn(column_++);
  char const* text = column.getText();
  return {text, static_cast<std::size_t>(column.getBytes())};
}

void Statement::get(int& value) {
  std::int64_t const wide = integer();
  if (wide < std::numeric_limits<int>::min() || wide > std::numeric_limits<int>::max())
    damaged("number out of range: " + std::to_string(wide));
  value = static_cast<int>(wide);
}

void Statement::get(bool& value) {
  std::int64_t const flag = integer();
  if (flag != 0 && flag != 1) damaged("neither 0 nor 1: " + std::to_string(flag));
  value = flag == 1;
}

void Statement::get(Date& value) {
  Read<Date> const date = read_date(text());
  if (!date) damaged("not a date: " + date.error().front().found);
  value = *date;
}

void Statement::get(Currency& value) {
  if (null()) {
    ++column_;
    value = Currency();
    return;
  }
  Read<Currency> const currency = read_currency(text());
  if (!currency) damaged("not a currency: " + currency.error().front().found);
  value = *currency;
}

void Statement::get(Ratio& value) {
  std::int64_t const num = integer();
  std::int64_t const den = integer();
  if (den <= 0) damaged("not a ratio: " + std::to_string(num) + "/" + std::to_string(den));
  value = Ratio(num, den);
  if (value.num() != num || value.den() != den)
    damaged("not in lowest terms: " + std::to_string(num) + "/" + std::to_string(den));
}

void Statement::get(Goal& goal) {
  std::string const kind(text());
  Ratio const share = value<Ratio>();
  if (kind == "margin")
    goal = MarginGoal{share};
  else if (kind == "markup")
    goal = MarkupGoal{share};
  else if (share.den() != 1)
    damaged("not whole minor units: " + ratio_text(share));
  else if (Money const sum{share.num(), connection_.currency}; kind == "profit")
    goal = ProfitGoal{sum};
  else if (kind == "hourly")
    goal = HourlyGoal{sum};
  else if (kind == "leave")
    goal = LeaveGoal{sum};
  else
    damaged("unknown word: " + kind);
}

}  // namespace endband::db
