// Quantities as text.
#include "engine/measure/measure.h"
#include "engine/money/numeral.h"

#include <algorithm>

namespace endband {
namespace {

constexpr int figures = 3;

std::string without_zeros(std::string text) {
  if (text.find('.') == std::string::npos) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

// The shortest decimal that the readers take: "1.234" would be asked back as 1234 or 1.234, "1.2340" not.
std::string exact(std::int64_t n, int decimals) {
  std::string text = without_zeros(decimal_text(n, decimals));
  if (read_numeral(text)->ambiguous) text += '0';
  return text;
}

// n / 10^decimals to three figures, or to a whole number if that has more; half away from zero.
std::string three_figures(std::int64_t n, int decimals) {
  std::string const digits = std::to_string(n);
  int const count = static_cast<int>(digits.size()) - (n < 0 ? 1 : 0);
  int const dropped = std::clamp(count - figures, 0, decimals);
  std::int64_t step = 1;
  for (int i = 0; i < dropped; ++i) step *= 10;
  return without_zeros(decimal_text(mul_div(n, 1, step, Rounding::half_away), decimals - dropped));
}

struct Shown {
  int decimals;  // one unit is 10^decimals of the whole unit
  std::string_view unit;
};

// In the larger unit from one of it on.
std::string in_either(std::int64_t n, Shown small, Shown large) {
  std::int64_t one = 1;
  for (int i = 0; i < large.decimals; ++i) one *= 10;
  Shown const& shown = n >= one || n <= -one ? large : small;
  return three_figures(n, shown.decimals) + std::string(shown.unit);
}

}  // namespace

std::string length_mm(Length q) { return exact(q.n, 3); }

std::string area_cm2(Area q) { return exact(q.n, 8); }

std::string amount_text(Amount q) {
  switch (q.dimension) {
    case Dimension::length: return in_either(q.n, {3, " mm"}, {6, " m"});
    case Dimension::area: return in_either(q.n, {8, " cm2"}, {12, " m2"});
    case Dimension::mass: return in_either(q.n, {3, " g"}, {6, " kg"});
    case Dimension::volume: return in_either(q.n, {3, " ml"}, {6, " l"});
    case Dimension::count: return three_figures(q.n, 3);
    case Dimension::duration: return duration_text({q.n});
  }
  return {};
}

}  // namespace endband
