#include "engine/book/copies.h"

#include <algorithm>
#include <stdexcept>
#include <tuple>
#include <utility>

namespace endband {
namespace {

using F = FigureId;

// Pages, sheets and sections each say how much paper there is: of a volume that says one of them, none of
// the description's others holds, nor a thickness that was measured of another count.
void forget_counts(Figures& figures) {
  for (F const id : {F::pages_wanted, F::sheets, F::sections, F::pages, F::block_thickness})
    figures.set(id, 0, Origin::none);
}

template <class Rows>
void append(Rows& to, Rows const& from) {
  to.insert(to.end(), from.begin(), from.end());
}

int highest_group(std::span<Structure const> volumes) {
  int highest = 0;
  for (Structure const& volume : volumes)
    for (Piece const& piece : volume.pieces) highest = std::max(highest, piece.skin_group);
  return highest;
}

bool same_warning(Warning const& a, Warning const& b) {
  return std::tie(a.code, a.is, a.least, a.most, a.material) ==
         std::tie(b.code, b.is, b.least, b.most, b.material);
}

void add_warning(std::vector<Warning>& warnings, Warning const& warning) {
  if (std::none_of(warnings.begin(), warnings.end(),
                   [&](Warning const& row) { return same_warning(row, warning); }))
    warnings.push_back(warning);
}

// One line for each operation, its counts summed; what is done once keeps the larger count.
void add_operation(std::vector<Operation>& operations, Operation const& operation) {
  auto const same = std::find_if(operations.begin(), operations.end(), [&](Operation const& row) {
    return row.kind == operation.kind && row.extra == operation.extra;
  });
  if (same == operations.end())
    operations.push_back(operation);
  else if (once_an_order(operation.kind))
    same->count = std::max(same->count, operation.count);
  else
    same->count += operation.count;
}

void sort_by_bench(std::vector<Operation>& operations) {
  std::stable_sort(operations.begin(), operations.end(), [](Operation const& a, Operation const& b) {
    return std::pair(a.kind, a.extra) < std::pair(b.kind, b.extra);
  });
}

// Cords and tapes of all the books hang on one frame, which wastes its length once.
void add_runs(std::vector<Run>& runs, Run const& of_one, int copies) {
  bool const on_the_frame = of_one.item == Item::cords || of_one.item == Item::tapes;
  if (!on_the_frame) {
    runs.push_back(of_one);
    runs.back().count = checked_mul(of_one.count, copies);
    return;
  }
  runs.push_back(of_one);
  if (copies == 1) return;
  runs.push_back(of_one);
  runs.back().count = checked_mul(of_one.count, copies - 1);
  runs.back().taken = of_one.each;
}

}  // namespace

bool once_an_order(OperationKind kind) {
  switch (operation_row(kind).driver) {
    case Driver::mixture:
    case Driver::bench_session:
    case Driver::enquiry:
    case Driver::approval:
    case Driver::purchase:
    case Driver::payment: return true;
    default: break;
  }
  return kind == OperationKind::photograph || kind == OperationKind::receive_custody;
}

BookSpec volume_of(BookSpec const& set, std::size_t index) {
  BookSpec book = set;
  if (set.volumes.empty()) return book;
  SetVolume const& volume = set.volumes.at(index);
  if (volume.said.has(F::pages_wanted) || volume.said.has(F::sheets) || volume.said.has(F::pages) ||
      volume.said.has(F::sections))
    forget_counts(book.given);
  for (std::size_t i = 0; i < figure_count; ++i)
    if (auto const id = static_cast<FigureId>(i); volume.said.has(id))
      book.given.set(id, volume.said[id].value, volume.said[id].origin);
  if (!volume.title.empty()) book.title = volume.title;
  if (volume.said.has(F::letters)) book.letters = volume.title;  // it is lettered with its own title
  return book;
}

std::vector<Structure> volumes_of(BookSpec const& set, Catalogue const& catalogue) {
  if (set.volumes.empty()) return {structure(set, catalogue)};
  std::vector<Structure> volumes;
  volumes.reserve(set.volumes.size());
  for (std::size_t i = 0; i < set.volumes.size(); ++i)
    volumes.push_back(structure(volume_of(set, i), catalogue));
  return volumes;
}

Structure together(std::span<Structure const> volumes, SetShares shares) {
  if (volumes.empty()) throw std::logic_error("a set of no volumes");
  if (volumes.size() == 1) return volumes.front();
  Structure set;
  set.figures = volumes.front().figures;
  set.mass = volumes.front().mass;
  set.closed_height = volumes.front().closed_height;
  set.closed_width = volumes.front().closed_width;
  set.closed_thickness = volumes.front().closed_thickness;
  int const groups = highest_group(volumes);
  for (int volume = 0; Structure const& book : volumes) {
    for (Piece piece : book.pieces) {
      piece.volume = volume + 1;
      if (piece.skin_group > 0 && shares != SetShares::skin) piece.skin_group += volume * groups;
      set.pieces.push_back(piece);
    }
    append(set.runs, book.runs);
    append(set.spreads, book.spreads);
    append(set.strips, book.strips);
    append(set.things, book.things);
    for (Operation const& operation : book.operations) add_operation(set.operations, operation);
    for (Warning const& warning : book.warnings) add_warning(set.warnings, warning);
    ++volume;
  }
  sort_by_bench(set.operations);
  return set;
}

Structure times(Structure one, int copies) {
  if (copies < 1) throw std::logic_error("less than one copy");
  one.figures.set(FigureId::copies, copies, Origin::said);
  if (copies == 1) return one;
  for (Piece& piece : one.pieces) {
    piece.count = checked_mul(piece.count, copies);
    piece.copies = copies;
  }
  std::vector<Run> runs;
  for (Run const& run : one.runs) add_runs(runs, run, copies);
  one.runs = std::move(runs);
  for (Spread& spread : one.spreads) spread.area = spread.area * copies;
  for (Strips& strips : one.strips) strips.strips = checked_mul(strips.strips, copies);
  for (Things& things : one.things) things.net.n = checked_mul(things.net.n, copies);
  // The copies of a volume are sewn on one frame; another volume has another.
  for (Operation& operation : one.operations)
    if (!once_an_order(operation.kind) && operation.kind != OperationKind::set_up_frame)
      operation.count = operation.count * copies;
  return one;
}

}  // namespace endband
