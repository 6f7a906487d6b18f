#include "engine/cutting/geometry/outline.h"

#include "engine/cutting/geometry/convex.h"
#include "engine/cutting/geometry/exact.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <utility>

namespace endband::cutting {

namespace {

std::optional<OutlineFault> fault_of(Polygon const& polygon, int flaw) {
  if (polygon.size() < 3) return OutlineFault{OutlineWrong::few_corners, 0, 0, flaw};
  auto const far = [](std::int64_t value) { return value > largest_length || value < -largest_length; };
  for (std::size_t i = 0; i < polygon.size(); ++i)
    if (far(polygon[i].x) || far(polygon[i].y))
      return OutlineFault{OutlineWrong::too_large, static_cast<int>(i), 0, flaw};
  Box const box = box_of(polygon);
  if (far(box.right - box.left) || far(box.top - box.bottom))
    return OutlineFault{OutlineWrong::too_large, 0, 0, flaw};
  Point const first = polygon[0], second = polygon[1];
  bool const flat = std::all_of(polygon.begin(), polygon.end(), [&](Point corner) {
    return first == second ? corner == first : exact::cross(first, second, corner) == 0;
  });
  if (flat) return OutlineFault{OutlineWrong::no_area, 0, 0, flaw};
  if (std::optional<Crossing> const found = crossing(polygon))
    return OutlineFault{OutlineWrong::crosses, found->first, found->second, flaw};
  return std::nullopt;
}

tl::expected<Polygon, OutlineFault> checked(Polygon polygon) {
  if (std::optional<OutlineFault> const fault = fault_of(polygon, -1)) return tl::unexpected(*fault);
  Box const box = box_of(polygon);
  return moved(std::move(polygon), {-box.left, -box.bottom});
}

}  // namespace

std::vector<OutlineFault> validate(Polygon const& outline, std::span<Polygon const> flaws) {
  std::vector<OutlineFault> faults;
  std::optional<OutlineFault> const of_outline = fault_of(outline, -1);
  if (of_outline) faults.push_back(*of_outline);
  for (std::size_t i = 0; i < flaws.size(); ++i) {
    int const flaw = static_cast<int>(i);
    if (std::optional<OutlineFault> const fault = fault_of(flaws[i], flaw))
      faults.push_back(*fault);
    else if (!of_outline && !overlap(flaws[i], outline))
      faults.push_back({OutlineWrong::flaw_outside, 0, 0, flaw});
  }
  return faults;
}

tl::expected<Polygon, OutlineFault> outline_of(std::span<Station const> stations) {
  if (stations.size() < 2) return tl::unexpected(OutlineFault{OutlineWrong::few_stations});
  for (std::size_t i = 0; i < stations.size(); ++i) {
    auto const wrong = [&](OutlineWrong what) {
      return tl::unexpected(OutlineFault{what, static_cast<int>(i)});
    };
    Station const& at = stations[i];
    if (at.left < 0 || at.right < 0) return wrong(OutlineWrong::negative_width);
    if (at.along < 0 || at.left > largest_length || at.right > largest_length || at.along > largest_length)
      return wrong(OutlineWrong::too_large);
    if (i > 0 && at.along <= stations[i - 1].along) return wrong(OutlineWrong::station_order);
  }
  Polygon polygon;
  for (Station const& at : stations) polygon.push_back({at.right, at.along});
  for (std::size_t i = stations.size(); i-- > 0;) {
    Station const& at = stations[i];
    bool const a_point = at.left == 0 && at.right == 0 && (i == 0 || i + 1 == stations.size());
    if (!a_point) polygon.push_back({-at.left, at.along});
  }
  return checked(std::move(polygon));
}

tl::expected<Polygon, OutlineFault> outline_of(std::span<Point const> corners) {
  Polygon polygon(corners.begin(), corners.end());
  if (polygon.size() > 3 && polygon.front() == polygon.back()) polygon.pop_back();
  return checked(std::move(polygon));
}

Polygon round_flaw(Point centre, std::int64_t radius) {
  // cos(15 k degrees) / cos(7.5 degrees) in 1e-9, rounded up (mpmath).
  constexpr std::array<std::int64_t, 7> factors{
      1'008'628'961, 974'260'763, 873'498'303, 713'208'378, 504'314'481, 261'052'385, 0};
  auto const scaled = [&](std::size_t k) { return (radius * factors.at(k) + 999'999'999) / 1'000'000'000; };
  Polygon points;
  for (std::size_t k = 0; k < factors.size(); ++k) {
    std::int64_t const x = scaled(k), y = scaled(6 - k);
    for (Point p : {Point{x, y}, Point{-x, y}, Point{x, -y}, Point{-x, -y}})
      points.push_back({centre.x + p.x, centre.y + p.y});
  }
  return exact::hull_of(std::move(points));
}

}  // namespace endband::cutting
