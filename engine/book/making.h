// What the parts of a book are made from and what they add to. Private to engine/book.
#pragma once

#include "engine/book/structure.h"

#include <array>
#include <vector>

namespace endband {

// Dimensions leave double millimetres here. `cut_to` rounds up to the micrometre, for what is cut;
// `length_of` to the nearest, for what comes off a roll; `surface` to the nearest square micrometre. NaN,
// infinity and a cut of more than 10 m throw std::logic_error: the ranges of a description cannot reach them.
Length cut_to(double mm);
Length length_of(double mm);
Area surface(double mm2);

// The lengths and strips of metal leaf.
struct StripPlan {
  std::int64_t strips = 0;
  double width = 0;  // mm, the overlap in
};
// `runs` straight runs of `length` by `width`, of one layer. A strip is as long as the leaf less one lap and
// overlaps by a lap at both sides; what a run leaves of a strip serves the next run when it is long enough. A
// run wider than a leaf is laid in strips of the leaf's whole side, each a lap over its neighbour.
StripPlan strips_for(double leaf_side, double lap, double width, double length, std::int64_t runs);

// Leather that must come from one skin: the cover with all that is cut of the same material; straps of
// another.
inline constexpr int skin_of_the_cover = 1;
inline constexpr int skin_of_the_straps = 2;

// What is left of a piece once it has been trimmed in its place, all its leaves together; nullptr: no piece.
void trim_to(Piece* piece, double height, double width);

class Making {
 public:
  Making(BookSpec const& spec, Catalogue const& catalogue, Structure& book);

  BookSpec const& spec;
  Catalogue const& catalogue;
  Structure& book;

  double operator[](FigureId id) const { return book.figures.value(id); }
  bool has(FigureId id) const { return book.figures.has(id); }
  // The material of a role; nullptr when the part is absent or needs none.
  Material const* material(Role role) const { return materials_[static_cast<std::size_t>(role)]; }

  bool is_leather(Role role) const;

  // Each does nothing when the role has no material or there is nothing of it; `piece` tells which it made.
  Piece* piece(Item item, Part part, Role role, double count, double height, double width,
               int skin_group = 0);
  void run(Item item, Part part, Role role, double count, double each, double taken);
  void spread(Item item, Part part, Role role, double area_mm2, int coats = 1, int faces = 1);
  void strips(Item item, Part part, double width, double length, std::int64_t runs, int layers);
  void things(Item item, Part part, Role role, double count);
  void things(Item item, Part part, MaterialId material, Amount net);
  // `count` of the operation's driver; none: no operation.
  void operation(OperationKind kind, double count);
  void warn(WarningCode code, double is = 0, double least = 0, double most = 0, MaterialId material = {});

  // Paper, card, board and linen lie with their grain along the height, unless the sheet is too small for
  // that and turned it would do.
  Grain grain_of(Material const& material, double height, double width) const;

 private:
  std::array<Material const*, role_count> materials_{};
};

// Completes the given figures: from the catalogue, with nothing of what is absent, and by practice where no
// key of a description names the figure.
void complete(Making& making);

// One for each part, in the order of the book.
void make_text_block(Making& making);
void make_guards(Making& making);
void make_endpapers(Making& making);
void make_sewing(Making& making);
void make_spine(Making& making);
void make_boards(Making& making);
void make_endbands(Making& making);
void make_registers(Making& making);
void make_edges(Making& making);
void make_underlays(Making& making);
void make_cover(Making& making);
void make_wrapper(Making& making);
void make_ties(Making& making);
void make_finishing(Making& making);
void make_insets(Making& making);
void make_fittings(Making& making);
void make_repairs(Making& making);
void make_box(Making& making);
void make_packing(Making& making);
void make_office_and_extras(Making& making);

// The share of a silk in the wraps of every endband: by the pattern that is said, else each in its turn.
// Together they are 1; a silk that no wrap is of has none.
struct SilkShare {
  Role role;
  double share = 0;
};
std::vector<SilkShare> silk_shares(BookSpec const& spec);

// Of the covering, whatever its pieces: what is cut of leather and of anything else; dye and dressing.
void count_cuts(Making& making);
void dye_and_dress(Making& making);
// The group of pieces that come from one skin with the cover; 0: of another material, or no skin.
int skin_with_cover(Making const& making, Role role);

// What underlays add to the leather, once the boards are known.
void grow_for_underlays(Making& making);
// Sets fittings_mass and sundries_mass from the catalogue's masses of all that was made.
void weigh(Making& making);
// g of what was made for a part so far, each row by the catalogue's masses.
double mass_made(Making const& making, Part part);
void warn_of_dimensions(Making& making);
void warn_of_sewing(Making& making);
void warn_of_materials(Making& making);
void warn_of_finishing(Making& making);

}  // namespace endband
