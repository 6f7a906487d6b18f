// A whole plan cut out again: demand, stock, what is kept and what it costs, by the words of sheets.h alone.
#pragma once

#include "engine/cutting/sheets/sheets.h"

#include <algorithm>
#include <string>
#include <vector>

namespace endband::cutting {

class PlanReplay {
 public:
  PlanReplay(SheetRequest const& request, Answer<CutSheet> const& answer)
      : request_(request), answer_(answer) {}

  // Empty: the plan is right.
  std::string fault() {
    std::vector<std::int64_t> used(request_.sheets.size());
    counts_.assign(request_.pieces.size(), 0);
    for (CutSheet const& cut : answer_.used) {
      ++used.at(index(cut.sheet));
      if (std::string found = one(cut); !found.empty()) return found;
    }
    for (std::size_t i = 0; i < counts_.size(); ++i)
      if (counts_[i] != request_.pieces[i].copies) return "demand";
    for (std::size_t i = 0; i < used.size(); ++i)
      if (request_.sheets[i].copies && used[i] > *request_.sheets[i].copies) return "stock";
    if (cost_ != answer_.proof.cost) return "cost";
    return answer_.proof.bound > cost_ ? "bound" : "";
  }
  std::int64_t largest_kept() const { return largest_kept_; }

 private:
  struct Part {
    std::int64_t x = 0, y = 0, width = 0, height = 0;
    bool there = true;  // not parted, not used
  };
  static std::size_t index(std::int64_t i) { return static_cast<std::size_t>(i); }

  std::string one(CutSheet const& cut) {
    Sheet const& sheet = request_.sheets[index(cut.sheet)];
    std::int64_t const trim = request_.trim;
    if (sheet.by_length ? cut.length <= 0 || cut.length > sheet.height : cut.length != 0) return "length";
    std::vector<Part> parts{{trim, sheet.by_length ? 0 : trim, sheet.width - 2 * trim,
                             sheet.by_length ? cut.length : sheet.height - 2 * trim}};
    for (Cut const& c : cut.cuts) {
      if (c.part < 0 || index(c.part) >= parts.size() || !parts[index(c.part)].there) return "cut of no part";
      Part const whole = parts[index(c.part)];
      parts[index(c.part)].there = false;
      std::int64_t const side = c.across ? whole.height : whole.width, rest = side - c.at - request_.kerf;
      if (c.at <= 0 || c.at >= side) return "cut outside";
      Part first = whole, second = whole;
      (c.across ? first.height : first.width) = c.at;
      (c.across ? second.height : second.width) = rest;
      (c.across ? second.y : second.x) += c.at + request_.kerf;
      second.there = rest > 0;
      parts.push_back(first);
      parts.push_back(second);
    }
    auto const use = [&](int part, std::int64_t x, std::int64_t y, std::int64_t width, std::int64_t height) {
      if (part < 0 || index(part) >= parts.size() || !parts[index(part)].there) return false;
      Part& p = parts[index(part)];
      p.there = false;
      return p.x == x && p.y == y && p.width == width && p.height == height;
    };
    for (Laid const& laid : cut.laid) {
      Rect const& piece = request_.pieces.at(index(laid.piece));
      ++counts_[index(laid.piece)];
      if (laid.turned && !piece.turns) return "grain";
      if (!use(laid.part, laid.x, laid.y, laid.turned ? piece.height : piece.width,
               laid.turned ? piece.width : piece.height))
        return "laid";
    }
    if (sheet.by_length && !cut.kept.empty()) return "kept of a roll";
    cost_ += sheet.by_length ? (sheet.cost * cut.length + sheet.height - 1) / sheet.height : sheet.cost;
    for (Offcut const& kept : cut.kept) {
      if (request_.least_kept == 0 || std::min(kept.width, kept.height) < request_.least_kept)
        return "kept small";
      if (!use(kept.part, kept.x, kept.y, kept.width, kept.height)) return "kept";
      largest_kept_ = std::max(largest_kept_, kept.width * kept.height);
      cost_ -= sheet.cost * request_.worth.num * kept.width * kept.height /
               (request_.worth.den * sheet.width * sheet.height);
    }
    return "";
  }

  SheetRequest const& request_;
  Answer<CutSheet> const& answer_;
  std::vector<std::int64_t> counts_;
  std::int64_t cost_ = 0;
  std::int64_t largest_kept_ = 0;
};

}  // namespace endband::cutting
