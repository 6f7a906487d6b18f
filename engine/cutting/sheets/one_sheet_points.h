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
  // 0, `limit` and what lies between them; thinned to about `most` where there are more.
  Points(std::vector<Lengths> const& lengths, std::int64_t limit, std::size_t most);

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
  // below((*this)[whole] - (*this)[part]), part <= whole.
  std::size_t rest(std::size_t whole, std::size_t part) const { return rest_[whole * at_.size() + part]; }
  std::uint16_t const* rests(std::size_t whole) const { return &rest_[whole * at_.size()]; }
  // The parts 1 ... half_end - 1 are at most half of the whole.
  std::size_t half_end(std::size_t whole) const { return below(at_[whole] / 2) + 1; }

 private:
  void thin(std::size_t most);
  void index();

  std::vector<std::int64_t> at_;
  std::vector<std::uint16_t> rest_;
  std::vector<std::uint16_t> start_;
  int shift_ = 0;
  bool complete_ = true;
};

// The points of both axes, of lengths shifted right: a piece then only becomes smaller beside its sheet, so
// that what is computed on shifted points is never too low.
struct Grid {
  Points xs, ys;
  int shift_x = 0, shift_y = 0;

  std::size_t x(std::int64_t width) const { return xs.below(width >> shift_x); }
  std::size_t y(std::int64_t height) const { return ys.below(height >> shift_y); }
  std::size_t cells() const { return xs.count() * ys.count(); }
  bool exact() const { return shift_x == 0 && shift_y == 0 && xs.complete() && ys.complete(); }
};

}  // namespace endband::cutting::one_sheet
