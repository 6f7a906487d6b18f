#include "tests/bench/cutting/skin_lines.h"

#include <cmath>

namespace endband::cutting::bench {

// Files repeat a corner here and there; ours are polygons without.
Polygon read_polygon(Json const& corners, std::int64_t scale) {
  Polygon polygon;
  for (Json const& corner : corners) {
    Point const point{std::llround(corner[0].get<double>() * static_cast<double>(scale)),
                      std::llround(corner[1].get<double>() * static_cast<double>(scale))};
    if (polygon.empty() || polygon.back() != point) polygon.push_back(point);
  }
  while (polygon.size() > 1 && polygon.front() == polygon.back()) polygon.pop_back();
  return polygon;
}

std::vector<SkinPiece> read_skin_pieces(Json const& items, std::int64_t scale, int top) {
  std::vector<SkinPiece> pieces;
  for (Json const& item : items) {
    SkinPiece piece;
    if (item.contains("polygon"))
      piece.shape = read_polygon(item["polygon"], scale);
    else
      piece.shape = rectangle(item["w"].get<std::int64_t>() * scale, item["h"].get<std::int64_t>() * scale);
    piece.copies = item.value("copies", std::int64_t{1});
    piece.angles = {0, 90, 180, 270};
    if (item.contains("angles")) {
      piece.angles.clear();
      for (Json const& angle : item["angles"]) piece.angles.push_back(static_cast<int>(angle.get<double>()));
    }
    piece.least_grade = item.contains("min_quality") && item["min_quality"].is_number()
                            ? item["min_quality"].get<int>()
                            : top;
    pieces.push_back(std::move(piece));
  }
  return pieces;
}

void add_laid(Json& placements, std::size_t skin, CutSkin const& cut, std::vector<SkinPiece> const& pieces,
              std::int64_t scale) {
  for (LaidPiece const& laid : cut.laid) {
    Polygon const polygon = turned(pieces.at(static_cast<std::size_t>(laid.piece)).shape, laid.angle);
    Json line{{"skin", skin},
              {"kind", cut.skin},
              {"piece", laid.piece},
              {"x", in_units(laid.at.x, scale)},
              {"y", in_units(laid.at.y, scale)}};
    if (Box const box = box_of(polygon); twice_area(polygon) == 2 * box.right * box.top) {
      line["w"] = in_units(box.right, scale);
      line["h"] = in_units(box.top, scale);
    } else {
      line["polygon"] = Json::array();
      for (Point const& corner : polygon)
        line["polygon"].push_back(
            {in_units(corner.x + laid.at.x, scale), in_units(corner.y + laid.at.y, scale)});
    }
    line["angle"] = laid.angle;
    placements.push_back(std::move(line));
  }
}

double total_area(std::vector<SkinPiece> const& pieces) {
  double total = 0;
  for (SkinPiece const& piece : pieces)
    total += static_cast<double>(twice_area(piece.shape)) * static_cast<double>(piece.copies);
  return total;
}

}  // namespace endband::cutting::bench
