// Needs, short to write, and what settle makes of those of one material.
#pragma once

#include "engine/bill/bill.h"
#include "tests/engine/catalogue/goods.h"

#include <doctest/doctest.h>

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

namespace uses {

using namespace endband;

inline Piece piece(std::int64_t count, std::int64_t height_mm, std::int64_t width_mm,
                   Grain grain = Grain::along_height) {
  Piece piece{.item = Item::text_sheets,
              .part = Part::text_block,
              .material = {},
              .count = count,
              .height = goods::mm(height_mm),
              .width = goods::mm(width_mm)};
  piece.grain = grain;
  return piece;
}

inline Need cut(Item item, Part part, Material const& material, std::vector<Piece> pieces) {
  Need need;
  need.item = item;
  need.part = part;
  need.material = material.id;
  need.how = material.sold_by == SoldBy::skin ? HowFound::by_usable_rectangle : HowFound::by_yield;
  Area sum;
  for (Piece& row : pieces) {
    row.item = item;
    row.part = part;
    row.material = material.id;
    sum += area(row.height, row.width) * row.count;
  }
  need.net = need.taken = amount(sum);
  need.pieces = std::move(pieces);
  return need;
}

inline Need of(Item item, Part part, Material const& material, std::int64_t net, std::int64_t taken,
               HowFound how = HowFound::counted) {
  Need need;
  need.item = item;
  need.part = part;
  need.material = material.id;
  need.how = how;
  need.net = {dimension_of(material.sold_by), net};
  need.taken = {dimension_of(material.sold_by), taken};
  return need;
}
inline Need of(Material const& material, std::int64_t net) {
  return of(Item::extra, Part::extras, material, net, net, HowFound::as_said);
}

inline BillLine settled(Material const& material, std::vector<Need> needs, BuyingRules buying = {}) {
  Read<Bill> const bill = settle({std::move(needs)}, {}, goods::catalogue({material}, buying));
  REQUIRE(bill.has_value());
  REQUIRE(bill->lines.size() == 1);
  return bill->lines.front();
}

}  // namespace uses
