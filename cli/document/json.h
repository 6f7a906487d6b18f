// A JSON value with its keys in the order they were given. The library that writes it stays in json.cpp.
#pragma once

#include "engine/measure/measure.h"
#include "engine/money/money.h"

#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace endband::cli {

class Json {
 public:
  using Array = std::vector<Json>;
  using Object = std::vector<std::pair<std::string, Json>>;

  // What a value may be made of is written as it is: {"pages", 300}.
  Json();
  Json(std::nullptr_t);
  Json(bool value);
  Json(int value);
  Json(std::int64_t value);
  Json(char const* value);
  Json(std::string_view value);
  Json(std::string value);
  Json(Array value);
  Json(Object value);
  Json(Json const&);
  Json(Json&&) noexcept;
  Json& operator=(Json const&);
  Json& operator=(Json&&) noexcept;
  ~Json();
  template <class T>
  Json(std::optional<T> const& value) : Json(value ? Json(*value) : Json()) {}

  std::variant<std::nullptr_t, bool, std::int64_t, std::string, Array, Object> const& value() const {
    return value_;
  }

 private:
  std::variant<std::nullptr_t, bool, std::int64_t, std::string, Array, Object> value_{nullptr};
};

template <class Range, class F>
Json::Array json_array(Range const& range, F&& to_json) {
  Json::Array array;
  for (auto const& each : range) array.push_back(to_json(each));
  return array;
}
Json::Array json_words(std::vector<std::string> const& words);

Json money_json(Money money);                        // {"amount":"12.50","currency":"EUR"}
Json money_json(std::optional<Money> const& money);  // or null
Json ratio_json(Ratio ratio);                        // "7/20", exact
Json amount_json(Amount amount);                     // {"area_um2": 62000}: the name says the unit

// indented: two spaces, for a document; else one line, for JSON Lines. Ends with a line feed.
std::string json_text(Json const& json, bool indented);

}  // namespace endband::cli
