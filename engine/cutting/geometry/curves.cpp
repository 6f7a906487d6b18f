#include "engine/cutting/geometry/curves.h"

#include <algorithm>
#include <cmath>

namespace endband::cutting::drawing {

namespace {

Spot operator+(Spot a, Spot b) { return {a.x + b.x, a.y + b.y}; }
Spot operator-(Spot a, Spot b) { return {a.x - b.x, a.y - b.y}; }
Spot operator*(double by, Spot a) { return {by * a.x, by * a.y}; }
double length(Spot a) { return std::sqrt(a.x * a.x + a.y * a.y); }

constexpr int most_chords = 2000;

// A chord over 1/n of a curve is at most max |second derivative| / (8 n^2) away from it.
int chords(double second_derivative, double tolerance) {
  double const wanted = std::sqrt(second_derivative / (8 * tolerance));
  return wanted < most_chords ? std::max(1, static_cast<int>(wanted) + 1) : most_chords;
}

Spot sine_and_cosine(double degrees) {  // x: cosine, y: sine
  double const in_turn = std::fmod(degrees, 360.0);
  double const quarter = std::floor(in_turn / 90 + 0.5);
  double const angle = (in_turn - 90 * quarter) * (3.14159265358979323846 / 180);
  double sine = angle, cosine = 1, sine_term = angle, cosine_term = 1;
  for (int k = 2; k <= 20; k += 2) {
    cosine_term *= -angle * angle / (k * (k - 1));
    sine_term *= -angle * angle / (k * (k + 1));
    cosine += cosine_term;
    sine += sine_term;
  }
  switch ((static_cast<int>(quarter) % 4 + 4) % 4) {
    case 0: return {cosine, sine};
    case 1: return {-sine, cosine};
    case 2: return {-cosine, -sine};
    default: return {sine, -cosine};
  }
}

struct Ellipse {
  Spot centre;
  double x_radius, y_radius;
  Spot axis;  // the direction of its x axis
  Spot at(Spot unit) const {
    Spot const flat{x_radius * unit.x, y_radius * unit.y};
    return centre + Spot{axis.x * flat.x - axis.y * flat.y, axis.y * flat.x + axis.x * flat.y};
  }
};

Spot middle_of(Spot from, Spot to, bool sweep, bool large) {
  Spot const sum = from + to;
  double const size = length(sum);
  if (size < 1e-6) return sweep ? Spot{-from.y, from.x} : Spot{from.y, -from.x};
  return (large ? -1 / size : 1 / size) * sum;
}

// `from` and `to` on the unit circle, less than half a turn apart.
void add_between(Ellipse const& ellipse, Spot from, Spot to, bool sweep, double tolerance, int depth,
                 std::vector<Spot>& corners) {
  double const sagitta = (1 - length(from + to) / 2) * std::max(ellipse.x_radius, ellipse.y_radius);
  if (sagitta <= tolerance || depth == 0) {
    corners.push_back(ellipse.at(to));
    return;
  }
  Spot const middle = middle_of(from, to, sweep, false);
  add_between(ellipse, from, middle, sweep, tolerance, depth - 1, corners);
  add_between(ellipse, middle, to, sweep, tolerance, depth - 1, corners);
}

}  // namespace

void add_quadratic(Spot from, Spot control, Spot to, double tolerance, std::vector<Spot>& corners) {
  int const count = chords(2 * length(from - 2 * control + to), tolerance);
  for (int i = 1; i < count; ++i) {
    double const t = static_cast<double>(i) / count, s = 1 - t;
    corners.push_back(s * s * from + 2 * s * t * control + t * t * to);
  }
  corners.push_back(to);
}

void add_cubic(Spot from, Spot first, Spot second, Spot to, double tolerance, std::vector<Spot>& corners) {
  double const bend = std::max(length(from - 2 * first + second), length(first - 2 * second + to));
  int const count = chords(6 * bend, tolerance);
  for (int i = 1; i < count; ++i) {
    double const t = static_cast<double>(i) / count, s = 1 - t;
    corners.push_back(s * s * s * from + 3 * s * s * t * first + 3 * s * t * t * second + t * t * t * to);
  }
  corners.push_back(to);
}

void add_arc(Spot from, Arc arc, Spot to, double tolerance, std::vector<Spot>& corners) {
  if (from.x == to.x && from.y == to.y) return;
  double x_radius = std::fabs(arc.x_radius), y_radius = std::fabs(arc.y_radius);
  Spot const axis = sine_and_cosine(arc.turned);
  Spot const half = 0.5 * (from - to);
  Spot const flat{axis.x * half.x + axis.y * half.y, axis.x * half.y - axis.y * half.x};
  if (x_radius == 0 || y_radius == 0) {
    corners.push_back(to);
    return;
  }
  double const reach = length({flat.x / x_radius, flat.y / y_radius});  // F.6.6
  if (reach > 1) {
    x_radius *= reach;
    y_radius *= reach;
  }
  // On the unit circle the ends are centre +- unit; the centre lies across at what is left of the radius
  // (F.6.5).
  Spot const unit{flat.x / x_radius, flat.y / y_radius};
  double const across = unit.x * unit.x + unit.y * unit.y;
  double const size = across < 1 ? std::sqrt((1 - across) / across) : 0;
  Spot const centre = (arc.large == arc.sweep ? -size : size) * Spot{unit.y, -unit.x};
  Spot const flat_centre{x_radius * centre.x, y_radius * centre.y};
  Ellipse const ellipse{0.5 * (from + to) + Spot{axis.x * flat_centre.x - axis.y * flat_centre.y,
                                                 axis.y * flat_centre.x + axis.x * flat_centre.y},
                        x_radius, y_radius, axis};
  Spot const begin = unit - centre, end = Spot{} - unit - centre;
  Spot const middle = middle_of(begin, end, arc.sweep, arc.large);
  constexpr int depth = 11;
  add_between(ellipse, begin, middle, arc.sweep, tolerance, depth, corners);
  add_between(ellipse, middle, end, arc.sweep, tolerance, depth, corners);
  corners.back() = to;
}

}  // namespace endband::cutting::drawing
