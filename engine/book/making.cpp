#include "engine/book/making.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace endband {
namespace {

constexpr double longest_cut_mm = 10'000;
constexpr double longest_run_mm = 100'000'000;         // 100 km
constexpr double largest_surface_mm2 = 1'000'000'000;  // 1000 m2

// Smaller than any tool's cut and larger than the error of a sum of doubles: 256.1 + 0.2 mm is not a
// micrometre more.
constexpr double hair = 1e-6;

void require_within(double value, double most, char const* what) {
  if (!(value >= 0 && value <= most)) throw std::logic_error(what);  // NaN as well
}

std::int64_t whole(double value) { return std::llround(value); }

struct OnSkin {
  Lay lay{};
  Grade grade = Grade::flank;
};

// Where on a skin an item may be cut. Common practice, no source: what bends or pulls lies along the
// backbone, and what is seen most or pulls hardest is cut from the back.
OnSkin on_skin(Item item) {
  constexpr Lay of_a_cover{Lie::backbone_along_height, 10};
  constexpr Lay of_a_strap{Lie::backbone_along_height, 5};
  switch (item) {
    case Item::cover_leather: return {of_a_cover, Grade::back};
    case Item::cover_sides: return {of_a_cover, Grade::flank};
    case Item::strap:
    case Item::tie: return {of_a_strap, Grade::back};
    default: return {};  // corners, onlays, linings: any way round
  }
}

}  // namespace

Length cut_to(double mm) {
  require_within(mm, longest_cut_mm, "a piece is not between 0 and 10 m");
  return {static_cast<std::int64_t>(std::ceil(mm * 1000 - hair))};
}

Length length_of(double mm) {
  require_within(mm, longest_run_mm, "a length is not between 0 and 100 km");
  return {whole(mm * 1000)};
}

Area surface(double mm2) {
  require_within(mm2, largest_surface_mm2, "a surface is not between 0 and 1000 m2");
  return {whole(mm2 * 1e6)};
}

StripPlan strips_for(double leaf_side, double lap, double width, double length, std::int64_t runs) {
  if (!(leaf_side > lap)) throw std::logic_error("a metal leaf no larger than its lap");
  double const strip_length = leaf_side - lap;
  double strip_width = width + 2 * lap;
  double abreast = 1;
  if (strip_width > leaf_side) {
    abreast = std::ceil((strip_width - lap) / strip_length - hair);
    strip_width = leaf_side;
  }
  double const full = std::floor(length / strip_length + hair);
  double const rest = length - full * strip_length;
  double strips = full * static_cast<double>(runs);
  if (rest > hair) strips += std::ceil(static_cast<double>(runs) / std::floor(strip_length / rest + hair));
  return {whole(abreast * strips), strip_width};
}

void trim_to(Piece* piece, double height, double width) {
  if (piece == nullptr) return;
  piece->trim_height = {std::max<std::int64_t>(0, piece->height.n - cut_to(height).n)};
  piece->trim_width = {std::max<std::int64_t>(0, piece->width.n - cut_to(width).n)};
}

Making::Making(BookSpec const& of_spec, Catalogue const& of_catalogue, Structure& to_book)
    : spec(of_spec), catalogue(of_catalogue), book(to_book) {
  for (std::size_t i = 0; i < role_count; ++i)
    if (spec.materials[i].origin != Origin::none) materials_[i] = &catalogue.at(spec.materials[i].material);
}

bool Making::is_leather(Role role) const {
  Material const* const of = material(role);
  return of != nullptr && of->kind == MaterialKind::leather;
}

Piece* Making::piece(Item item, Part part, Role role, double count, double height, double width,
                     int skin_group) {
  Material const* const of = material(role);
  if (of == nullptr || !(count > 0)) return nullptr;
  OnSkin const skin = is_leather(role) ? on_skin(item) : OnSkin{Lay{}, Grade::belly};
  book.pieces.push_back(Piece{.item = item,
                              .part = part,
                              .material = of->id,
                              .count = whole(count),
                              .height = cut_to(height),
                              .width = cut_to(width),
                              .grain = grain_of(*of, height, width),
                              .lay = skin.lay,
                              .grade = skin.grade,
                              .skin_group = skin_group});
  return &book.pieces.back();
}

void Making::run(Item item, Part part, Role role, double count, double each, double taken) {
  Material const* const of = material(role);
  if (of == nullptr || !(count > 0)) return;
  book.runs.push_back(Run{.item = item,
                          .part = part,
                          .material = of->id,
                          .count = whole(count),
                          .each = length_of(each),
                          .taken = length_of(taken)});
}

void Making::spread(Item item, Part part, Role role, double area_mm2, int coats, int faces) {
  Material const* const of = material(role);
  if (of == nullptr || !(area_mm2 > 0)) return;
  book.spreads.push_back(Spread{.item = item,
                                .part = part,
                                .material = of->id,
                                .area = surface(area_mm2),
                                .coats = coats,
                                .faces = faces});
}

void Making::strips(Item item, Part part, double width, double length, std::int64_t runs, int layers) {
  Material const* const leaf = material(Role::metal_leaf);
  if (leaf == nullptr || runs < 1 || layers < 1 || !(length > 0) || !(width > 0)) return;
  Length const side = leaf->properties.leaf_side.value();
  StripPlan const plan =
      strips_for(static_cast<double>(side.n) / 1000, (*this)[FigureId::leaf_lap], width, length, runs);
  book.strips.push_back(Strips{.item = item,
                               .part = part,
                               .material = leaf->id,
                               .strips = plan.strips * layers,
                               .width = cut_to(plan.width),
                               .leaf_side = side});
}

void Making::things(Item item, Part part, Role role, double count) {
  Material const* const of = material(role);
  if (of == nullptr || !(count > 0)) return;
  things(item, part, of->id, amount(Count{whole(count) * 1000}));
}

void Making::things(Item item, Part part, MaterialId of, Amount net) {
  book.things.push_back(Things{.item = item, .part = part, .material = of, .net = net});
}

void Making::operation(OperationKind kind, double count) {
  Count const thousandths{whole(count * 1000)};
  if (thousandths.n > 0)
    book.operations.push_back(
        Operation{.kind = kind, .part = operation_row(kind).part, .count = thousandths});
}

void Making::warn(WarningCode code, double is, double least, double most, MaterialId of) {
  book.warnings.push_back(Warning{.code = code, .is = is, .least = least, .most = most, .material = of});
}

Grain Making::grain_of(Material const& of, double height, double width) const {
  if (!of.properties.sheet) return Grain::along_height;
  double const first = static_cast<double>(of.properties.sheet->first.n) / 1000;
  double const second = static_cast<double>(of.properties.sheet->second.n) / 1000;
  bool const along = height <= second && width <= first;
  bool const across = height <= first && width <= second;
  return !along && across ? Grain::along_width : Grain::along_height;
}

}  // namespace endband
