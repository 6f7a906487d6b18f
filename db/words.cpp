#include "db/words.h"

#include "db/workshop.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <stdexcept>
#include <utility>
#include <vector>

namespace endband::db {
namespace {

constexpr std::array dimension_words{"length", "area", "mass", "volume", "count", "duration"};
constexpr std::array grain_words{"any", "along-height", "along-width"};
constexpr std::array costed_words{"own", "pool"};

// Two roles may share one key of a description, so the keys do not tell them apart.
constexpr std::array role_words{"text-paper",
                                "guard-paper",
                                "endpaper",
                                "joint-leather",
                                "thread",
                                "thread-wax",
                                "cord",
                                "tape",
                                "spine-adhesive",
                                "spine-lining",
                                "spine-paper",
                                "mull",
                                "hollow-paper",
                                "stiffener",
                                "false-band",
                                "board",
                                "board-lining",
                                "lacing-adhesive",
                                "leather",
                                "sides",
                                "corner-covering",
                                "side-adhesive",
                                "cover-paste",
                                "leather-dye",
                                "leather-dressing",
                                "endband-core",
                                "second-core",
                                "endband-silk-1",
                                "endband-silk-2",
                                "endband-silk-3",
                                "endband-silk-4",
                                "endband-silk-5",
                                "endband-silk-6",
                                "made-endband",
                                "endband-adhesive",
                                "ribbon",
                                "underlay-adhesive",
                                "metal-leaf",
                                "leaf-size",
                                "leaf-varnish",
                                "edge-colour",
                                "inset-adhesive",
                                "corner",
                                "corner-adhesive",
                                "clasp",
                                "rivet",
                                "strap-leather",
                                "buckle",
                                "stone",
                                "stone-adhesive",
                                "tie",
                                "box-board",
                                "box-cloth",
                                "box-lining",
                                "box-adhesive",
                                "pastedown-adhesive",
                                "carton",
                                "padding"};
static_assert(role_words.size() == role_count);

template <class E>
constexpr E last_of = E{};
template <>
constexpr Dimension last_of<Dimension> = Dimension::duration;
template <>
constexpr MaterialKind last_of<MaterialKind> = MaterialKind::endband;
template <>
constexpr SoldBy last_of<SoldBy> = SoldBy::leaf_book;
template <>
constexpr Charging last_of<Charging> = Charging::whole;
template <>
constexpr OperationKind last_of<OperationKind> = OperationKind::extra_work;
template <>
constexpr FigureId last_of<FigureId> = static_cast<FigureId>(figure_count - 1);
template <>
constexpr Origin last_of<Origin> = Origin::none;
template <>
constexpr Role last_of<Role> = static_cast<Role>(role_count - 1);
template <>
constexpr Item last_of<Item> = Item::extra;
template <>
constexpr Part last_of<Part> = static_cast<Part>(part_count - 1);
template <>
constexpr Grain last_of<Grain> = Grain::along_width;
template <>
constexpr WarningCode last_of<WarningCode> = static_cast<WarningCode>(warning_count - 1);
template <>
constexpr HowFound last_of<HowFound> = static_cast<HowFound>(how_found_count - 1);
template <>
constexpr CostKind last_of<CostKind> = CostKind::overtime;
template <>
constexpr Component last_of<Component> = static_cast<Component>(component_count - 1);
template <>
constexpr TaxMode last_of<TaxMode> = TaxMode::included;

template <>
constexpr OutsideKind last_of<OutsideKind> = OutsideKind::other;
template <>
constexpr OutsideBy last_of<OutsideBy> = OutsideBy::skin;
template <>
constexpr SetShares last_of<SetShares> = SetShares::skin;
template <>
constexpr Lie last_of<Lie> = Lie::backbone_along_width;
template <>
constexpr Grade last_of<Grade> = Grade::back;
template <>
constexpr Outline last_of<Outline> = Outline::two_corners;
template <>
constexpr CostFormula last_of<CostFormula> = CostFormula::moving_average;
template <>
constexpr LotSource last_of<LotSource> = LotSource::custody;
template <>
constexpr Costed last_of<Costed> = Costed::pool;
template <>
constexpr MovementKind last_of<MovementKind> = MovementKind::given_back;
template <>
constexpr OutletKind last_of<OutletKind> = OutletKind::trade;
template <>
constexpr FeeBase last_of<FeeBase> = FeeBase::paid;
template <>
constexpr FeePer last_of<FeePer> = FeePer::listing;
template <>
constexpr MadeTo last_of<MadeTo> = MadeTo::business;

template <class E>
using Words = std::vector<std::pair<std::string_view, E>>;  // sorted by word

template <class E>
Words<E> all_words() {
  Words<E> words;
  for (std::size_t i = 0; i <= static_cast<std::size_t>(last_of<E>); ++i)
    words.emplace_back(word(static_cast<E>(i)), static_cast<E>(i));
  std::sort(words.begin(), words.end());
  auto const same = [](auto const& a, auto const& b) { return a.first == b.first; };
  if (std::adjacent_find(words.begin(), words.end(), same) != words.end())
    throw std::logic_error("two enumerators share one word");
  return words;
}

template <class E>
std::size_t index(E e) {
  return static_cast<std::size_t>(e);
}

}  // namespace

std::string_view word(Dimension dimension) { return dimension_words.at(index(dimension)); }
std::string_view word(MaterialKind kind) { return kind_row(kind).name; }
std::string_view word(SoldBy sold_by) { return sold_by_name(sold_by); }
std::string_view word(Charging charging) { return charging_name(charging); }
std::string_view word(OperationKind operation) { return operation_row(operation).name; }
std::string_view word(FigureId figure) { return figure_row(figure).name; }
std::string_view word(Origin origin) { return origin_name(origin); }
std::string_view word(Role role) { return role_words.at(index(role)); }
std::string_view word(Item item) { return item_name(item); }
std::string_view word(Part part) { return part_name(part); }
std::string_view word(Grain grain) { return grain_words.at(index(grain)); }
std::string_view word(WarningCode warning) { return warning_name(warning); }
std::string_view word(HowFound how) { return how_found_name(how); }
std::string_view word(CostKind kind) { return cost_kind_name(kind); }
std::string_view word(Component component) { return component_name(component); }
std::string_view word(TaxMode mode) { return tax_mode_name(mode); }
std::string_view word(OutsideKind kind) { return outside_kind_name(kind); }
std::string_view word(OutsideBy by) { return outside_by_name(by); }
std::string_view word(SetShares shares) { return set_shares_name(shares); }
std::string_view word(Lie lie) { return lie_name(lie); }
std::string_view word(Grade grade) { return grade_name(grade); }
std::string_view word(Outline outline) { return outline_name(outline); }
std::string_view word(CostFormula formula) { return formula_name(formula); }
std::string_view word(LotSource source) { return source_name(source); }
std::string_view word(Costed costed) { return costed_words.at(index(costed)); }
std::string_view word(MovementKind kind) { return movement_name(kind); }
std::string_view word(OutletKind kind) { return outlet_kind_name(kind); }
std::string_view word(FeeBase base) { return fee_base_name(base); }
std::string_view word(FeePer per) { return fee_per_name(per); }
std::string_view word(MadeTo made_to) { return made_to_name(made_to); }

template <class E>
E from_word(std::string_view text) {
  static Words<E> const words = all_words<E>();
  auto const found =
      std::lower_bound(words.begin(), words.end(), text,
                       [](auto const& row, std::string_view wanted) { return row.first < wanted; });
  if (found == words.end() || found->first != text)
    throw StoreError(FaultCode::not_a_workshop, "unknown word: " + std::string(text));
  return found->second;
}

template Dimension from_word(std::string_view);
template MaterialKind from_word(std::string_view);
template SoldBy from_word(std::string_view);
template Charging from_word(std::string_view);
template OperationKind from_word(std::string_view);
template FigureId from_word(std::string_view);
template Origin from_word(std::string_view);
template Role from_word(std::string_view);
template Item from_word(std::string_view);
template Part from_word(std::string_view);
template Grain from_word(std::string_view);
template WarningCode from_word(std::string_view);
template HowFound from_word(std::string_view);
template CostKind from_word(std::string_view);
template Component from_word(std::string_view);
template TaxMode from_word(std::string_view);
template OutsideKind from_word(std::string_view);
template OutsideBy from_word(std::string_view);
template SetShares from_word(std::string_view);
template Lie from_word(std::string_view);
template Grade from_word(std::string_view);
template Outline from_word(std::string_view);
template CostFormula from_word(std::string_view);
template LotSource from_word(std::string_view);
template Costed from_word(std::string_view);
template MovementKind from_word(std::string_view);
template OutletKind from_word(std::string_view);
template FeeBase from_word(std::string_view);
template FeePer from_word(std::string_view);
template MadeTo from_word(std::string_view);

}  // namespace endband::db
