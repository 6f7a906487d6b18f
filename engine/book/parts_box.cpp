// The box: its boards, covering and linings. The rules say how its pieces lie.
#include "engine/book/making.h"

namespace endband {

using enum FigureId;

namespace {

// Cuts one kind of material for the box and keeps count of it.
class Cutting {
 public:
  Cutting(Making& making, Role role) : making_(making), role_(role) {}

  void piece(Item item, double count, double height, double width) {
    making_.piece(item, Part::box, role_, count, height, width);
    count_ += count;
    area_ += count * height * width;
  }
  double count() const { return count_; }
  double area() const { return area_; }  // mm2

 private:
  Making& making_;
  Role role_;
  double count_ = 0;
  double area_ = 0;
};

struct Cut {
  Cutting boards, cloth, linings;
  double built = 0;         // boards joined edge to edge; those of a case lie apart
  double glued_joints = 0;  // mm2
};

void cut_slipcase(Making const& making, Cut& cut) {
  double const between = making[slipcase_back_width];
  double const side_height = making[slipcase_side_height];
  double const side_width = making[slipcase_side_width];
  cut.boards.piece(Item::slipcase_sides, 2, side_height, side_width);
  cut.boards.piece(Item::slipcase_ends, 2, side_width, between);
  cut.boards.piece(Item::slipcase_back, 1, making[slipcase_back_height], between);
  cut.built = cut.boards.count();
  // Top and bottom between the sides; the back between the sides, and between top and bottom.
  double const edges = 4 * side_width + 2 * making[slipcase_back_height] + 2 * between;
  cut.glued_joints = edges * making[box_board_thickness];

  cut.cloth.piece(Item::slipcase_strip, 1, making[slipcase_strip_length], making[slipcase_strip_width]);
  cut.cloth.piece(Item::slipcase_side_cloths, 2, side_height, making[slipcase_side_cloth_width]);
  cut.linings.piece(Item::slipcase_strip_lining, 1, making[slipcase_lining_length], between);
  cut.linings.piece(Item::slipcase_side_linings, 2, making[slipcase_back_height],
                    making[slipcase_lining_width]);
}

struct Tray {
  Item base, walls, cloth, lining;
  FigureId height, width, wall, end_wall, cloth_length, cloth_width, lining_height, lining_width;
};
constexpr Tray inner_tray{Item::inner_tray_base,   Item::inner_tray_walls,   Item::inner_tray_cloth,
                          Item::inner_tray_lining, inner_tray_height,        inner_tray_width,
                          inner_tray_wall,         inner_tray_end_wall,      inner_tray_cloth_length,
                          inner_tray_cloth_width,  inner_tray_lining_height, inner_tray_lining_width};
constexpr Tray outer_tray{Item::outer_tray_base,   Item::outer_tray_walls,   Item::outer_tray_cloth,
                          Item::outer_tray_lining, outer_tray_height,        outer_tray_width,
                          outer_tray_wall,         outer_tray_end_wall,      outer_tray_cloth_length,
                          outer_tray_cloth_width,  outer_tray_lining_height, outer_tray_lining_width};

void cut_tray(Making const& making, Cut& cut, Tray const& tray) {
  double const height = making[tray.height];
  double const end_wall = making[tray.end_wall];
  double const wall = making[tray.wall];
  cut.boards.piece(tray.base, 1, height, making[tray.width]);
  cut.boards.piece(tray.walls, 1, height, wall);
  cut.boards.piece(tray.walls, 2, end_wall, wall);
  cut.cloth.piece(tray.cloth, 1, making[tray.cloth_length], making[tray.cloth_width]);
  cut.linings.piece(tray.lining, 1, making[tray.lining_height], making[tray.lining_width]);
  // The walls on the base and against each other; the base on the case.
  double const edges = height + 2 * end_wall + 2 * wall;
  cut.glued_joints += edges * making[box_board_thickness] + height * making[tray.width];
}

void cut_drop_spine(Making const& making, Cut& cut) {
  cut_tray(making, cut, inner_tray);
  cut_tray(making, cut, outer_tray);
  double const height = making[box_case_board_height];
  cut.built = cut.boards.count();
  cut.boards.piece(Item::box_case_boards, 2, height, making[box_case_board_width]);
  cut.boards.piece(Item::box_case_spine, 1, height, making[box_case_spine_width]);
  cut.cloth.piece(Item::box_case_cloth, 1, making[box_case_cloth_height], making[box_case_cloth_width]);
  cut.linings.piece(Item::box_case_lining, 1, making[box_case_lining_height], making[box_case_lining_width]);
}

}  // namespace

void make_box(Making& making) {
  if (!making.spec.has(Part::box)) return;
  Cut cut{{making, Role::box_board}, {making, Role::box_cloth}, {making, Role::box_lining}};
  if (making.spec.ways.has(Way::slipcase))
    cut_slipcase(making, cut);
  else
    cut_drop_spine(making, cut);

  making.spread(Item::box_joint_glue, Part::box, Role::box_adhesive, cut.glued_joints);
  making.spread(Item::box_cloth_glue, Part::box, Role::box_adhesive, cut.cloth.area());
  making.spread(Item::box_lining_glue, Part::box, Role::box_adhesive, cut.linings.area());
  making.operation(OperationKind::cut_box_boards, cut.boards.count());
  making.operation(OperationKind::build_box, cut.built);
  making.operation(OperationKind::cover_box, cut.cloth.count());
  making.operation(OperationKind::line_box, cut.linings.count());
  if (!making.has(box_mass))
    making.book.figures.set(box_mass, mass_made(making, Part::box), Origin::catalogue);
}

}  // namespace endband
