// Rectangles to cut, in rows, each with its number in the list of pieces and, where there is room, its name
// along its grain; below, what the numbers are.
#include "cli/drawings/drawings.h"
#include "cli/drawings/sketch.h"
#include "cli/words/book_words.h"
#include "cli/words/values.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <utility>

namespace endband::cli {
namespace {

constexpr double apart = 4;          // between two pieces, mm of paper
constexpr double row_of_list = 4.2;  // mm of paper
constexpr double around_list = 34;   // title, scale and the gaps, mm of paper
constexpr double name_size = 2.8;
constexpr double narrowest = 4;  // that a name goes into, mm of paper
constexpr double beside = 0.6;   // from a piece to the number beside it, mm of paper

struct Cut {
  Piece const* piece;
  std::size_t number;  // its place in the list of pieces, from 1
  double height, width;
  Point corner;
};

double mm_of(Length length) { return static_cast<double>(length.n) / 1000; }

std::vector<Cut> cuts_of(Structure const& structure, std::function<bool(Piece const&)> const& wanted) {
  std::vector<Cut> cuts;
  for (std::size_t i = 0; i < structure.pieces.size(); ++i)
    if (Piece const& piece = structure.pieces[i]; wanted(piece))
      cuts.push_back({&piece, i + 1, mm_of(piece.height), mm_of(piece.width), {}});
  return cuts;
}

bool is_upright(Cut const& cut) { return cut.piece->grain != Grain::along_width; }

// Words as they lie along the grain, with a margin at each end: mm of paper.
double long_as(std::string const& words) { return letters_width(words, name_size) + 2; }

// Has the piece no room for its number? `scale`: mm of the piece to one of paper.
bool numbered_beside(Cut const& cut, double scale) {
  double const along = is_upright(cut) ? cut.height : cut.width;
  double const across = is_upright(cut) ? cut.width : cut.height;
  return across <= narrowest * scale || along < long_as(std::to_string(cut.number)) * scale;
}

// The width of a piece with its number, where that stands beside it.
double taken_width(Cut const& cut, double scale) {
  if (!numbered_beside(cut, scale)) return cut.width;
  return cut.width + (beside + letters_width(std::to_string(cut.number), name_size)) * scale;
}

// Side by side from the highest down, a new row where the page ends. Gives the height of all rows.
double lay_in_rows(std::vector<Cut>& cuts, double scale) {
  double x = 0;
  double y = 0;
  double row = 0;
  for (Cut& cut : cuts) {
    double const wide = taken_width(cut, scale);
    if (x > 0 && x + wide > page.width * scale) {
      y += row + apart * scale;
      x = row = 0;
    }
    cut.corner = {x, y};
    x += wide + apart * scale;
    row = std::max(row, cut.height);
  }
  return y + row;
}

double widest_of(std::vector<Cut> const& cuts, double scale) {
  double widest = 0;
  for (Cut const& cut : cuts) widest = std::max(widest, taken_width(cut, scale));
  return widest;
}

// The largest scale at which the rows and the list go on an upright page.
double lay_out_pieces(std::vector<Cut>& cuts) {
  std::stable_sort(cuts.begin(), cuts.end(), [](Cut const& a, Cut const& b) { return a.height > b.height; });
  double const list = static_cast<double>(cuts.size()) * row_of_list + around_list;
  for (double const scale : {1.0, 2.0, 5.0, 10.0}) {
    double const high = lay_in_rows(cuts, scale);
    if (widest_of(cuts, scale) <= page.width * scale && high / scale + list <= page.height) return scale;
  }
  constexpr double smallest = 20;
  lay_in_rows(cuts, smallest);
  return smallest;
}

// The name along the grain with an arrow before it; where there is no room for that the number alone.
void draw_name(Sketch& sketch, Cut const& cut) {
  bool const upright = is_upright(cut);
  bool const grained = cut.piece->grain != Grain::any;
  double const along = upright ? cut.height : cut.width;
  double const arrow = grained ? sketch.paper(9) : 0;
  std::string const number = std::to_string(cut.number);
  if (numbered_beside(cut, sketch.paper(1))) {
    sketch.text({cut.corner.x + cut.width + sketch.paper(beside), cut.corner.y + sketch.paper(name_size)},
                number, Anchor::start, name_size);
    return;
  }
  std::string words = fmt::format("{}. {}", number, item_words(cut.piece->item));
  if (along < sketch.paper(long_as(words)) + arrow) words = number;
  bool const with_arrow = grained && along > sketch.paper(long_as(words)) + arrow;
  double const shift = with_arrow ? arrow / 2 : 0;
  double const down = sketch.paper(name_size / 3);
  Point const middle{cut.corner.x + cut.width / 2, cut.corner.y + cut.height / 2};
  sketch.text(upright ? Point{middle.x + down, middle.y + shift} : Point{middle.x - shift, middle.y + down},
              words, Anchor::middle, name_size, upright);
  if (!with_arrow) return;
  double const off = sketch.paper(long_as(words)) / 2;
  sketch.add(GrainArrow{upright ? Point{middle.x, middle.y + shift - off - arrow / 2}
                                : Point{middle.x - shift + off + arrow / 2, middle.y},
                        arrow * 0.7, upright});
}

void draw_cut(Sketch& sketch, Cut const& cut) {
  sketch.add(Rectangle{cut.corner, cut.width, cut.height, Pen::outline, Fill::none});
  if (cut.piece->outline == Outline::two_corners)
    sketch.line({cut.corner.x + cut.width, cut.corner.y}, {cut.corner.x, cut.corner.y + cut.height});
  draw_name(sketch, cut);
}

std::string list_row(Cut const& cut, std::span<Material const> materials) {
  Piece const& piece = *cut.piece;
  std::string row =
      fmt::format("{}. {}, {} of {} x {} mm, {}", cut.number, item_words(piece.item), piece.count,
                  tenths_mm(piece.height), tenths_mm(piece.width), material_name(materials, piece.material));
  if (piece.grain != Grain::any) row += fmt::format(", grain {}", grain_words(piece.grain));
  if (piece.outline == Outline::two_corners) row += ", two corners from each";
  if (piece.volume > 0) row += fmt::format(", volume {}", piece.volume);
  return row;
}

std::optional<Drawing> draw_cuts(std::string name, std::string_view what, std::string_view of,
                                 std::vector<Cut> cuts, std::span<Material const> materials) {
  if (cuts.empty()) return std::nullopt;
  double const scale = lay_out_pieces(cuts);
  Sketch sketch(std::move(name), what, of, scale);
  double foot = 0;
  for (Cut const& cut : cuts) {
    draw_cut(sketch, cut);
    foot = std::max(foot, cut.corner.y + cut.height);
  }
  std::stable_sort(cuts.begin(), cuts.end(), [](Cut const& a, Cut const& b) { return a.number < b.number; });
  std::vector<std::string> rows;
  for (Cut const& cut : cuts) {
    rows.push_back(list_row(cut, materials));
    sketch.text({0, foot + sketch.paper(4 + row_of_list * static_cast<double>(rows.size()))}, rows.back(),
                Anchor::start, name_size);
  }
  return std::move(sketch).finish(fmt::format("Height by width. {}.", fmt::join(rows, "; ")));
}

}  // namespace

std::optional<Drawing> draw_box(BookSpec const& book, Structure const& structure,
                                std::span<Material const> materials) {
  return draw_cuts("box", "Pieces of the box", book.title,
                   cuts_of(structure, [](Piece const& piece) { return piece.part == Part::box; }), materials);
}

std::optional<Drawing> draw_pieces(BookSpec const& book, Structure const& structure,
                                   std::span<Material const> materials) {
  return draw_cuts("pieces", "Pieces of the book", book.title,
                   cuts_of(structure, [](Piece const& piece) { return piece.part != Part::box; }), materials);
}

}  // namespace endband::cli
