// Values of ours as the three kinds that stand in the file: whole numbers, words, nothing. A ratio takes two
// places, all else one; enumerators travel as their stable words, dates as 'YYYY-MM-DD', money as minor units
// of the workshop's currency.
#pragma once

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

// Takes values in order; who derives from it says what becomes of each.
class Sink {
 public:
  explicit Sink(Currency const& currency) : currency_(currency) {}

  template <class... T>
  void take(T const&... values) {
    (put(values), ...);
  }

 protected:
  ~Sink() = default;
  Sink(Sink const&) = default;
  Sink& operator=(Sink const&) = delete;

 private:
  virtual void put_integer(std::int64_t value) = 0;
  virtual void put_text(std::string_view value) = 0;
  virtual void put_null() = 0;

  void put(std::int64_t value) { put_integer(value); }
  void put(int value) { put_integer(value); }
  void put(bool value) { put_integer(value ? 1 : 0); }
  void put(std::string_view value) { put_text(value); }
  void put(char const* value) { put_text(value); }
  void put(std::string const& value) { put_text(value); }
  void put(Date value) { put_text(date_text(value)); }
  void put(Money value);  // std::logic_error when it is not the workshop's currency
  void put(Currency value) { value == Currency() ? put_null() : put_text(value.code()); }
  void put(Ratio value) { take(value.num(), value.den()); }
  void put(MaterialId id) { put_integer(id.value); }
  void put(SheetSize size) { take(size.first, size.second); }
  void put(ThreadNumber thread) { take(thread.number, thread.ply); }
  void put(Goal const& goal);  // its word, and a ratio
  template <class T>
  void put(ZeroIsNull<T> id) {
    id.value == 0 ? put_null() : put_integer(id.value);
  }
  template <class T>
  void put(Millionths<T> number) {
    put_integer(std::llround(number.value * 1e6));
  }
  template <class Tag>
  void put(Quantity<Tag> value) {
    put_integer(value.n);
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
  requires std::is_enum_v<T>
  void put(T value) { put_text(word(value)); }

  Currency const& currency_;
};

}  // namespace endband::db
