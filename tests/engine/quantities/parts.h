// Rows of a structure, short to write.
#pragma once

#include "engine/quantities/quantities.h"
#include "tests/engine/catalogue/goods.h"

#include <cstdint>

namespace parts {

using namespace endband;

inline Piece piece(Item item, Part part, std::int64_t material, std::int64_t count, Length height,
                   Length width, Grain grain = Grain::along_height) {
  Piece piece{
      .item = item, .part = part, .material = {material}, .count = count, .height = height, .width = width};
  piece.grain = grain;
  return piece;
}
inline Run run(Item item, Part part, std::int64_t material, std::int64_t count, Length each, Length taken) {
  return {item, part, {material}, count, each, taken};
}
inline Spread spread(Item item, Part part, std::int64_t material, Area area, int coats = 1, int faces = 1) {
  return {item, part, {material}, area, coats, faces};
}
inline Strips strips(Item item, Part part, std::int64_t material, std::int64_t count, Length width,
                     Length side) {
  return {item, part, {material}, count, width, side};
}
inline Things things(Item item, Part part, std::int64_t material, Amount net) {
  return {item, part, {material}, net};
}

// The one need of a structure of one use.
inline Need only_need(Structure const& structure, std::vector<Material> rows) {
  Needs const needs = quantities(structure, {}, goods::catalogue(std::move(rows)));
  return needs.needs.size() == 1 ? needs.needs.front() : throw std::logic_error("not one need");
}

}  // namespace parts
