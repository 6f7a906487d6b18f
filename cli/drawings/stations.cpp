#include "cli/drawings/stations.h"

#include "cli/drawings/sketch.h"

namespace endband::cli {
namespace {

using enum FigureId;

std::vector<Station> unsupported_stations(Figures const& figures) {
  if (!known(figures, {leaf_height, kettle_setback, stations})) return {};
  double const setback = figures.value(kettle_setback);
  double const between = figures.value(leaf_height) - 2 * setback;
  int const count = static_cast<int>(figures.value(stations));
  std::vector<Station> all;
  for (int i = 0; i < count; ++i)
    all.push_back(
        {StationKind::hole, count == 1 ? setback + between / 2 : setback + between * i / (count - 1), 0});
  return all;
}

double support_middle(Figures const& figures, bool as_bands, int i) {
  if (as_bands) return (i + 1) * figures.value(panel_height) + (i + 0.5) * figures.value(band_width);
  double const between = figures.value(leaf_height) - 2 * figures.value(kettle_setback);
  return figures.value(kettle_setback) + between * (i + 1) / (figures.value(supports) + 1);
}

}  // namespace

std::vector<Station> stations_of(BookSpec const& book, Figures const& figures) {
  if (!book.has(Part::sewing)) return {};
  if (book.ways.has(Way::unsupported)) return unsupported_stations(figures);
  if (!known(figures, {leaf_height, kettle_setback, supports})) return {};
  bool const as_bands = book.ways.has(Way::raised_cords) &&
                        known(figures, {bands, panel_height, band_width}) &&
                        figures.value(bands) == figures.value(supports);
  double const width =
      book.ways.has(Way::tapes) ? figures.value_or(support_width, 0) : figures.value_or(support_thickness, 0);
  std::vector<Station> all;
  all.push_back({StationKind::kettle, figures.value(kettle_setback), 0});
  for (int i = 0; i < static_cast<int>(figures.value(supports)); ++i)
    all.push_back({StationKind::support, support_middle(figures, as_bands, i), width});
  all.push_back({StationKind::kettle, figures.value(leaf_height) - figures.value(kettle_setback), 0});
  return all;
}

std::vector<double> holes_of(std::vector<Station> const& stations, Figures const& figures) {
  bool const two = figures.value_or(holes_a_support, 1) > 1;
  std::vector<double> holes;
  for (Station const& station : stations) {
    if (station.kind == StationKind::support && two) {
      holes.push_back(station.at - station.width / 2);
      holes.push_back(station.at + station.width / 2);
    } else {
      holes.push_back(station.at);
    }
  }
  return holes;
}

}  // namespace endband::cli
