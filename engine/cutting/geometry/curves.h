// Curves of a drawing as chords. Only + - * / and square roots, which every machine rounds alike.
#pragma once

#include <vector>

namespace endband::cutting::drawing {

struct Spot {
  double x = 0, y = 0;
};

// Each appends the corners after `from` up to and with the end; no chord is further than `tolerance` from its
// curve.
void add_quadratic(Spot from, Spot control, Spot to, double tolerance, std::vector<Spot>& corners);
void add_cubic(Spot from, Spot first, Spot second, Spot to, double tolerance, std::vector<Spot>& corners);

struct Arc {
  double x_radius = 0, y_radius = 0;
  double turned = 0;  // degrees, from the x axis towards the y axis
  bool large = false, sweep = false;
};
// SVG 1.1, F.6: radii that are too small grow, a radius of 0 is a line, equal ends are nothing.
void add_arc(Spot from, Arc arc, Spot to, double tolerance, std::vector<Spot>& corners);

}  // namespace endband::cutting::drawing
