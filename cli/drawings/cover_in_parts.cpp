// The covering in parts: the spine's piece, the sides and, where there are any, the corners.
#include "cli/drawings/laid_flat.h"

#include <fmt/format.h>

#include <algorithm>
#include <numbers>

namespace endband::cli {
namespace {

using enum FigureId;

struct Parts {
  LaidFlat flat;
  double margin = 0;                           // turn-in and board
  double spine_width = 0, spine_height = 0;    // W_q, H_c
  double side_width = 0, side_height = 0;      // W_e, H_e
  double corner = 0, corner_cut = 0, lap = 0;  // L_q, K_q, lp; no corners: 0
  double spine_left() const { return (flat.width - spine_width) / 2; }
  double side_top() const { return (flat.height - side_height) / 2; }
};

std::optional<Parts> measured(BookSpec const& book, Figures const& figures) {
  auto const flat = laid_flat(book, figures);
  if (!flat || !known(figures, {cover_height, spine_cover_width, side_height, side_width}))
    return std::nullopt;
  Parts parts;
  parts.flat = *flat;
  parts.margin = flat->across;
  parts.spine_width = figures.value(spine_cover_width);
  parts.spine_height = figures.value(cover_height);
  parts.side_width = figures.value(side_width);
  parts.side_height = figures.value(side_height);
  parts.corner = figures.value_or(corner_leather, 0);
  parts.corner_cut = figures.value_or(corner_cut, 0);
  parts.lap = figures.value_or(side_lap, 0);
  return parts;
}

// A point `x` right of and `y` down from a board's corner at the fore-edge, on either board, head or tail.
Point from_corner(Parts const& parts, bool front, bool head, double x, double y) {
  LaidFlat const& flat = parts.flat;
  double const at = front ? flat.across : flat.rear() + flat.board_width;
  double const edge = head ? flat.down : flat.down + flat.board_height;
  return {at + (front ? x : -x), edge + (head ? y : -y)};
}

void draw_corner(Sketch& sketch, Parts const& parts, bool front, bool head) {
  double const m = parts.margin;
  Point const outer = from_corner(parts, front, head, -m, -m);
  Point const along = from_corner(parts, front, head, parts.corner_cut - m, -m);
  Point const down = from_corner(parts, front, head, -m, parts.corner_cut - m);
  sketch.add(Path{outer, {{along, 0, true, false}, {down, 0, true, false}}, true, Pen::accent, Fill::none});
}

// A side: a rectangle whose corners, where there is leather, are cut so as to lap over its slant.
void draw_side(Sketch& sketch, Parts const& parts, bool front) {
  double const m = parts.margin;
  double const inner = parts.side_width - m;
  double const over = (parts.flat.height - parts.side_height) / 2 - parts.flat.down;
  double const cut = parts.corner > 0 ? parts.corner - parts.lap * std::numbers::sqrt2 : 0;
  auto const at = [&](bool head, double x, double y) { return from_corner(parts, front, head, x, y); };
  Path side{at(true, inner, over), {}, true, Pen::outline, Fill::none};
  auto const to = [&](Point point) { side.legs.push_back({point, 0, true, false}); };
  if (parts.corner > 0) {
    to(at(true, cut - over, over));
    to(at(true, -m, cut + m));
    to(at(false, -m, cut + m));
    to(at(false, cut - over, over));
  } else {
    to(at(true, -m, over));
    to(at(false, -m, over));
  }
  to(at(false, inner, over));
  sketch.add(side);
}

std::vector<double> across_stations(Parts const& parts) {
  LaidFlat const& flat = parts.flat;
  std::vector<double> all{0,
                          flat.across,
                          parts.spine_left(),
                          parts.side_width,
                          flat.front_end(),
                          flat.back_start(),
                          flat.back_end(),
                          flat.rear(),
                          flat.width - parts.side_width,
                          flat.width - parts.spine_left(),
                          flat.rear() + flat.board_width,
                          flat.width};
  std::sort(all.begin(), all.end());
  return all;
}

std::string words_of(Parts const& parts) {
  LaidFlat const& flat = parts.flat;
  std::string words = fmt::format(
      "The inside up, the front board at the left; measured from the left edge of the front side's covering. "
      "The spine's piece, {} x {}, lies from {} to {}; each side, {} x {}, covers {} from its fore-edge. "
      "Boards from {} to {} and from {} to {}, spine from {} to {} mm.",
      tenths(parts.spine_height), mm_words(parts.spine_width), tenths(parts.spine_left()),
      tenths(parts.spine_left() + parts.spine_width), tenths(parts.side_height), mm_words(parts.side_width),
      mm_words(parts.side_width), tenths(flat.across), tenths(flat.front_end()), tenths(flat.rear()),
      tenths(flat.rear() + flat.board_width), tenths(flat.back_start()), tenths(flat.back_end()));
  if (parts.corner > 0)
    words += fmt::format(" Corners: {} along each edge of the board, cut {} along each edge.",
                         mm_words(parts.corner), mm_words(parts.corner_cut));
  return words;
}

}  // namespace

std::optional<Drawing> draw_cover_in_parts(BookSpec const& book, Structure const& structure,
                                           OnPaper const& on) {
  auto const parts = measured(book, structure.figures);
  if (!parts) return std::nullopt;
  LaidFlat const& flat = parts->flat;
  Sketch sketch("cover", "The covering laid flat, seen from inside", book.title,
                scale_for(flat.width, flat.height, {40, 56}, on), on);
  double const spine_top = (flat.height - parts->spine_height) / 2;
  sketch.add(Rectangle{
      {parts->spine_left(), spine_top}, parts->spine_width, parts->spine_height, Pen::accent, Fill::none});
  if (parts->corner > 0)
    for (bool const front : {true, false})
      for (bool const head : {true, false}) draw_corner(sketch, *parts, front, head);
  for (bool const front : {true, false}) draw_side(sketch, *parts, front);
  draw_board(sketch, {flat.across, flat.down}, flat.board_width, flat.board_height, "front board", false);
  draw_board(sketch, {flat.rear(), flat.down}, flat.board_width, flat.board_height, "back board", false);
  for (double const x : {flat.back_start(), flat.back_end()})
    sketch.line({x, flat.down}, {x, flat.down + flat.board_height}, Pen::hidden);
  sketch.text({flat.back_start() + flat.back / 2 + sketch.paper(1), flat.height / 2}, "spine", Anchor::middle,
              3, true);
  sketch.add(Running{{0, 0}, false, across_stations(*parts), 3});
  std::vector<double> down{0, flat.down, flat.down + flat.board_height, flat.height};
  if (parts->corner > 0) down.insert(down.begin() + 2, parts->corner_cut);
  sketch.add(Running{{0, 0}, true, down, 3});
  sketch.note({0, flat.height + sketch.paper(6)},
              parts->corner > 0
                  ? "Heavy: covering of spine and corners. Light: sides. Dashes: boards and spine."
                  : "Heavy: covering of the spine. Light: sides. Dashes: boards and spine.");
  return std::move(sketch).finish(words_of(*parts));
}

}  // namespace endband::cli
