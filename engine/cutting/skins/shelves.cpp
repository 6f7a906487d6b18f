#include "engine/cutting/skins/shelves.h"

#include <algorithm>
#include <map>

namespace endband::cutting::skins {
namespace {

std::size_t index(std::int64_t value) { return static_cast<std::size_t>(value); }

struct Choice {
  int shape = 0;
  std::vector<int>* units = nullptr;  // still to lay, of the shape's kind
};

class Shelves {
 public:
  Shelves(Space const& space, Lines& lines, Layout& layout, std::vector<int> const& units)
      : space_{space}, lines_{lines}, layout_{layout} {
    for (int const unit : units)
      if (space.units[index(unit)].kinds.size() == 1)
        waiting_[space.units[index(unit)].kinds.front()].push_back(unit);
    for (auto& [kind, of_kind] : waiting_) {
      std::ranges::reverse(of_kind);
      for (int shape = space.kinds[index(kind)].first_shape; shape < space.kinds[index(kind)].last_shape;
           ++shape)
        choices_.push_back({shape, &of_kind});
    }
    std::ranges::stable_sort(choices_, [&](Choice const& a, Choice const& b) {
      return space.shapes[index(a.shape)].high > space.shapes[index(b.shape)].high;
    });
  }

  std::int64_t lay(std::int64_t most) {
    for (int bin = 0; bin < std::ssize(layout_.bins()) && work() < most; ++bin) fill(bin, most);
    return work();
  }

 private:
  std::int64_t work() const { return work_ + lines_.work(); }

  void fill(int bin, std::int64_t most) {
    Site const& site = space_.sites[index(layout_.sites()[index(bin)])];
    std::int64_t const slip = std::max<std::int64_t>(site.rows / 64, 1);
    for (std::int64_t y = 0; y <= site.rows && work() < most;) {
      std::erase_if(choices_, [](Choice const& choice) { return choice.units->empty(); });
      if (choices_.empty()) return;
      std::int64_t const high = shelf(bin, y);
      y += high > 0 ? high : slip;
    }
  }

  // One shelf from y up; its height, 0: nothing fits.
  std::int64_t shelf(int bin, std::int64_t y) {
    int const site = layout_.sites()[index(bin)];
    std::int64_t high = 0;
    std::vector<Free> laid;  // stretches of x that are taken
    for (Choice const& choice : choices_) {
      Shape const& shape = space_.shapes[index(choice.shape)];
      if (high > 0 && shape.high > high) continue;
      ++work_;
      if (choice.units->empty()) continue;
      std::span<Free const> const row = lines_.at(site, choice.shape, Axis::row, y);
      for (Free const& stretch : row) {
        std::int64_t x = stretch.low;
        while (!choice.units->empty() && x <= stretch.high) {
          ++work_;
          auto const hit = std::ranges::find_if(
              laid, [&](Free const& taken) { return taken.low < x + shape.wide && x < taken.high; });
          if (hit != laid.end()) {
            x = hit->high;
            continue;
          }
          put(bin, choice, shape, x, y);
          laid.push_back({static_cast<std::int32_t>(x), static_cast<std::int32_t>(x + shape.wide)});
          high = std::max(high, shape.high);
          x += shape.wide;
        }
      }
    }
    return high;
  }

  void put(int bin, Choice const& choice, Shape const& shape, std::int64_t x, std::int64_t y) {
    int const unit = choice.units->back();
    choice.units->pop_back();
    Site const& site = space_.sites[index(layout_.sites()[index(bin)])];
    layout_.put(bin, {unit, space_.units[index(unit)].pieces.front(), choice.shape, x, y, shape.wide,
                      shape.high, cells_under(space_, site, shape, x, y), shape.upright});
  }

  Space const& space_;
  Lines& lines_;
  Layout& layout_;
  std::map<int, std::vector<int>> waiting_;  // by kind
  std::vector<Choice> choices_;
  std::int64_t work_ = 0;
};

}  // namespace

std::int64_t lay_in_shelves(Space const& space, Lines& lines, Layout& layout, std::vector<int> const& units,
                            std::int64_t work) {
  std::int64_t const before = lines.work();
  return Shelves(space, lines, layout, units).lay(before + work) - before;
}

}  // namespace endband::cutting::skins
