// The section from its fold, head at the left: where it is pierced.
#include "cli/drawings/drawings.h"
#include "cli/drawings/sketch.h"
#include "cli/drawings/stations.h"
#include "cli/words/values.h"

#include <fmt/format.h>

#include <string>

namespace endband::cli {
namespace {

using enum FigureId;

constexpr double strip = 16;              // how wide the fold is drawn, mm of paper
constexpr double support_stands_out = 3;  // mm of paper
constexpr double hole = 0.7;              // radius, mm of paper

std::string support_words(BookSpec const& book) {
  if (book.ways.has(Way::tapes)) return "tape";
  return book.ways.has(Way::raised_cords) ? "raised cord" : "recessed cord";
}

void draw_fold(Sketch& sketch, double length, double trim) {
  double const high = sketch.paper(strip);
  sketch.add(Rectangle{{-trim, 0}, length + 2 * trim, high, Pen::outline, Fill::none});
  sketch.line({-trim, high / 2}, {length + trim, high / 2}, Pen::fold);
  if (trim > 0)
    for (double const at : {0.0, length})
      sketch.line({at, -sketch.paper(2)}, {at, high + sketch.paper(2)}, Pen::hidden);
  double const middle = high / 2 + sketch.paper(1);
  sketch.text({-trim - sketch.paper(2), middle}, "head", Anchor::end);
  sketch.text({length + trim + sketch.paper(2), middle}, "tail", Anchor::start);
}

void draw_stations(Sketch& sketch, std::vector<Station> const& stations, std::vector<double> const& holes) {
  double const high = sketch.paper(strip);
  int number = 0;
  for (Station const& station : stations) {
    if (station.kind == StationKind::support) {
      sketch.add(Rectangle{{station.at - station.width / 2, -sketch.paper(support_stands_out)},
                           station.width,
                           high + sketch.paper(2 * support_stands_out),
                           Pen::outline,
                           Fill::shade});
      sketch.text({station.at, high + sketch.paper(7)}, std::to_string(++number));
    } else if (station.kind == StationKind::kettle) {
      sketch.text({station.at, high + sketch.paper(7)}, "K");
    } else {
      sketch.text({station.at, high + sketch.paper(7)}, std::to_string(++number));
    }
  }
  for (double const at : holes)
    sketch.add(Circle{{at, high / 2}, sketch.paper(hole), Pen::outline, Fill::white});
}

std::string key_words(BookSpec const& book, double trim) {
  std::string words = book.ways.has(Way::unsupported)
                          ? "Numbers: sewing stations."
                          : "K: kettle stitch. Numbers: the " + support_words(book) + "s.";
  words += " Circles: holes. Measures run from the head of the trimmed leaf.";
  if (trim > 0) words += fmt::format(" Before trimming, add {} at the head.", mm_words(trim));
  return words;
}

std::string section_words(BookSpec const& book, Figures const& figures, std::vector<Station> const& stations,
                          std::vector<double> const& holes) {
  std::vector<std::string> kettles, supports_at, holes_at;
  for (Station const& station : stations) {
    if (station.kind == StationKind::kettle) kettles.push_back(tenths(station.at));
    if (station.kind == StationKind::support) supports_at.push_back(tenths(station.at));
  }
  for (double const at : holes) holes_at.push_back(tenths(at));
  std::string words =
      fmt::format("A fold of {}, measured from the head.", mm_words(figures.value(leaf_height)));
  if (!kettles.empty()) words += fmt::format(" Kettle stitches at {}.", listed(kettles));
  if (!supports_at.empty())
    words += fmt::format(" {} {} with the middle at {}.", supports_at.size(),
                         support_words(book) + (supports_at.size() == 1 ? "" : "s"), listed(supports_at));
  return words + fmt::format(" Holes at {} mm.", listed(holes_at));
}

}  // namespace

std::optional<Drawing> draw_section(BookSpec const& book, Structure const& structure) {
  Figures const& figures = structure.figures;
  auto const stations = stations_of(book, figures);
  if (stations.empty()) return std::nullopt;
  double const length = figures.value(leaf_height);
  double const trim = figures.value_or(head_tail_trim, 0);
  auto const holes = holes_of(stations, figures);
  Sketch sketch("section", "A section, seen from its fold", book.title,
                scale_for(length + 2 * trim, 0, {32, 70}));
  draw_fold(sketch, length, trim);
  draw_stations(sketch, stations, holes);
  Running running{{0, -sketch.paper(support_stands_out)}, false, {0}, 3};
  running.stations.insert(running.stations.end(), holes.begin(), holes.end());
  running.stations.push_back(length);
  sketch.add(running);
  sketch.text({-trim, sketch.paper(strip + 13)}, key_words(book, trim), Anchor::start, 2.8);
  return std::move(sketch).finish(section_words(book, figures, stations, holes));
}

}  // namespace endband::cli
