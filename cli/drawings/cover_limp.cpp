// Coverings that do not go over a back: each board's own, and a wrapper.
#include "cli/drawings/laid_flat.h"
#include "cli/drawings/stations.h"
#include "cli/words/values.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

using enum FigureId;

struct Wrapper {
  double width = 0, height = 0;
  std::vector<double> across;  // where it is folded, from the left edge, both edges included
  double side = 0;             // leaf and square
  double turned = 0, square = 0;
  double flap = 0;
  double back_start() const { return turned + side; }
};

std::optional<Wrapper> measured(Figures const& figures) {
  if (!known(figures, {cover_height, cover_width, leaf_width, arc, block_thickness})) return std::nullopt;
  Wrapper wrapper;
  wrapper.width = figures.value(cover_width);
  wrapper.height = figures.value(cover_height);
  wrapper.square = figures.value_or(square, 0);
  wrapper.side = figures.value(leaf_width) + wrapper.square;
  wrapper.turned = figures.value_or(turn_in, 0);
  wrapper.flap = figures.value_or(cover_flap, 0);
  std::vector<double> widths{wrapper.side, figures.value(arc), wrapper.side};
  if (wrapper.flap > 0) {
    widths.push_back(figures.value(block_thickness));
    widths.push_back(wrapper.flap);
  }
  wrapper.across = {0};
  if (wrapper.turned > 0) wrapper.across.push_back(wrapper.turned);
  for (double const width : widths)
    if (width > 0) wrapper.across.push_back(wrapper.across.back() + width);
  if (wrapper.turned > 0) wrapper.across.push_back(wrapper.width);
  return wrapper;
}

// Holes through the back of the wrapper: a row for each section, or the one row of a single section.
int hole_rows(Figures const& figures) {
  if (!known(figures, {wrapper_holes, stations}) || figures.value(stations) < 1) return 0;
  return static_cast<int>(figures.value(wrapper_holes) / figures.value(stations) + 0.5);
}

// Over so many the rows would run together: the first and the last then show how they lie.
constexpr int most_rows = 40;

void draw_holes(Sketch& sketch, Wrapper const& wrapper, std::vector<Station> const& stations, int rows,
                double back) {
  for (int row = 0; row < rows; ++row) {
    if (rows > most_rows && row != 0 && row != rows - 1) continue;
    double const x = wrapper.back_start() + back * (row + 0.5) / rows;
    for (Station const& station : stations)
      sketch.add(Circle{
          {x, wrapper.turned + wrapper.square + station.at}, sketch.paper(0.4), Pen::outline, Fill::white});
  }
}

std::vector<double> down_stations(Wrapper const& wrapper, std::vector<Station> const& stations, int rows) {
  std::vector<double> down{0};
  if (wrapper.turned > 0) down.push_back(wrapper.turned);
  if (rows > 0)
    for (Station const& station : stations) down.push_back(wrapper.turned + wrapper.square + station.at);
  if (wrapper.turned > 0) down.push_back(wrapper.height - wrapper.turned);
  down.push_back(wrapper.height);
  return down;
}

std::string wrapper_words(Wrapper const& wrapper, int rows, std::size_t holes) {
  std::vector<std::string> folds;
  for (std::size_t i = 1; i + 1 < wrapper.across.size(); ++i) folds.push_back(tenths(wrapper.across[i]));
  std::string words = fmt::format(
      "A wrapper {} high and {} wide, the inside up and the front at the left. From the left edge it "
      "is folded at {} mm.",
      mm_words(wrapper.height), mm_words(wrapper.width), listed(folds));
  if (wrapper.flap > 0) words += fmt::format(" The last {} are the flap.", mm_words(wrapper.flap));
  if (rows > 0)
    words += fmt::format(" {} of {} in the spine.", so_many(rows, "row"),
                         so_many(static_cast<double>(holes), "hole"));
  return words;
}

}  // namespace

std::optional<Drawing> draw_wrapper(BookSpec const& book, Structure const& structure, OnPaper const& on) {
  Figures const& figures = structure.figures;
  auto const wrapper = measured(figures);
  if (!wrapper) return std::nullopt;
  auto const stations = stations_of(book, figures);
  int const rows = stations.empty() ? 0 : hole_rows(figures);
  Sketch sketch("cover", "The wrapper laid flat, seen from inside", book.title,
                scale_for(wrapper->width, wrapper->height, {24, 52}, on), on);
  sketch.add(Rectangle{{0, 0}, wrapper->width, wrapper->height, Pen::accent, Fill::none});
  for (std::size_t i = 1; i + 1 < wrapper->across.size(); ++i)
    sketch.line({wrapper->across[i], 0}, {wrapper->across[i], wrapper->height}, Pen::fold);
  if (wrapper->turned > 0)
    for (double const y : {wrapper->turned, wrapper->height - wrapper->turned})
      sketch.line({0, y}, {wrapper->width, y}, Pen::fold);
  double const back = figures.value(arc);
  draw_holes(sketch, *wrapper, stations, rows, back);
  double const middle = wrapper->height / 2;
  double const rear = wrapper->back_start() + back;
  sketch.text({wrapper->back_start() - wrapper->side / 2, middle}, "front", Anchor::middle, 3.4, true);
  sketch.text({rear + wrapper->side / 2, middle}, "back", Anchor::middle, 3.4, true);
  if (wrapper->flap > 0)
    sketch.text({wrapper->width - wrapper->turned - wrapper->flap / 2, middle}, "flap", Anchor::middle, 3.4,
                true);
  sketch.add(Running{{0, 0}, false, wrapper->across, 3});
  sketch.add(Running{{0, 0}, true, down_stations(*wrapper, stations, rows), 3});
  sketch.note({0, wrapper->height + sketch.paper(6)},
              rows > most_rows ? "Dash and dot: folds. Circles: holes, of the first and of the last section."
              : rows > 0       ? "Dash and dot: folds. Circles: holes."
                               : "Dash and dot: folds.");
  return std::move(sketch).finish(wrapper_words(*wrapper, rows, stations.size()));
}

std::optional<Drawing> draw_board_covers(BookSpec const& book, Structure const& structure,
                                         OnPaper const& on) {
  Figures const& figures = structure.figures;
  if (!known(figures, {cover_height, cover_width, board_height, board_width, board_thickness}))
    return std::nullopt;
  double const width = figures.value(cover_width);
  double const height = figures.value(cover_height);
  double const across = (width - figures.value(board_width)) / 2;
  double const down = (height - figures.value(board_height)) / 2;
  double const t = figures.value(board_thickness);
  // A gap between the two, of the paper, whatever the scale.
  constexpr double gap = 8;
  double const scale = scale_for(2 * width, height, {24 + gap, 52}, on);
  Sketch sketch("cover", "The coverings of the two boards, seen from inside", book.title, scale, on);
  for (int i = 0; i < 2; ++i) {
    double const left = i * (width + sketch.paper(gap));
    sketch.add(Rectangle{{left, 0}, width, height, Pen::accent, Fill::none});
    draw_board(sketch, {left + across, down}, figures.value(board_width), figures.value(board_height),
               i == 0 ? "front board" : "back board", true);
    for (double const right : {1.0, -1.0})
      for (double const below : {1.0, -1.0})
        draw_mitre(sketch,
                   {right > 0 ? left + across : left + width - across, below > 0 ? down : height - down},
                   right, below, across, t);
  }
  sketch.add(Running{{0, 0}, false, {0, across, width - across, width}, 3});
  sketch.add(Running{{0, 0}, true, {0, down, height - down, height}, 3});
  return std::move(sketch).finish(
      fmt::format("Two pieces, each {} high and {} wide, the inside up; on each its board, {} from the upper "
                  "edge and {} from the left.",
                  mm_words(height), mm_words(width), mm_words(down), mm_words(across)));
}

}  // namespace endband::cli
