// The columns of the versions of a material: properties and price.
#pragma once

#include "db/rows.h"
#include "engine/catalogue/catalogue.h"

#include <cstdint>
#include <string>
#include <string_view>

namespace endband::db {

template <>
struct Row<Material> {  // but id and price, which lie in tables of their own
  static constexpr std::string_view table = "material_version";
  static constexpr std::string_view columns =
      "name, buyer_words, kind, sold_by, caliper_nm, grammage_mg_m2, density_kg_m3, sheet_first_um, "
      "sheet_second_um, "
      "thread_number, thread_ply, leaf_side_um, leaves_a_book, usable_height_um, usable_width_um, "
      "usable_share_num, "
      "usable_share_den, spread_mg_m2, spread_ul_m2, solids_num, solids_den, piece_mass_mg, width_um, "
      "height_um, "
      "depth_um, restricted, not_for_copper_alloys, tarnishes, spoil_num, spoil_den, dimension, least_spoil, "
      "ruin_chance_num, ruin_chance_den, charging, kept_worth_num, kept_worth_den";
  static void fields(auto const& io, auto& m) {
    auto& p = m.properties;
    io(m.name, m.buyer_words, m.kind, m.sold_by, p.caliper, p.grammage_mg, p.density_kg_m3, Pair{p.sheet},
       Pair{p.thread}, p.leaf_side, p.leaves_a_book, p.usable_height, p.usable_width, Pair{p.usable_share},
       p.spread_mg_m2, p.spread_ul_m2, Pair{p.solids}, p.piece_mass, p.width, p.height, p.depth,
       m.flags.restricted, m.flags.not_for_copper_alloys, m.flags.tarnishes, m.spoil, m.least_spoil.dimension,
       m.least_spoil.n, m.ruin_chance, m.charging, m.kept_worth);
  }
};

template <>
struct Row<PackPrice> {
  static constexpr std::string_view table = "price_version";
  static constexpr std::string_view columns =
      "valid_from, dimension, pack, price, said, said_currency, rate_num, rate_den, carriage, duty_num, "
      "duty_den, "
      "purchase_tax_num, purchase_tax_den, supplier";
  static void fields(auto const& io, auto& p) {
    io(p.valid_from, p.pack.dimension, p.pack.n, p.price, p.said.minor, p.said.currency, p.rate, p.carriage,
       p.duty, p.purchase_tax, p.supplier);
  }
};

// What `read_material` reads, of material m, material_version v and price_version p; p may be joined and
// absent.
inline std::string const material_columns = "m.id, m.code, v.id, " + columns_of("v", Row<Material>::columns) +
                                            ", p.id, " + columns_of("p", Row<PackPrice>::columns);

inline Material read_material(Statement& select) {
  Material material;
  select.read(material.id, material.code, material.version);
  Row<Material>::fields(Take{select}, material);
  if (auto const price = select.value<std::int64_t>(); price != 0) {
    material.price.emplace().version = price;
    Row<PackPrice>::fields(Take{select}, *material.price);
  }
  return material;
}

}  // namespace endband::db
