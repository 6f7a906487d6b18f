// Points and polygons in whole micrometres, |coordinate| <= 10 m: areas and products are exact in 64 and 128
// bits. A polygon is simple, its last corner joined to its first, either way round.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace endband::cutting {

struct Point {
  std::int64_t x = 0, y = 0;
  friend auto operator<=>(Point const&, Point const&) = default;
};
using Polygon = std::vector<Point>;
struct Zone {  // of a skin
  Polygon polygon;
  int grade = 0;
  friend bool operator==(Zone const&, Zone const&) = default;
};
struct Box {
  std::int64_t left = 0, bottom = 0, right = 0, top = 0;
};

// Twice the area within, never negative.
std::int64_t twice_area(Polygon const& polygon);
Box box_of(Polygon const& polygon);
// The first two edges that cross, touch or overlap without being neighbours, or neighbours that fold back; by
// the index of their first corner. nullopt: simple.
struct Crossing {
  int first = 0, second = 0;
};
std::optional<Crossing> crossing(Polygon const& polygon);
enum class Place : std::uint8_t { outside, on_edge, inside };
Place place_of(Point point, Polygon const& polygon);
// `inner` lies wholly within `outer`; edges may touch.
bool within(Polygon const& inner, Polygon const& outer);
// The interiors have a point in common; touching edges are none.
bool overlap(Polygon const& one, Polygon const& other);

// The polygon turned by whole degrees, anticlockwise, each corner rounded half away to a micrometre (by
// quarter turns exact), then moved so that its box begins at (0, 0).
Polygon turned(Polygon const& polygon, int degrees);
Polygon moved(Polygon polygon, Point by);
Polygon rectangle(std::int64_t width, std::int64_t height);  // its lower left corner at (0, 0)

}  // namespace endband::cutting
