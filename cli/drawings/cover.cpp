// The covering laid flat: which drawing of it, and the one of a single piece.
#include "cli/drawings/drawings.h"
#include "cli/drawings/laid_flat.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace endband::cli {

using enum FigureId;

std::optional<LaidFlat> laid_flat(BookSpec const& book, Figures const& figures) {
  FigureId const over_the_back = book.ways.has(Way::loose) ? spine_piece_width : arc;
  if (!known(figures, {board_width, board_height, joint, turn_in, board_thickness, over_the_back}))
    return std::nullopt;
  LaidFlat flat;
  flat.board_width = figures.value(board_width);
  flat.board_height = figures.value(board_height);
  flat.joint = figures.value(joint);
  flat.back = figures.value(over_the_back);
  double const between = 2 * (flat.board_width + flat.joint) + flat.back;
  double const margin = figures.value(turn_in) + figures.value(board_thickness);
  // What bands and underlays add to one piece is shared by its two edges.
  bool const one_piece = book.ways.has(Way::full) && figures.has(cover_width);
  flat.width = one_piece ? figures.value(cover_width) : between + 2 * margin;
  flat.height = std::max(figures.value_or(cover_height, 0),
                         one_piece ? 0 : figures.value_or(side_height, flat.board_height + 2 * margin));
  flat.across = (flat.width - between) / 2;
  flat.down = (flat.height - flat.board_height) / 2;
  return flat;
}

void draw_board(Sketch& sketch, Point corner, double width, double height, std::string name, bool seen) {
  sketch.add(
      Rectangle{corner, width, height, seen ? Pen::outline : Pen::hidden, seen ? Fill::shade : Fill::none});
  double const x = corner.x + width / 2;
  double const y = corner.y + height / 2;
  sketch.add(GrainArrow{{x, y}, height * 0.6, true});
  sketch.text({x - sketch.paper(1.5), y}, std::move(name), Anchor::middle, 3.4, true);
}

void draw_mitre(Sketch& sketch, Point board_corner, double right, double down, double margin, double board) {
  // The cut lies where right and down add up to less than the corner by 1.5 t, square to the cut.
  double const reach = margin - 1.5 * board * 1.41421356;
  if (!(reach > -margin)) return;
  sketch.line({board_corner.x - right * margin, board_corner.y + down * reach},
              {board_corner.x + right * reach, board_corner.y - down * margin}, Pen::hidden);
}

namespace {

std::vector<double> across_stations(LaidFlat const& flat) {
  return {0,
          flat.across,
          flat.front_end(),
          flat.back_start(),
          flat.back_end(),
          flat.rear(),
          flat.rear() + flat.board_width,
          flat.width};
}

void draw_back(Sketch& sketch, BookSpec const& book, LaidFlat const& flat) {
  double const head = flat.down;
  if (book.ways.has(Way::loose)) {
    sketch.add(Rectangle{{flat.back_start(), head}, flat.back, flat.board_height, Pen::outline, Fill::shade});
  } else {
    for (double const x : {flat.back_start(), flat.back_end()})
      sketch.line({x, 0}, {x, flat.height}, Pen::fold);
  }
  sketch.text({flat.back_start() + flat.back / 2 + sketch.paper(1), flat.height / 2},
              book.ways.has(Way::loose) ? "spine stiffener" : "spine", Anchor::middle, 3, true);
}

}  // namespace

std::optional<Drawing> draw_full_cover(BookSpec const& book, Structure const& structure, OnPaper const& on) {
  Figures const& figures = structure.figures;
  auto const flat = laid_flat(book, figures);
  if (!flat || !known(figures, {cover_height, cover_width})) return std::nullopt;
  Sketch sketch("cover", "The covering laid flat, seen from inside", book.title,
                scale_for(flat->width, flat->height, {24, 52}, on), on);
  sketch.add(Rectangle{{0, 0}, flat->width, flat->height, Pen::accent, Fill::none});
  for (double const y : {flat->down, flat->down + flat->board_height})
    sketch.line({0, y}, {flat->width, y}, Pen::fold);
  for (double const x : {flat->across, flat->rear() + flat->board_width})
    sketch.line({x, 0}, {x, flat->height}, Pen::fold);
  draw_board(sketch, {flat->across, flat->down}, flat->board_width, flat->board_height, "front board", true);
  draw_board(sketch, {flat->rear(), flat->down}, flat->board_width, flat->board_height, "back board", true);
  draw_back(sketch, book, *flat);
  double const t = figures.value(board_thickness);
  double const foot = flat->down + flat->board_height;
  double const far = flat->rear() + flat->board_width;
  draw_mitre(sketch, {flat->across, flat->down}, 1, 1, flat->across, t);
  draw_mitre(sketch, {flat->across, foot}, 1, -1, flat->across, t);
  draw_mitre(sketch, {far, flat->down}, -1, 1, flat->across, t);
  draw_mitre(sketch, {far, foot}, -1, -1, flat->across, t);
  sketch.add(Running{{0, 0}, false, across_stations(*flat), 3});
  sketch.add(Running{{0, 0}, true, {0, flat->down, foot, flat->height}, 3});
  sketch.note({0, flat->height + sketch.paper(6)},
              "Dash and dot: turn-ins and joints. Dashes at the corners: mitres, a board and a half off.");
  return std::move(sketch).finish(fmt::format(
      "A covering {} high and {} wide, the inside up and the front board at the left. Across, from the left "
      "edge: board from {} to {}, spine from {} to {}, board from {} to {}. Down, from the upper edge: "
      "boards "
      "from {} to {} mm.",
      mm_words(flat->height), mm_words(flat->width), tenths(flat->across), tenths(flat->front_end()),
      tenths(flat->back_start()), tenths(flat->back_end()), tenths(flat->rear()), tenths(far),
      tenths(flat->down), tenths(foot)));
}

std::optional<Drawing> draw_cover(BookSpec const& book, Structure const& structure, OnPaper const& on) {
  if (!book.has(Part::cover)) return std::nullopt;
  auto const covering = book.ways.of(Axis::covering);
  if (!covering) return std::nullopt;
  switch (*covering) {
    case Way::full: return draw_full_cover(book, structure, on);
    case Way::three_quarter:
    case Way::half:
    case Way::quarter: return draw_cover_in_parts(book, structure, on);
    case Way::each_board: return draw_board_covers(book, structure, on);
    case Way::wrapper: return draw_wrapper(book, structure, on);
    default: return std::nullopt;
  }
}

}  // namespace endband::cli
