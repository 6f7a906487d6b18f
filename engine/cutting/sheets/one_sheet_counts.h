// How many of each want, packed into words: a field and a guard bit for each, so that two counts are added,
// and held against the copies, in a few operations.
#pragma once

#include "engine/cutting/sheets/one_sheet.h"

#include <bit>

namespace endband::cutting::one_sheet {

using Word = std::uint64_t;

class Packing {
 public:
  explicit Packing(std::vector<Want> const& wants) {
    int used = 64;
    for (Want const& want : wants) {
      auto const bits = static_cast<int>(std::bit_width(static_cast<Word>(want.copies)));
      if (used + bits + 1 > 64) {
        used = 0;
        slack_.push_back(0);
        guard_.push_back(0);
      }
      fields_.push_back({slack_.size() - 1, used, want.copies});
      slack_.back() |= ((Word{1} << bits) - 1 - static_cast<Word>(want.copies)) << used;
      guard_.back() |= Word{1} << (used + bits);
      ends_.push_back(used + bits);
      used += bits + 1;
    }
  }

  std::size_t words() const { return slack_.size(); }
  Word one(std::size_t want) const { return Word{1} << fields_[want].shift; }
  std::size_t word_of(std::size_t want) const { return fields_[want].word; }
  std::int64_t count(Word const* counts, std::size_t want) const {
    Word const mask = (Word{1} << (ends_[want] - fields_[want].shift)) - 1;
    return static_cast<std::int64_t>((counts[fields_[want].word] >> fields_[want].shift) & mask);
  }
  // Whether both together keep to the copies.
  bool fit(Word const* a, Word const* b) const {
    Word over = 0;
    for (std::size_t i = 0; i < words(); ++i) over |= (a[i] + b[i] + slack_[i]) & guard_[i];
    return over == 0;
  }
  void add(Word* to, Word const* from) const {
    for (std::size_t i = 0; i < words(); ++i) to[i] += from[i];
  }
  // The value of what both together have too much.
  std::int64_t excess(Word const* a, Word const* b, std::vector<std::int64_t> const& values) const {
    std::int64_t sum = 0;
    for (std::size_t want = 0; want < fields_.size(); ++want) {
      std::int64_t const over = count(a, want) + count(b, want) - fields_[want].copies;
      if (over > 0) sum += over * values[want];
    }
    return sum;
  }
  // Adds as far as the copies go.
  void add_capped(Word* to, Word const* from) const {
    for (std::size_t want = 0; want < fields_.size(); ++want) {
      std::int64_t const room = fields_[want].copies - count(to, want), more = count(from, want);
      to[fields_[want].word] += static_cast<Word>(more < room ? more : room) << fields_[want].shift;
    }
  }

 private:
  struct Field {
    std::size_t word;
    int shift;
    std::int64_t copies;
  };
  std::vector<Field> fields_;
  std::vector<int> ends_;  // of each field: its guard bit
  std::vector<Word> slack_, guard_;
};

}  // namespace endband::cutting::one_sheet
