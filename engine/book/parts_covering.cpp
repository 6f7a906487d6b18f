// The covering of boards and spine: in one piece, in parts, or board by board.
#include "engine/book/making.h"

#include <cmath>

namespace endband {

using enum FigureId;

namespace {

constexpr double mm2_a_dm2 = 10'000;
constexpr Ways in_parts{Way::three_quarter, Way::half, Way::quarter};

double or_none(Making const& making, FigureId id) { return making.book.figures.value_or(id, 0); }

// Paste soaks into leather, which is pasted twice; anything else once.
int coats_on(Making const& making, Role role) { return making.is_leather(role) ? 2 : 1; }

bool same_material(Making const& making, Role a, Role b) {
  return making.material(a) != nullptr && making.material(a) == making.material(b);
}

void cut_spine_and_sides(Making& making) {
  making.piece(Item::cover_leather, Part::cover, Role::leather, 1, making[cover_height],
               making[spine_cover_width], skin_with_cover(making, Role::leather));
  making.piece(Item::cover_sides, Part::cover, Role::sides, making[boards], making[side_height],
               making[side_width], skin_with_cover(making, Role::sides));
  if (!making.has(covering_corners)) return;
  double const squares = std::ceil(making[covering_corners] / 2);
  if (Piece* const corners =
          making.piece(Item::cover_corners, Part::cover, Role::corner_covering, squares, making[corner_cut],
                       making[corner_cut], skin_with_cover(making, Role::corner_covering)))
    corners->outline = Outline::two_corners;
}

void cut(Making& making) {
  if (making.spec.ways.meet(in_parts)) return cut_spine_and_sides(making);
  double const count = making.spec.ways.has(Way::each_board) ? making[boards] : 1;
  making.piece(Item::cover_leather, Part::cover, Role::leather, count, making[cover_height],
               making[cover_width], skin_with_cover(making, Role::leather));
}

void pare(Making& making) {
  double edges = making.is_leather(Role::leather) ? making[pare_length] : 0;
  if (making.is_leather(Role::corner_covering)) edges += or_none(making, corner_edges);
  if (making.is_leather(Role::sides))
    edges += making[boards] * 2 * (making[side_height] + making[side_width]);
  making.operation(OperationKind::pare_edges, edges / 1000);
  if (!making.is_leather(Role::leather) || !(making[leather_pared] < making[leather_bought])) return;
  bool const corners_too = same_material(making, Role::leather, Role::corner_covering);
  double const thinned = making[cover_area] + (corners_too ? or_none(making, corners_area) : 0);
  making.operation(OperationKind::thin_leather, thinned / mm2_a_dm2);
}

void paste(Making& making) {
  making.spread(Item::cover_paste, Part::cover, Role::cover_paste, making[cover_area],
                coats_on(making, Role::leather));
  making.spread(Item::cover_paste, Part::cover, Role::cover_paste, or_none(making, corners_area),
                coats_on(making, Role::corner_covering));
  making.spread(Item::side_paste, Part::cover, Role::side_adhesive, or_none(making, sides_area),
                coats_on(making, Role::sides));
  making.operation(OperationKind::mix_paste, making.material(Role::cover_paste) != nullptr ? 1 : 0);
}

void put_on(Making& making) {
  Ways const ways = making.spec.ways;
  making.operation(OperationKind::make_case, ways.has(Way::cased) ? 1 : 0);
  making.operation(OperationKind::case_in, ways.has(Way::cased) ? 1 : 0);
  making.operation(OperationKind::cover_book, ways.has(Way::laced) ? 1 : 0);
  making.operation(OperationKind::cover_boards, ways.has(Way::each_board) ? making[boards] : 0);
  making.operation(OperationKind::put_on_sides, ways.meet(in_parts) ? making[boards] : 0);
  making.operation(OperationKind::put_on_corners, or_none(making, covering_corners));
  making.operation(OperationKind::set_bands, or_none(making, bands));
  // Corners that are covered by themselves are turned in as they are put on; of a board that is covered by
  // itself all four are turned in, else the two at its fore-edge.
  double const corners_a_board = making.has(covering_corners) ? 0 : ways.has(Way::each_board) ? 4 : 2;
  making.operation(OperationKind::turn_corners, corners_a_board * making[boards]);
}

}  // namespace

int skin_with_cover(Making const& making, Role role) {
  return making.is_leather(role) && same_material(making, role, Role::leather) ? skin_of_the_cover : 0;
}

void count_cuts(Making& making) {
  double leather = making.spec.has(Part::strap) ? making[straps] : 0;
  if (making.spec.has(Part::tie) && making.is_leather(Role::tie)) leather += making[ties];
  double other = 0;
  for (Piece const& piece : making.book.pieces) {
    if (piece.part != Part::cover) continue;
    bool const skin = making.catalogue.at(piece.material).kind == MaterialKind::leather;
    (skin ? leather : other) += static_cast<double>(piece.count);
  }
  making.operation(OperationKind::cut_leather, leather);
  making.operation(OperationKind::cut_cloth, other);
}

void dye_and_dress(Making& making) {
  double leather = making.is_leather(Role::leather) ? making[cover_area] : 0;
  if (making.is_leather(Role::corner_covering)) leather += or_none(making, corners_area);
  if (making.is_leather(Role::sides)) leather += or_none(making, sides_area);
  double const dm2 = leather / mm2_a_dm2;
  making.spread(Item::leather_dye, Part::cover, Role::leather_dye, leather);
  making.operation(OperationKind::dye_leather, making.material(Role::leather_dye) != nullptr ? dm2 : 0);
  making.spread(Item::leather_dressing, Part::cover, Role::leather_dressing, leather);
  making.operation(OperationKind::dress_leather,
                   making.material(Role::leather_dressing) != nullptr ? dm2 : 0);
}

void make_cover(Making& making) {
  if (making.spec.ways.has(Way::wrapper)) return make_wrapper(making);
  cut(making);
  count_cuts(making);
  pare(making);
  paste(making);
  put_on(making);
  dye_and_dress(making);
}

}  // namespace endband
