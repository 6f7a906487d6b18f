// The strongest value of every key, out of layers of descriptions. Private to engine/book.
#pragma once

#include "engine/book/keys.h"

#include <array>
#include <span>
#include <string_view>
#include <vector>

namespace endband {

struct Hit {
  Entry const* entry = nullptr;
  Origin origin = Origin::none;
  std::size_t layer = 0;  // 0 is the strongest
  explicit operator bool() const { return entry != nullptr; }
};

struct Row {  // one [[table]]
  Where where;
  std::vector<std::pair<std::size_t, Entry const*>> cells;
  Entry const* find(std::size_t key_index) const;
};
struct Rows {  // those of the strongest layer that has any: a list that is said takes the place of the
               // model's
  Origin origin = Origin::none;
  std::vector<Row> rows;
};

class Layers {
 public:
  explicit Layers(std::span<Layer const> layers);

  Hit const& operator[](std::size_t key_index) const { return hits_[key_index]; }
  void drop(std::size_t key_index) { hits_[key_index] = {}; }
  Rows const& rows(std::string_view table) const;  // "lines"
  bool flag(std::size_t key_index) const;          // false when nobody says
  // Does the description or its model say anything in this table: "strap".
  bool asked_for(std::string_view table) const;
  std::vector<Hit> all(std::size_t key_index) const;  // of every layer, strongest first
  std::string const& source() const { return source_; }

 private:
  std::span<Layer const> layers_;
  std::string source_;  // the name of the description
  std::array<Hit, key_count> hits_{};
  std::vector<std::pair<std::string_view, Rows>> rows_;

  void take(Layer const& layer, std::size_t index);
  void take_rows(Layer const& layer);
};

}  // namespace endband
