#include "engine/cutting/check/sides.h"

#include <algorithm>
#include <optional>

namespace endband::cutting {
namespace {

__extension__ using Wide = __int128;
constexpr int fine = 62;  // bits of a place along an edge

struct Edge {
  Point from, to;
  std::int64_t dx() const { return to.x - from.x; }
  std::int64_t dy() const { return to.y - from.y; }
};
Edge edge_of(Polygon const& polygon, std::size_t i) {
  return {polygon[i], polygon[i + 1 == polygon.size() ? 0 : i + 1]};
}

std::int64_t cross(std::int64_t ax, std::int64_t ay, std::int64_t bx, std::int64_t by) {
  return ax * by - ay * bx;
}
std::int64_t cross(Edge const& a, Edge const& b) { return cross(a.dx(), a.dy(), b.dx(), b.dy()); }
std::int64_t dot(Edge const& a, Edge const& b) { return a.dx() * b.dx() + a.dy() * b.dy(); }

bool anticlockwise(Polygon const& polygon) {
  std::int64_t sum = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    Edge const edge = edge_of(polygon, i);
    sum += cross(edge.from.x, edge.from.y, edge.to.x, edge.to.y);
  }
  return sum > 0;
}

struct Spot {  // along an edge: num / den, den > 0, from 0 to 1
  std::int64_t num = 0, den = 1;
  friend bool operator<(Spot a, Spot b) { return Wide{a.num} * b.den < Wide{b.num} * a.den; }
  friend bool operator==(Spot a, Spot b) { return Wide{a.num} * b.den == Wide{b.num} * a.den; }
  Wide fixed() const { return (Wide{num} << fine) / den; }
};

void add_place(std::vector<Spot>& places, std::int64_t num, std::int64_t den) {
  if (den < 0) num = -num, den = -den;
  if (num > 0 && num < den) places.push_back({num, den});
}

bool boxes_apart(Edge const& a, Edge const& b) {
  return std::max(a.from.x, a.to.x) < std::min(b.from.x, b.to.x) ||
         std::max(b.from.x, b.to.x) < std::min(a.from.x, a.to.x) ||
         std::max(a.from.y, a.to.y) < std::min(b.from.y, b.to.y) ||
         std::max(b.from.y, b.to.y) < std::min(a.from.y, a.to.y);
}

// Where `edge` meets `other`, without its ends.
void add_places(std::vector<Spot>& places, Edge const& edge, Edge const& other) {
  if (boxes_apart(edge, other)) return;
  Edge const gap{edge.from, other.from};
  if (std::int64_t const turn = cross(edge, other); turn != 0) {
    std::int64_t const along = cross(gap, edge);  // / turn: where on `other`
    bool const meets = turn > 0 ? along >= 0 && along <= turn : along <= 0 && along >= turn;
    if (meets) add_place(places, cross(gap, other), turn);
  } else if (cross(edge, gap) == 0) {
    add_place(places, dot(gap, edge), dot(edge, edge));
    add_place(places, dot({edge.from, other.to}, edge), dot(edge, edge));
  }
}

struct FinePoint {  // in units of 2^-62 micrometres
  Wide x = 0, y = 0;
};

// 0: not on the edge; else 1 or -1, as the edge runs with `along` or against it.
int on_edge(FinePoint point, Edge const& edge, Edge const& along) {
  if (cross(edge, along) != 0) return 0;
  Wide const px = point.x - (Wide{edge.from.x} << fine);
  Wide const py = point.y - (Wide{edge.from.y} << fine);
  if (edge.dx() * py != edge.dy() * px) return 0;
  auto const between = [](Wide place, std::int64_t a, std::int64_t b) {
    return place >= (Wide{std::min(a, b)} << fine) && place <= (Wide{std::max(a, b)} << fine);
  };
  if (!between(point.x, edge.from.x, edge.to.x) || !between(point.y, edge.from.y, edge.to.y)) return 0;
  return dot(edge, along) > 0 ? 1 : -1;
}

// A ray to the right crosses the edge.
bool ray_crosses(FinePoint point, Edge const& edge) {
  bool const from_above = (Wide{edge.from.y} << fine) > point.y;
  bool const to_above = (Wide{edge.to.y} << fine) > point.y;
  if (from_above == to_above) return false;
  Wide const px = point.x - (Wide{edge.from.x} << fine);
  Wide const py = point.y - (Wide{edge.from.y} << fine);
  Wide const side = edge.dx() * py - edge.dy() * px;
  return to_above ? side > 0 : side < 0;
}

// One part of an edge, and what lies on either hand.
struct EdgePart {
  Edge edge;
  Spot begin, end;
  Inside left, right;
  bool first = true;  // no earlier polygon has an edge here too
};

class Walk {
 public:
  explicit Walk(Polygons const& polygons) : polygons_(polygons) {
    for (Polygon const* polygon : polygons) turns_left_.push_back(anticlockwise(*polygon));
  }

  // Calls `visit` for each part until it returns true.
  bool until(std::function<bool(EdgePart const&)> const& visit) {
    for (std::size_t p = 0; p < polygons_.size(); ++p)
      for (std::size_t i = 0; i < polygons_[p]->size(); ++i)
        if (along(p, edge_of(*polygons_[p], i), visit)) return true;
    return false;
  }

 private:
  bool along(std::size_t polygon, Edge const& edge, std::function<bool(EdgePart const&)> const& visit) {
    std::vector<Spot> places{{0, 1}, {1, 1}};
    for (std::size_t q = 0; q < polygons_.size(); ++q)
      for (std::size_t i = 0; q != polygon && i < polygons_[q]->size(); ++i)
        add_places(places, edge, edge_of(*polygons_[q], i));
    std::sort(places.begin(), places.end());
    places.erase(std::unique(places.begin(), places.end()), places.end());
    for (std::size_t i = 0; i + 1 < places.size(); ++i) {
      Wide const begin = places[i].fixed();
      Wide const end = places[i + 1].fixed();
      if (end - begin < 2) continue;
      Wide const middle = (begin + end) / 2;
      FinePoint const point{(Wide{edge.from.x} << fine) + middle * edge.dx(),
                            (Wide{edge.from.y} << fine) + middle * edge.dy()};
      if (visit(beside(polygon, edge, places[i], places[i + 1], point))) return true;
    }
    return false;
  }

  EdgePart beside(std::size_t polygon, Edge const& edge, Spot begin, Spot end, FinePoint point) const {
    EdgePart piece{edge, begin, end, Inside(polygons_.size()), Inside(polygons_.size())};
    for (std::size_t q = 0; q < polygons_.size(); ++q) {
      int const runs = q == polygon ? 1 : shared_edge(*polygons_[q], edge, point);
      if (runs != 0) {
        piece.left[q] = (runs > 0) == turns_left_[q];
        piece.right[q] = !piece.left[q];
        if (q < polygon) piece.first = false;
      } else {
        piece.left[q] = piece.right[q] = holds(*polygons_[q], point);
      }
    }
    return piece;
  }

  static int shared_edge(Polygon const& polygon, Edge const& edge, FinePoint point) {
    for (std::size_t i = 0; i < polygon.size(); ++i)
      if (int const runs = on_edge(point, edge_of(polygon, i), edge); runs != 0) return runs;
    return 0;
  }
  static bool holds(Polygon const& polygon, FinePoint point) {
    bool inside = false;
    for (std::size_t i = 0; i < polygon.size(); ++i)
      if (ray_crosses(point, edge_of(polygon, i))) inside = !inside;
    return inside;
  }

  Polygons polygons_;
  std::vector<bool> turns_left_;
};

// A sum of fractions: whole units, and the rest in units of 2^-62, each rounded down.
struct Sum {
  Wide whole = 0, rest = 0;
  void add(std::int64_t factor, Spot place) {
    Wide const product = Wide{factor} * place.num;
    Wide units = product / place.den;
    Wide over = product % place.den;
    if (over < 0) units -= 1, over += place.den;
    whole += units;
    rest += (over << fine) / place.den;
  }
  std::int64_t down() const {
    Wide const nearly = Wide{1} << (fine - 40);
    return static_cast<std::int64_t>(whole + ((rest + nearly) >> fine));
  }
};

bool apart(Polygon const& one, Polygon const& other) {
  auto const less = [](Polygon const& a, Polygon const& b, std::int64_t Point::*axis) {
    auto const by = [axis](Point p, Point q) { return p.*axis < q.*axis; };
    return (*std::max_element(a.begin(), a.end(), by)).*axis <=
           (*std::min_element(b.begin(), b.end(), by)).*axis;
  };
  return less(one, other, &Point::x) || less(other, one, &Point::x) || less(one, other, &Point::y) ||
         less(other, one, &Point::y);
}

bool closer(Point point, Edge const& edge, std::int64_t distance) {
  Edge const gap{edge.from, point};
  std::int64_t const length = dot(edge, edge);
  std::int64_t const along = dot(edge, gap);
  Wide const limit = Wide{distance} * distance;
  if (along <= 0) return dot(gap, gap) < limit;
  if (along >= length) {
    Edge const end{edge.to, point};
    return dot(end, end) < limit;
  }
  Wide const off = cross(edge, gap);
  return off * off < limit * length;
}

bool corners_closer(Polygon const& corners, Polygon const& edges, std::int64_t distance) {
  for (Point const corner : corners)
    for (std::size_t i = 0; i < edges.size(); ++i)
      if (closer(corner, edge_of(edges, i), distance)) return true;
  return false;
}

}  // namespace

bool any_side(Polygons const& polygons, std::function<bool(Inside const&)> const& wanted) {
  return Walk(polygons).until(
      [&](EdgePart const& piece) { return wanted(piece.left) || wanted(piece.right); });
}

std::int64_t twice_area_where(Polygons const& polygons, std::function<bool(Inside const&)> const& wanted) {
  Sum sum;
  Walk(polygons).until([&](EdgePart const& piece) {
    bool const left = wanted(piece.left);
    if (!piece.first || left == wanted(piece.right)) return false;
    Edge const& edge = piece.edge;
    std::int64_t const whole = cross(edge.from.x, edge.from.y, edge.to.x, edge.to.y);
    sum.add(left ? whole : -whole, piece.end);
    sum.add(left ? -whole : whole, piece.begin);
    return false;
  });
  return sum.down();
}

bool meet(Polygon const& one, Polygon const& other) {
  if (apart(one, other)) return false;
  return any_side({&one, &other}, [](Inside const& in) { return in[0] && in[1]; });
}

bool lies_within(Polygon const& inner, Polygon const& outer) {
  return !any_side({&inner, &outer}, [](Inside const& in) { return in[0] && !in[1]; });
}

bool closer(Polygon const& one, Polygon const& other, std::int64_t distance) {
  return corners_closer(one, other, distance) || corners_closer(other, one, distance);
}

std::int64_t twice_area_usable(Polygon const& outline, std::span<Polygon const> flaws) {
  Polygons polygons{&outline};
  for (Polygon const& flaw : flaws) polygons.push_back(&flaw);
  return twice_area_where(polygons, [](Inside const& in) {
    return in[0] && std::find(in.begin() + 1, in.end(), true) == in.end();
  });
}

}  // namespace endband::cutting
