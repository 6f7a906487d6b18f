// What can be bought, as of one day: only the rows that a book names. A what-if is a changed copy.
#pragma once

#include "engine/fault/fault.h"
#include "engine/measure/measure.h"
#include "engine/money/money.h"

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace endband {

// How a material is sold; it fixes the dimension that its stock and needs are counted in.
enum class SoldBy : std::uint8_t { sheet, pad, skin, length, weight, volume, piece, leaf_book };
// sheet, pad: count of sheets; skin: area; length; weight: mass; volume; piece: count; leaf_book: leaves.
Dimension dimension_of(SoldBy sold_by);

// What a material is. A part of the book asks for kinds (BookSpec roles): no ribbon is taken for leather.
// clang-format off
enum class MaterialKind : std::uint8_t {
  paper, card, board, wood_board, leather, cloth, linen, thread, cord, core, silk, ribbon,
  adhesive, paste_powder, epoxy, dye, dressing, gilding_size, metal_leaf, varnish,
  corner, clasp, rivet, buckle, stone, wax, abrasive, packing, carton, sundry, endband
};
// clang-format on

// Properties that the calculator may need of a material. Absent ones are nullopt; a need of an absent one is
// a missing_property fault at the place that named the material.
struct Properties {
  std::optional<Thickness> caliper;           // paper, board, leather as bought; diameter of cord and core
  std::optional<std::int64_t> grammage_mg;    // mass of a square metre, mg (120 g/m2 = 120000)
  std::optional<std::int64_t> density_kg_m3;  // wood, leather, stone, metal, thread material
  std::optional<SheetSize> sheet;             // sheet, pad, board; second side along the grain
  std::optional<ThreadNumber> thread;         // linen thread, silk
  std::optional<Length> leaf_side;            // metal leaf is square
  std::optional<std::int64_t> leaves_a_book;
  std::optional<Length> usable_height;       // skin: the largest rectangle one may count on,
  std::optional<Length> usable_width;        //   height along the backbone
  std::optional<Ratio> usable_share;         // skin: usable area / charged area
  std::optional<std::int64_t> spread_mg_m2;  // adhesive by weight: wet mg for each m2, coat and face
  std::optional<std::int64_t> spread_ul_m2;  // adhesive, size, varnish, dye by volume
  std::optional<Ratio> solids;               // mass that stays when dry / wet mass
  std::optional<Mass> piece_mass;            // of one piece: corners, clasps, stones
  std::optional<Length> width;               // ribbon; roll of cloth or linen; diameter of a rivet head
  std::optional<Length> height, depth;       // stone; carton (inner)
};

// How what a job takes of a material is charged to it.
enum class Charging : std::uint8_t {
  as_used,             // what is consumed
  whole_less_offcuts,  // units opened, less the worth of what is kept of them
  whole,               // units opened: bought for this job
};

struct Flags {
  bool restricted = false;             // species or goods that need papers abroad
  bool not_for_copper_alloys = false;  // an adhesive that attacks brass
  bool tarnishes = false;              // metal leaf that is not gold
};

// A price of one pack as of a day, already in the workshop's currency.
struct PackPrice {
  std::int64_t version = 0;  // id of the immutable price row
  Date valid_from;
  Amount pack;         // what one pack holds, in the material's dimension
  Money price;         // of a pack, without purchase tax, in the workshop's currency
  Money said;          // as the supplier names it, perhaps in another currency
  Ratio rate = 1;      // workshop units for one unit of `said`
  Money carriage;      // inward carriage and clearance, a pack's share
  Ratio duty;          // of price
  Ratio purchase_tax;  // of price + carriage + duty
  std::string supplier;
};

struct MaterialId {
  std::int64_t value = 0;
  friend auto operator<=>(MaterialId, MaterialId) = default;
};

struct Material {
  MaterialId id;
  std::int64_t version = 0;  // id of the immutable row of properties
  std::string code;          // "goat-green"
  std::string name;          // the binder's: "Goat, green, 0.9"
  std::string buyer_words;   // what a buyer reads: "green goatskin"; empty: never shown to one
  MaterialKind kind = MaterialKind::sundry;
  SoldBy sold_by = SoldBy::piece;
  Properties properties;
  Flags flags;
  Ratio spoil;         // lost / taken, 0 <= s <= 9/10
  Amount least_spoil;  // in the material's dimension
  Ratio ruin_chance;   // chance that a costly piece is ruined, 0 <= p <= 9/10
  Charging charging = Charging::as_used;
  Ratio kept_worth{1, 2};          // an offcut's worth: this share of its part of the cost
  std::optional<PackPrice> price;  // in force on Catalogue::on
};

// How much of the purchase tax the workshop gets back: 0 unregistered, 1 in full.
struct BuyingRules {
  Ratio tax_recovered;
  friend bool operator==(BuyingRules const&, BuyingRules const&) = default;
};

struct Catalogue {
  Date on;
  BuyingRules buying;
  std::vector<Material> materials;  // sorted by code
  Material const* find(std::string_view code) const;
  Material const& at(MaterialId id) const;  // throws std::out_of_range
};

// What one pack costs once it lies on the shelf, each part rounded by name to a minor unit (half away):
//   duty = price x rate; tax = (price + carriage + duty) x rate; tax borne = tax - tax x recovered.
struct Landed {
  Money price, carriage, duty, tax, tax_borne;
  Money total;  // price + carriage + duty + tax_borne
};
Landed landed_cost(PackPrice const& price, BuyingRules const& buying);

// Minor units of money for one base unit of the material: landed total / pack.
struct UnitCost {
  std::int64_t minor = 0;  // landed total of a pack
  Amount pack;
  Currency currency;
};
UnitCost unit_cost(Material const& material, BuyingRules const& buying);  // requires material.price
Money cost_of(UnitCost const& unit, Amount taken);                        // line amount: half away

// clang-format off
enum class Property : std::uint8_t {
  caliper, grammage, density, sheet, thread, leaf_side, leaves_a_book, usable, usable_share, spread, solids,
  piece_mass, width, height, depth
};
// clang-format on

// One row of the table of kinds: its name, what it may be sold by, and the properties that it must have
// however it is sold; the way of selling adds its own (needs_of). A figure that follows from two others
// counts as given: grammage = density x caliper. A thread's caliper stands for its number, but for one sold
// by weight.
struct KindRow {
  MaterialKind kind;
  std::string_view name;  // "metal-leaf"
  std::string_view what;  // "leaf of gold or of brass, in books"
  std::span<SoldBy const> sold_by;
  std::span<Property const> needs;  // must be given
};
std::span<KindRow const> kind_table();
KindRow const& kind_row(MaterialKind kind);
std::optional<MaterialKind> kind_named(std::string_view name);
std::string_view sold_by_name(SoldBy sold_by);
std::optional<SoldBy> sold_by_named(std::string_view name);
std::string_view charging_name(Charging charging);
std::optional<Charging> charging_named(std::string_view name);
std::span<Property const> needs_of(SoldBy sold_by);  // a skin: usable, usable_share
std::string_view property_name(Property property);   // "leaf-side"
bool has_property(Properties const& properties, Property property);

// All faults of a material at once: kind and sold_by that do not go together, missing or absurd properties,
// shares outside their range, a pack of another dimension. `where` is copied, its `field` is the property's
// name.
std::vector<Fault> check_material(Material const& material, Where const& where);

}  // namespace endband
