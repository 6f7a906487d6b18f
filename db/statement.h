// One use of a prepared statement: values bound and columns read in order, by type (see values.h).
//
//   Statement find(connection, "SELECT id, since FROM customer WHERE code = ?");
//   find.bind(code);
//   if (find.step()) find.read(id, since);
#pragma once

#include "db/connection.h"
#include "db/values.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>

namespace endband::db {

class Statement final : public Sink {
 public:
  Statement(Connection& connection, std::string_view sql);
  ~Statement();
  Statement(Statement const&) = delete;
  Statement& operator=(Statement const&) = delete;

  template <class... T>
  Statement& bind(T const&... values) {
    Sink::take(values...);
    return *this;
  }
  bool step();            // the next row; reading starts at its first column
  void run();             // to the end, and ready for the next values
  std::int64_t insert();  // run(), and the id of the new row

  template <class... T>
  void read(T&&... values) {
    (get(values), ...);
  }
  template <class T>
  T value() {
    T result{};
    get(result);
    return result;
  }

 private:
  void put_integer(std::int64_t value) override;
  void put_text(std::string_view value) override;
  void put_null() override;

  bool null() const;
  std::int64_t integer();
  std::string_view text();  // until the next step
  void get(std::int64_t& value) { value = integer(); }
  void get(int& value);
  void get(bool& value);
  void get(std::string& value) { value = text(); }
  void get(Date& value);
  void get(Money& value) { value = {integer(), connection_.currency}; }
  void get(Currency& value);
  void get(Ratio& value);
  void get(MaterialId& id) { id.value = integer(); }
  template <class T>
  void get(ZeroIsNull<T> const& id) {
    id.value = integer();
  }  // SQLite reads NULL as 0
  template <class Tag>
  void get(Quantity<Tag>& value) {
    value.n = integer();
  }
  template <class T>
  void get(std::optional<T>& value) {
    if (null()) {
      ++column_;
      value.reset();
    } else {
      get(value.emplace());
    }
  }
  template <class Optional>
  void get(Pair<Optional> const& pair) {
    if (null()) {
      column_ += 2;
      pair.value.reset();
    } else {
      get(pair.value.emplace());
    }
  }
  template <class T>
  void get(Millionths<T> const& number) {
    number.value = static_cast<double>(integer()) / 1e6;
  }
  void get(Goal& goal);
  void get(SheetSize& size) { read(size.first, size.second); }
  void get(ThreadNumber& thread) { read(thread.number, thread.ply); }
  template <class T>
  requires std::is_enum_v<T>
  void get(T& value) { value = from_word<T>(text()); }

  Connection& connection_;
  std::unique_ptr<Prepared> own_;  // when the same text is already running
  Prepared* prepared_;
  int bound_ = 0;
  int column_ = 0;
};

}  // namespace endband::db
