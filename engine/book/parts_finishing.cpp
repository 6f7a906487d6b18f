// Lines, metal leaf and lettering.
#include "engine/book/making.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace endband {

using enum FigureId;

namespace {

struct Runs {  // straight runs of one length
  double length = 0;
  std::int64_t count = 0;
};

struct Side {  // of the cover: a board, or as much of a wrapper
  double height = 0, width = 0;
};

Side side_of(Making const& making) {
  if (making.spec.has(Part::boards)) return {making[board_height], making[board_width]};
  double const edge = making.book.figures.value_or(square, 0);
  return {making[leaf_height] + 2 * edge, making[leaf_width] + edge};
}

// A frame has four sides on both sides of the book. A further frame is set in by twice the line's width: a
// line and a gap.
std::array<Runs, 2> sides_of_frame(Making const& making, Lines const& lines, int frame) {
  double const inset = 2 * (lines.inset_mm + frame * 2 * lines.width_mm);
  Side const side = side_of(making);
  constexpr std::int64_t runs = 4;  // two of each direction on either side
  return {Runs{std::max(0.0, side.height - inset), runs}, Runs{std::max(0.0, side.width - inset), runs}};
}

struct Totals {
  double blind = 0;   // mm of line
  double leaf = 0;    // mm of line, of one layer
  double laid = 0;    // mm of line, all layers
  double gilded = 0;  // mm2
};

void add(Making& making, Lines const& lines, Runs runs, Totals& totals) {
  double const length = runs.length * static_cast<double>(runs.count);
  if (lines.kind == LineKind::blind) {
    totals.blind += length;
    return;
  }
  totals.leaf += length;
  totals.laid += length * lines.layers;
  totals.gilded += length * lines.width_mm;
  making.strips(Item::leaf_lines, Part::lines, lines.width_mm, runs.length, runs.count, lines.layers);
}

void add(Making& making, Lines const& lines, Totals& totals) {
  switch (lines.layout) {
    case LineLayout::frame:
      for (int frame = 0; frame < lines.count; ++frame)
        for (Runs const runs : sides_of_frame(making, lines, frame)) add(making, lines, runs, totals);
      return;
    case LineLayout::bands:  // both sides of every band, across the spine
      add(making, lines, Runs{making[arc], 2 * std::llround(making[bands]) * lines.count}, totals);
      return;
    case LineLayout::length: add(making, lines, Runs{lines.length_mm, lines.count}, totals); return;
  }
}

// Each line of the title is laid as one band of leaf, as high as a letter.
void gild_title(Making& making, Totals& totals) {
  double const layers = making.book.figures.value_or(letter_layers, 0);
  double const length = making[letters] * making[letter_pitch];
  double const lines = making.book.figures.value_or(letter_lines, 1);
  making.strips(Item::leaf_letters, Part::lettering, making[letter_height], length / lines,
                std::llround(lines), static_cast<int>(std::lround(layers)));
  if (layers > 0 && making.material(Role::metal_leaf) != nullptr)
    totals.gilded += length * making[letter_height];
}

void letter(Making& making, Totals& totals) {
  if (!(making[letters] > 0)) return;
  gild_title(making, totals);
  if (making.spec.ways.has(Way::by_letter))
    return making.operation(OperationKind::letter_title, making[impressions]);
  if (making.spec.ways.has(Way::by_line)) making.operation(OperationKind::set_type, making[letters]);
  making.operation(OperationKind::press_impressions, making[impressions]);
}

}  // namespace

void make_finishing(Making& making) {
  Totals totals;
  if (making.spec.has(Part::lines))
    for (Lines const& lines : making.spec.lines) add(making, lines, totals);
  if (making.spec.has(Part::lettering)) letter(making, totals);
  making.spread(Item::leaf_size, Part::lines, Role::leaf_size, totals.gilded);
  making.spread(Item::leaf_varnish, Part::lines, Role::leaf_varnish, totals.gilded);
  making.operation(OperationKind::blind_lines, totals.blind / 1000);
  making.operation(OperationKind::size_lines, totals.leaf / 1000);
  making.operation(OperationKind::lay_leaf, totals.laid / 1000);
  bool const varnished = making.material(Role::leaf_varnish) != nullptr;
  making.operation(OperationKind::varnish_leaf, varnished ? totals.leaf / 1000 : 0);
}

}  // namespace endband
