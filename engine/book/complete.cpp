// The given figures, completed before any rule is applied.
#include "engine/book/making.h"

#include <utility>
#include <vector>

namespace endband {
namespace {

using enum FigureId;

constexpr double leather_kg_m3 = 800;

// Figures that no key of a description names. Common practice, no source, but for the lap: a strip 6 mm wider
// than the edge it covers laps 3 mm at each side.
constexpr std::array<std::pair<FigureId, double>, 11> unnamed_practice{{
    {thread_density, 900},  // kg/m3, of linen thread as it is sewn
    {silk_density, 900},
    {leather_density, leather_kg_m3},
    {wax_pickup, 0.10},
    {tip_width, 3},
    {joint_reach, 15},
    {panel_clearance, 1},
    {leaf_lap, 3},
    {corner_leg, 30},
    {padding_density, 40},
    {carton_wall, 0},  // its inside stands for it
}};

// What stands for an absent part: none of it, so that the rules that add it up can.
constexpr std::array<std::pair<Part, FigureId>, 31> none_of_absent{{
    {Part::guards, guards},
    {Part::guards, guard_thickness},
    {Part::sewing, sewn_sections},
    {Part::sewing, thread_thickness},
    {Part::endpapers, endpapers_each_end},
    {Part::endpapers, pastedowns},
    {Part::endpapers, endpaper_thickness},
    {Part::endpapers, endpapers_mass},
    {Part::endbands, endbands},
    {Part::registers, registers},
    {Part::boards, boards},
    {Part::boards, board_thickness},
    {Part::boards, boards_mass},
    {Part::false_bands, false_bands},
    {Part::false_bands, false_band_width},
    {Part::tie, ties},
    {Part::underlays, underlay_growth},
    {Part::underlays, underlay_growth_across},
    {Part::corners, corners},
    {Part::corners, rivets_a_corner},
    {Part::clasps, clasps},
    {Part::clasps, rivets_a_clasp},
    {Part::strap, straps},
    {Part::strap, strap_rivets},
    {Part::furniture, furniture_rivets},
    {Part::stone, stones},
    {Part::lettering, letters},
    {Part::box, box_height},
    {Part::box, box_width},
    {Part::box, box_depth},
    {Part::box, box_mass},
}};

double mm(Length length) { return static_cast<double>(length.n) / 1000; }
double mm(Thickness thickness) { return static_cast<double>(thickness.n) / 1'000'000; }
double as_double(Ratio ratio) { return static_cast<double>(ratio.num()) / static_cast<double>(ratio.den()); }

double rivets_of(std::vector<Furniture> const& furniture) {
  double count = 0;
  for (Furniture const& piece : furniture) count += piece.count * piece.rivets_each;
  return count;
}

class FromCatalogue {
 public:
  explicit FromCatalogue(Making& making) : making_(making) {}

  void fill() {
    caliper(Role::text_paper, leaf_caliper);
    grammage(Role::text_paper, leaf_grammage);
    caliper(Role::guard_paper, guard_caliper);
    caliper(Role::endpaper, endpaper_caliper);
    grammage(Role::endpaper, endpaper_grammage);
    thread(Role::thread, thread_tex, thread_density);
    caliper(Role::cord, support_thickness);
    caliper(Role::tape, support_thickness);
    width(Role::tape, support_width);
    caliper(Role::board, board_thickness);
    density(Role::board, board_density);
    caliper(Role::leather, leather_bought);
    density(Role::leather, leather_density);
    caliper(Role::sides, side_thickness);
    density(Role::sides, side_density);
    caliper(Role::stiffener, stiffener_thickness);
    caliper(Role::endband_core, core_thickness);
    caliper(Role::second_core, second_core_thickness);
    thread(Role::endband_silk_1, silk_tex, silk_density);
    width(Role::corner, corner_leg);
    width(Role::stone, stone_width);
    height(Role::stone, stone_height);
    caliper(Role::box_board, box_board_thickness);
    caliper(Role::box_cloth, box_cloth_thickness);
    caliper(Role::box_lining, box_lining_thickness);
    density(Role::padding, padding_density);
    height(Role::carton, carton_height);
    width(Role::carton, carton_width);
    depth(Role::carton, carton_depth);
    caliper(Role::carton, carton_wall);
  }

 private:
  void set(FigureId id, double value) {
    if (!making_.has(id)) making_.book.figures.set(id, value, Origin::catalogue);
  }
  void caliper(Role role, FigureId id) {
    Material const* const of = making_.material(role);
    if (of != nullptr && of->properties.caliper) set(id, mm(*of->properties.caliper));
  }
  void grammage(Role role, FigureId id) {
    Material const* const of = making_.material(role);
    if (of != nullptr && of->properties.grammage_mg)
      set(id, static_cast<double>(*of->properties.grammage_mg) / 1000);
  }
  void density(Role role, FigureId id) {
    Material const* const of = making_.material(role);
    if (of != nullptr && of->properties.density_kg_m3)
      set(id, static_cast<double>(*of->properties.density_kg_m3));
  }
  void thread(Role role, FigureId id, FigureId density_id) {
    Material const* const of = making_.material(role);
    if (of != nullptr && of->properties.thread) set(id, as_double(tex(*of->properties.thread)));
    density(role, density_id);
  }
  void width(Role role, FigureId id) {
    Material const* const of = making_.material(role);
    if (of != nullptr && of->properties.width) set(id, mm(*of->properties.width));
  }
  void depth(Role role, FigureId id) {
    Material const* const of = making_.material(role);
    if (of != nullptr && of->properties.depth) set(id, mm(*of->properties.depth));
  }
  void height(Role role, FigureId id) {
    Material const* const of = making_.material(role);
    if (of != nullptr && of->properties.height) set(id, mm(*of->properties.height));
  }

  Making& making_;
};

void complete_box(Making& making) {
  Figures& figures = making.book.figures;
  // A box alone leaves empty, unless the mass of its book is said.
  if (!making.spec.has(Part::text_block) && !figures.has(book_mass))
    figures.set(book_mass, 0, Origin::practice);
  bool const padded = making.material(Role::padding) != nullptr;
  if (!padded && figures[padding_thickness].origin == Origin::practice)
    figures.set(padding_thickness, 0, Origin::practice);
}

// What the ways leave nothing of.
void complete_sewing(Making& making) {
  auto const none_of = [&](FigureId id) {
    if (!making.has(id)) making.book.figures.set(id, 0, Origin::practice);
  };
  BookSpec const& spec = making.spec;
  if (spec.ways.has(Way::uncut)) {
    none_of(head_tail_trim);
    none_of(fore_edge_trim);
  }
  // A board that is lined has no pastedown.
  if (making.material(Role::board_lining) != nullptr) none_of(pastedowns);
  if (!spec.has(Part::text_block)) return;
  if (spec.ways.has(Way::unsupported)) none_of(supports);
  // Of cords that came with their block nobody knows how far they stand out, unless the bands were measured.
  if (spec.ways.has(Way::unsupported) || !spec.has(Part::sewing)) none_of(support_thickness);
}

// What only leather can be, and what a back has nothing of.
void complete_covering(Making& making) {
  Figures& figures = making.book.figures;
  if (!making.spec.has(Part::cover)) return;
  if (making.material(Role::leather) != nullptr && !making.is_leather(Role::leather)) {
    if (making.has(leather_bought))
      figures.set(leather_pared, making[leather_bought], figures[leather_bought].origin);
    if (figures[leather_stretch].origin != Origin::said) figures.set(leather_stretch, 0, Origin::catalogue);
    figures.set(pare_length, 0, Origin::catalogue);
  }
  if (making.is_leather(Role::sides) && !making.has(side_density))
    figures.set(side_density, leather_kg_m3, Origin::practice);
  // A wrapper that is not turned in ends at its cut edge.
  if (making.spec.ways.has(Way::wrapper) && !(figures.value_or(turn_in, 0) > 0))
    figures.set(pare_length, 0, Origin::practice);
  if (making.spec.ways.has(Way::loose) && making.material(Role::stiffener) == nullptr)
    figures.set(stiffener_thickness, 0, Origin::practice);
}

}  // namespace

void complete(Making& making) {
  Figures& figures = making.book.figures;
  FromCatalogue(making).fill();
  for (auto const& [part, id] : none_of_absent)
    if (!making.spec.has(part)) figures.set(id, 0, Origin::practice);
  complete_box(making);
  // A block that comes sewn has its swell in the thickness that was measured.
  if (!making.spec.has(Part::sewing) && !figures.has(swell)) figures.set(swell, 0, Origin::practice);
  if (!figures.has(endband_colours) && making.spec.has(Part::endbands) &&
      !making.spec.ways.has(Way::stuck_on))
    figures.set(endband_colours, static_cast<double>(silk_shares(making.spec).size()),
                making.spec.chosen(Role::endband_silk_1).origin);
  if (!figures.has(furniture_rivets))
    figures.set(furniture_rivets, rivets_of(making.spec.furniture), Origin::said);
  complete_sewing(making);
  complete_covering(making);
  for (auto const& [id, value] : unnamed_practice)
    if (!figures.has(id)) figures.set(id, value, Origin::practice);
}

}  // namespace endband
