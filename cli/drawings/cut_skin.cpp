// A skin as it lies, neck up: its backbone, flaws and grades, and what is cut from it.
#include "cli/drawings/cut_marks.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

constexpr double left_of_skin = 15;  // running measures, mm of paper
constexpr double right_of_skin = 4;
constexpr double above_skin = 20;
constexpr double under_skin = 6;
constexpr double zone_letters = 2.4;

Point mm_point(cutting::Point point) { return {cut_mm(point.x), cut_mm(point.y)}; }

Path path_of(cutting::Polygon const& polygon, Pen pen, Fill fill) {
  Path path;
  path.closed = true;
  path.pen = pen;
  path.fill = fill;
  path.start = mm_point(polygon.front());
  for (std::size_t i = 1; i < polygon.size(); ++i)
    path.legs.push_back({mm_point(polygon[i]), 0, true, false});
  return path;
}

std::vector<double> stations(CutUse const& use, bool down) {
  std::vector<double> places{0, cut_mm(down ? use.height : use.width)};
  for (CutLaid const& laid : use.laid) {
    std::int64_t const from = down ? laid.y : laid.x;
    places.push_back(cut_mm(from));
    places.push_back(cut_mm(from + (down ? laid.height : laid.width)));
  }
  std::ranges::sort(places);
  places.erase(std::unique(places.begin(), places.end()), places.end());
  return places;
}

// Where a level line at `y` runs within the polygon: pairs of its ends.
std::vector<double> within(cutting::Polygon const& polygon, double y) {
  std::vector<double> ends;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    Point const a = mm_point(polygon[i]);
    Point const b = mm_point(polygon[(i + 1) % polygon.size()]);
    if ((a.y <= y) != (b.y <= y)) ends.push_back(a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y));
  }
  std::ranges::sort(ends);
  return ends;
}

// Does anything that is cut, or kept, come near?
bool is_free(CutUse const& use, Point at, double near, double half) {
  auto const off = [&](auto const& box) {
    return at.x + near < cut_mm(box.x) || at.x - near > cut_mm(box.x + box.width) ||
           at.y + half < cut_mm(box.y) || at.y - half > cut_mm(box.y + box.height);
  };
  return std::ranges::all_of(use.laid, off) && std::ranges::all_of(use.left, off);
}

// The name of a grade along the backbone, where its zone is wide enough and nothing is cut; at each side of
// it. Nothing where there is no such place.
void name_zone(Sketch& sketch, CutUse const& use, cutting::Zone const& zone) {
  std::string const name(grade_name(static_cast<Grade>(zone.grade)));
  double const half = sketch.paper(letters_width(name, zone_letters) / 2 + 0.5);
  double const near = sketch.paper(1.4);
  bool left_told = false;
  bool right_told = false;
  for (double const part : {0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.2}) {
    double const y = cut_mm(use.height) * part;
    auto const ends = within(zone.polygon, y);
    for (std::size_t i = 0; i + 1 < ends.size(); i += 2) {
      Point const at{(ends[i] + ends[i + 1]) / 2, y};
      bool& told = at.x < cut_mm(use.backbone) ? left_told : right_told;
      if (told || ends[i + 1] - ends[i] < 2 * near || !is_free(use, at, near, half)) continue;
      sketch.text({at.x + sketch.paper(zone_letters / 3), at.y}, name, Anchor::middle, zone_letters, true);
      told = true;
    }
  }
}

std::string places_in_words(CutUse const& use, CutNames const& names) {
  std::vector<std::string> words;
  for (CutLaid const& laid : use.laid)
    words.push_back(fmt::format("{} at {} from the left and {} from the top",
                                names.pieces.at(static_cast<std::size_t>(laid.piece)), tenths(cut_mm(laid.x)),
                                tenths(cut_mm(laid.y))));
  return fmt::format("{}", fmt::join(words, "; "));
}

}  // namespace

Drawing draw_cut_skin(CutUse const& use, CutNames const& names, OnPaper const& on) {
  double const high = cut_mm(use.height);
  double const scale =
      cut_scale(use, {left_of_skin + right_of_skin, above_skin + under_skin + cut_list_height(use)}, on);
  Sketch sketch = cut_sketch(use, names, scale, on);
  for (cutting::Zone const& zone : use.zones) sketch.add(path_of(zone.polygon, Pen::thin, Fill::none));
  sketch.add(path_of(use.outline, Pen::accent, Fill::none));
  for (cutting::Polygon const& flaw : use.flaws) sketch.add(path_of(flaw, Pen::thin, Fill::hatch));
  double const spine = cut_mm(use.backbone);
  for (CutLeft const& left : use.left) draw_cut_left(sketch, left);
  for (CutLaid const& laid : use.laid) sketch.add(path_of(laid.shape, Pen::outline, Fill::white));
  sketch.line({spine, -sketch.paper(1)}, {spine, high + sketch.paper(2)}, Pen::thin);
  for (CutLaid const& laid : use.laid) draw_cut_name(sketch, laid, names, laid.height >= laid.width);
  for (cutting::Zone const& zone : use.zones) name_zone(sketch, use, zone);
  sketch.text({spine, high + sketch.paper(5)}, "backbone, neck up", Anchor::middle, cut_letters);
  sketch.add(Running{{0, 0}, true, stations(use, true), 4});
  sketch.add(Running{{0, 0}, false, stations(use, false), 4});
  double foot = high + sketch.paper(under_skin + 1);
  if (names.guess) {
    foot += sketch.paper(cut_list_row);
    sketch.text({0, foot}, "The outline is a guess: nobody has measured it.", Anchor::start, cut_letters);
  }
  auto const rows = draw_cut_list(sketch, use, names, foot);
  return std::move(sketch).finish(
      fmt::format("Height by width. {}. {}.", fmt::join(rows, "; "), places_in_words(use, names)));
}

}  // namespace endband::cli
