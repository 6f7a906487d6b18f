// One use of a prepared statement: values bound and columns read in order, by type. A ratio takes two places,
// all else one; enumerators travel as their stable words, dates as 'YYYY-MM-DD', money as minor units of the
// workshop's currency.
//
//   Statement find(connection, "SELECT id, since FROM customer WHERE code = ?");
//   find.bind(code);
//   if (find.step()) find.read(id, since);
#pragma once

#include "db/connection.h"
#include "db/words.h"

#include <cmath>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>

namespace endband::db {

// An id that may be absent: 0 in memory, NULL in the file. Wraps an int64, const or not.
template <class T>
struct ZeroIsNull {
  T& value;
};
template <class T>
ZeroIsNull(T&) -> ZeroIsNull<T>;

// A double that a whole number of millionths tells well enough: nothing is REAL in the file. Wraps a double,
// const or not.
template <class T>
struct Millionths {
  T& value;
};
template <class T>
Millionths(T&) -> Millionths<T>;

// An optional value of two places, both NULL without it: a ratio, a sheet's sides, a thread's number and ply.
// Wraps an optional, const or not.
template <class Optional>
struct Pair {
  Optional& value;
};
template <class Optional>
Pair(Optional&) -> Pair<Optional>;

class Statement {
 public:
  Statement(Connection& connection, std::string_view sql);
  ~Statement();
  Statement(Statement const&) = delete;
  Statement& operator=(Statement const&) = delete;

  template <class... T>
  Statement& bind(T const&... values) {
    (put(values), ...);
    return *this;
  }
  bool step();            // the next row; reading starts at its first column
  void run();             // to the end, and ready for the next values
  std::int64_t insert();  // run(), and the id of the new row

  template <class... T>
  void read(T&&... values) {
    (take(values), ...);
  }
  template <class T>
  T value() {
    T result{};
    take(result);
    return result;
  }

 private:
  void put(std::int64_t value);
  void put(std::string_view value);
  void put_null();
  void put(int value) { put(std::int64_t{value}); }
  void put(bool value) { put(std::int64_t{value ? 1 : 0}); }
  void put(char const* value) { put(std::string_view(value)); }
  void put(std::string const& value) { put(std::string_view(value)); }
  void put(Date value) { put(std::string_view(date_text(value))); }
  void put(Money value);
  void put(Currency value) { value == Currency() ? put_null() : put(value.code()); }
  void put(Ratio value) { bind(value.num(), value.den()); }
  void put(MaterialId id) { put(id.value); }
  template <class T>
  void put(ZeroIsNull<T> id) {
    id.value == 0 ? put_null() : put(std::int64_t{id.value});
  }
  template <class Tag>
  void put(Quantity<Tag> value) {
    put(value.n);
  }
  template <class T>
  void put(std::optional<T> const& value) {
    static_assert(!std::is_same_v<T, Ratio>, "two places: wrap it in Pair");
    if (value)
      put(*value);
    else
      put_null();
  }
  template <class Optional>
  void put(Pair<Optional> pair) {
    if (pair.value) {
      put(*pair.value);
    } else {
      put_null();
      put_null();
    }
  }
  template <class T>
  void put(Millionths<T> number) {
    put(std::int64_t{std::llround(number.value * 1e6)});
  }
  void put(Goal const& goal);  // its word, and a ratio
  void put(SheetSize size) { bind(size.first, size.second); }
  void put(ThreadNumber thread) { bind(thread.number, thread.ply); }
  template <class T>
  requires std::is_enum_v<T>
  void put(T value) { put(word(value)); }

  bool null() const;
  std::int64_t integer();
  std::string_view text();  // until the next step
  void take(std::int64_t& value) { value = integer(); }
  void take(int& value);
  void take(bool& value) { value = integer() != 0; }
  void take(std::string& value) { value = text(); }
  void take(Date& value);
  void take(Money& value) { value = {integer(), connection_.currency}; }
  void take(Currency& value);
  void take(Ratio& value);
  void take(MaterialId& id) { id.value = integer(); }
  template <class T>
  void take(ZeroIsNull<T> const& id) {
    id.value = integer();
  }  // SQLite reads NULL as 0
  template <class Tag>
  void take(Quantity<Tag>& value) {
    value.n = integer();
  }
  template <class T>
  void take(std::optional<T>& value) {
    if (null()) {
      ++column_;
      value.reset();
    } else {
      take(value.emplace());
    }
  }
  template <class Optional>
  void take(Pair<Optional> const& pair) {
    if (null()) {
      column_ += 2;
      pair.value.reset();
    } else {
      take(pair.value.emplace());
    }
  }
  template <class T>
  void take(Millionths<T> const& number) {
    number.value = static_cast<double>(integer()) / 1e6;
  }
  void take(Goal& goal);
  void take(SheetSize& size) { read(size.first, size.second); }
  void take(ThreadNumber& thread) { read(thread.number, thread.ply); }
  template <class T>
  requires std::is_enum_v<T>
  void take(T& value) { value = from_word<T>(text()); }

  Connection& connection_;
  std::unique_ptr<Prepared> own_;  // when the same text is already running
  Prepared* prepared_;
  int bound_ = 0;
  int column_ = 0;
};

}  // namespace endband::db
