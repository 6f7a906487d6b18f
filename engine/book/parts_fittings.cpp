// Corners, clasps, rivets, straps, stones and what other furniture is listed.
#include "engine/book/making.h"

namespace endband {

using enum FigureId;

namespace {

void make_corners(Making& making) {
  if (!making.spec.has(Part::corners)) return;
  making.things(Item::corners, Part::corners, Role::corner, making[corners]);
  // A corner clasps a triangle of both sides of the board and the two edges that meet there.
  double const leg = making[corner_leg];
  double const held = leg * leg + 2 * leg * making[board_thickness];
  // A contact adhesive goes on both faces that meet; what has two parts already goes on one.
  Material const* const glue = making.material(Role::corner_adhesive);
  int const faces = glue != nullptr && glue->kind == MaterialKind::epoxy ? 1 : 2;
  making.spread(Item::corner_glue, Part::corners, Role::corner_adhesive, making[corners] * held, 1, faces);
  making.operation(OperationKind::fit_corners, making[corners]);
}

void make_clasps(Making& making) {
  if (!making.spec.has(Part::clasps)) return;
  making.things(Item::clasps, Part::clasps, Role::clasp, making[clasps]);
  making.operation(OperationKind::fit_clasps, making[clasps]);
}

void make_straps(Making& making) {
  if (!making.spec.has(Part::strap)) return;
  Material const* const leather = making.material(Role::strap_leather);
  Material const* const cover = making.material(Role::leather);
  bool const same_skin = leather != nullptr && cover != nullptr && leather->id == cover->id;
  making.piece(Item::strap, Part::strap, Role::strap_leather, making[straps], making[strap_length],
               making[strap_width], same_skin ? skin_of_the_cover : skin_of_the_straps);
  making.things(Item::buckle, Part::strap, Role::buckle, making[straps]);
  making.operation(OperationKind::make_strap, making[straps]);
  making.operation(OperationKind::fit_buckle, making.material(Role::buckle) != nullptr ? making[straps] : 0);
}

void make_furniture(Making& making) {
  if (!making.spec.has(Part::furniture)) return;
  double count = 0;
  for (Furniture const& listed : making.spec.furniture) {
    making.things(Item::furniture, Part::furniture, listed.material,
                  amount(Count{std::int64_t{listed.count} * 1000}));
    count += listed.count;
  }
  making.operation(OperationKind::fit_furniture, count);
}

void make_stones(Making& making) {
  if (!making.spec.has(Part::stone)) return;
  making.things(Item::stone, Part::stone, Role::stone, making[stones]);
  making.spread(Item::stone_glue, Part::stone, Role::stone_adhesive,
                making[stones] * making[stone_height] * making[stone_width]);
  making.operation(OperationKind::set_stone, making[stones]);
}

}  // namespace

void make_fittings(Making& making) {
  make_corners(making);
  make_clasps(making);
  make_furniture(making);
  make_straps(making);
  make_stones(making);
  making.things(Item::rivets, Part::whole_book, Role::rivet, making[rivets]);
  making.operation(OperationKind::set_rivets, making[rivets]);
  making.operation(OperationKind::final_press, making.spec.has(Part::text_block) ? 1 : 0);
}

}  // namespace endband
