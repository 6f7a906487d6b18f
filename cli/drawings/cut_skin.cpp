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

// Where the name of a grade stands: in the lower part of its zone, near the edge, off what is cut.
void name_zone(Sketch& sketch, cutting::Zone const& zone) {
  cutting::Box const box = cutting::box_of(zone.polygon);
  double const wide = cut_mm(box.right - box.left);
  Point const at{cut_mm(box.left) + wide / 2, cut_mm(box.top) - sketch.paper(2)};
  sketch.text(at, std::string(grade_name(static_cast<Grade>(zone.grade))), Anchor::middle, 2.2);
}

void draw_laid(Sketch& sketch, CutLaid const& laid, CutNames const& names) {
  sketch.add(path_of(laid.shape, Pen::outline, Fill::white));
  draw_cut_name(sketch, laid, names, laid.height >= laid.width);
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

Drawing draw_cut_skin(CutUse const& use, CutNames const& names) {
  double const wide = cut_mm(use.width);
  double const high = cut_mm(use.height);
  double const scale =
      scale_for(wide, high, {left_of_skin + right_of_skin, above_skin + under_skin + cut_list_height(use)});
  Sketch sketch = cut_sketch(use, names, scale);
  sketch.add(path_of(use.outline, Pen::accent, Fill::none));
  for (cutting::Zone const& zone : use.zones) sketch.add(path_of(zone.polygon, Pen::thin, Fill::none));
  for (cutting::Polygon const& flaw : use.flaws) sketch.add(path_of(flaw, Pen::thin, Fill::hatch));
  double const spine = cut_mm(use.backbone);
  sketch.line({spine, -sketch.paper(1)}, {spine, high + sketch.paper(2)}, Pen::thin);
  for (CutLeft const& left : use.left) draw_cut_left(sketch, left);
  for (CutLaid const& laid : use.laid) draw_laid(sketch, laid, names);
  for (cutting::Zone const& zone : use.zones) name_zone(sketch, zone);
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
