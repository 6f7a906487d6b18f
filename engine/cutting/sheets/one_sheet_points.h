// Normal positions: the lengths that pieces side by side can add up to (Herz 1972; Christofides and Whitlock
// 1977). No cut need be made anywhere else.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace endband::cutting::one_sheet {

struct Lengths {  // of one kind of piece along an axis
  std::int64_t size = 0, copies = 0;
};

class Points {
 public:
  Points() : Points({}, 0, 1) {}
  // 0, `limit` and what lies between them; thinned to about `most` where there are more. Where copies are
  // plenty, of the points beyond the middle only those stay that are left of the whole beside one before the
  // middle: what is parted off can be taken to be the smaller part each time (raster points; Scheithauer
  // 1997).
  enum class Kind : std::uint8_t { all, halved };
  Points(std::vector<Lengths> const& lengths, std::int64_t limit, std::size_t most, Kind kind = Kind::all);

  std::size_t count() const { return at_.size(); }
  std::int64_t operator[](std::size_t index) const { return at_[index]; }
  std::int64_t limit() const { return at_.back(); }
  bool complete() const { return complete_; }
  // Index of the last point not beyond `length`, which lies within 0 and the limit.
  std::size_t below(std::int64_t length) const {
    std::size_t index = start_[static_cast<std::size_t>(length >> shift_)];
    while (index + 1 < at_.size() && at_[index + 1] <= length) ++index;
    return index;
  }
  // The first point not short of it: of a sum of the lengths, as large a part as leaves no less beside it.
  std::size_t above(std::int64_t length) const {
    std::size_t const index = below(length);
    return at_[index] < length ? index + 1 : index;
  }
  // below((*this)[whole] - (*this)[part]), part <= whole.
  std::size_t rest(std::size_t whole, std::size_t part) const { return rest_[whole * at_.size() + part]; }
  // The same, but no block beside the part is wider: beyond the middle not every length has its point.
  std::size_t beside(std::size_t whole, std::size_t part) const {
    std::size_t const left = rest(whole, part);
    std::int64_t const length = at_[whole] - at_[part];
    return halved_ && length > limit() / 2 && at_[left] < length ? left + 1 : left;
  }
  std::uint16_t const* rests(std::size_t whole) const { return &rest_[whole * at_.size()]; }
  // The parts 1 ... half_end - 1 are at most half of the whole.
  std::size_t half_end(std::size_t whole) const { return below(at_[whole] / 2) + 1; }

 private:
  void thin(std::size_t most);
  void halve(std::int64_t limit);
  void index();

  std::vector<std::int64_t> at_;
  std::vector<std::uint16_t> rest_;
  std::vector<std::uint16_t> start_;
  int shift_ = 0;
  bool complete_ = true, halved_ = false;
};

// The points of both axes, of lengths shifted right: a piece then only becomes smaller beside its sheet, so
// that what is computed on shifted points is never too low.
struct Grid {
  Points xs, ys;
  int shift_x = 0, shift_y = 0;

  // The part that stands for a block.
  std::size_t x(std::int64_t width) const { return xs.above(width >> shift_x); }
  std::size_t y(std::int64_t height) const { return ys.above(height >> shift_y); }
  std::size_t cells() const { return xs.count() * ys.count(); }
  bool exact() const { return shift_x == 0 && shift_y == 0 && xs.complete() && ys.complete(); }
};

}  // namespace endband::cutting::one_sheet
