// What fits where: whether a shape can lie anywhere in a skin, with proof, and how much of a skin is usable.
// All polygons are simple, all lengths whole micrometres.
#pragma once

#include "engine/cutting/geometry/geometry.h"

#include <cstdint>
#include <span>
#include <vector>

namespace endband::cutting {

// Where a shape may lie: within the outline, over no flaw, over no zone that is too poor. Touching edges are
// allowed; a margin counts from the outline and from flaws, not from zones. Flaws and zones may reach over
// the outline.
// Where only zones are good enough, what lies in none cannot be said here; without it `nowhere` is still
// proved. Refers to the polygons: no longer than they last.
struct Ground {
  Polygon const& outline;
  std::span<Polygon const> flaws;
  std::span<Polygon const> poor = {};
};

// The shape's edge is wholly in the outline and off the inside of flaws and poor zones.
bool within_but_for(Polygon const& shape, Ground const& ground);
// And at least `margin` from the outline's edge and from every flaw, straight across.
bool within_but_for(Polygon const& shape, Ground const& ground, std::int64_t margin);

enum class Fits : std::uint8_t {
  nowhere,    // proved: at no whole micrometre, at this angle
  somewhere,  // at `at`
  unsure,  // only with a margin: it fits if the margin is taken 2 % and 2 um smaller; none was found as it is
};
struct Fit {
  Fits fits = Fits::nowhere;
  Point at;  // where the lower left corner of the shape's box lies
};
// The lowest, and of these the leftmost place of a shape as it is turned now, anywhere on whole micrometres.
// Without a margin the answer is exact; with one `somewhere` holds exactly, but a place up to 2 % of the
// margin and 2 um lower may be missed. Other pieces already laid may be given among the flaws.
//
// How: an edge e of the ground forbids to each convex part P of the shape the inside of the convex polygon e
// + (-P) (Minkowski sum; Lozano-Perez 1983). What is left of the sides of all these polygons is found in
// exact rationals; only at its ends can the free positions of a row change their kind, so only rows beside
// those are searched, and between them a free stretch runs between the same two lines. Time about n^2 log n
// in n = edges of the ground x sides of the parts.
Fit fits_somewhere(Ground const& ground, Polygon const& shape, std::int64_t margin);
Fit fits_somewhere(Ground const& ground, std::int64_t width, std::int64_t height, std::int64_t margin);

// Twice the area of the outline less the union of what is taken away, rounded down to a whole square
// micrometre (what is within 1/256 of a whole one counts as whole). The parts of each edge that bound what is
// left are found in exact rationals and summed in 2^-68 parts, so the same on every machine.
std::int64_t twice_usable(Polygon const& outline, std::span<Polygon const> away);
// Twice the usable area of at least this grade; `grade` of what lies in no zone, and where zones overlap the
// poorest counts.
std::int64_t twice_usable(Polygon const& outline, std::span<Polygon const> flaws, std::span<Zone const> zones,
                          int grade, int least_grade);

}  // namespace endband::cutting
