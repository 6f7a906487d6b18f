// A search that tries every cut, for sheets of a few units.
#pragma once

#include "engine/cutting/sheets/sheets.h"

#include <algorithm>
#include <bitset>
#include <map>
#include <utility>
#include <vector>

namespace endband::cutting {

// Which counts of pieces can be cut from each size: every cut at every whole position, sets of counts joined.
// A set of counts is a number of base `copies + 1`.
class EveryCut {
 public:
  EveryCut(std::vector<ValuedRect> const& pieces, std::int64_t kerf) : pieces_(pieces), kerf_(kerf) {}

  std::int64_t best(std::int64_t width, std::int64_t height) {
    Set const& set = counts(width, height);
    std::int64_t most = 0;
    for (std::size_t code = 0; code < set.size(); ++code)
      if (set.test(code)) most = std::max(most, value(code));
    return most;
  }
  // Whether all copies of all pieces can be cut from the size.
  bool all(std::int64_t width, std::int64_t height) {
    std::size_t code = 0, unit = 1;
    for (ValuedRect const& piece : pieces_) {
      code += static_cast<std::size_t>(piece.rect.copies) * unit;
      unit *= static_cast<std::size_t>(piece.rect.copies) + 1;
    }
    return counts(width, height).test(code);
  }

 private:
  using Set = std::bitset<256>;

  std::int64_t value(std::size_t code) const {
    std::int64_t sum = 0;
    for (ValuedRect const& piece : pieces_) {
      auto const base = static_cast<std::size_t>(piece.rect.copies) + 1;
      sum += piece.value * static_cast<std::int64_t>(code % base);
      code /= base;
    }
    return sum;
  }

  // Both together, or -1 where that is more than the copies.
  int sum(std::size_t a, std::size_t b) const {
    std::size_t code = 0, unit = 1;
    for (ValuedRect const& piece : pieces_) {
      auto const base = static_cast<std::size_t>(piece.rect.copies) + 1;
      std::size_t const both = a % base + b % base;
      if (both >= base) return -1;
      code += both * unit;
      unit *= base;
      a /= base;
      b /= base;
    }
    return static_cast<int>(code);
  }

  Set const& counts(std::int64_t width, std::int64_t height) {
    auto const [place, fresh] = sets_.try_emplace({width, height});
    if (!fresh) return place->second;
    Set set;
    set.set(0);
    std::size_t unit = 1;
    for (ValuedRect const& piece : pieces_) {
      Rect const& rect = piece.rect;
      if (rect.copies > 0 && ((rect.width == width && rect.height == height) ||
                              (rect.turns && rect.height == width && rect.width == height)))
        set.set(unit);
      unit *= static_cast<std::size_t>(rect.copies) + 1;
    }
    for (std::int64_t at = 1; at < width; ++at)
      join(set, counts(at, height), rest(width - at - kerf_, height));
    for (std::int64_t at = 1; at < height; ++at)
      join(set, counts(width, at), rest(width, height - at - kerf_));
    return sets_[{width, height}] = set;
  }
  Set rest(std::int64_t width, std::int64_t height) {
    if (width > 0 && height > 0) return counts(width, height);
    return Set{1};
  }
  void join(Set& into, Set const& a, Set const& b) const {
    for (std::size_t i = 0; i < a.size(); ++i)
      for (std::size_t k = 0; a.test(i) && k < b.size(); ++k)
        if (b.test(k))
          if (int const code = sum(i, k); code >= 0) into.set(static_cast<std::size_t>(code));
  }

  std::vector<ValuedRect> const& pieces_;
  std::int64_t kerf_;
  std::map<std::pair<std::int64_t, std::int64_t>, Set> sets_;
};

}  // namespace endband::cutting
