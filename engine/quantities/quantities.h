// Structure to needs: how much of each material the book holds, before anything is lost, in the material's
// own dimension; pieces stay pieces, so that whoever cuts can see them.
#pragma once

#include "engine/book/structure.h"
#include "engine/catalogue/catalogue.h"

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

namespace endband {

// A line found in several ways is said to be found by the last of them in this order.
enum class HowFound : std::uint8_t {
  as_said,              // an extra of the description
  counted,              // pieces, leaves, strips
  by_length,            // lengths off a roll, with needlefuls and frame
  by_spread,            // area x coats x faces x spread
  by_yield,             // sheets in rows and columns, rows across a roll, grain respected
  by_usable_rectangle,  // skins: the largest rectangle one may count on, and the usable share
  by_plan,              // cut to a plan over what is sold
};
inline constexpr std::size_t how_found_count = static_cast<std::size_t>(HowFound::by_plan) + 1;
std::string_view how_found_name(HowFound how);  // "by-usable-rectangle"

// One use of one material.
struct Need {
  Item item;
  Part part;
  MaterialId material;
  HowFound how = HowFound::counted;
  Amount net;    // what is in the finished book, in the material's dimension; of pieces their area
  Amount taken;  // net and what this use wastes by itself (needlefuls, frame)
  std::vector<Piece> pieces;  // what is cut from a sheet, a skin or a wide roll; else empty
  std::vector<Run> runs;      // lengths of what is sold by length; else empty
  bool customer_supplied = false;
};
struct Needs {
  std::vector<Need> needs;  // grouped by material in order of id, uses in book order (part, then item)
};

// Pieces: as they are. Runs: count x length; a thread sold by weight by its tex, rounded up to a milligram.
// Spreads: area x coats x faces of a use x spread, rounded up to a milligram or microlitre. Strips of one
// width in one use: strips / floor(leaf side / strip width) leaves, rounded up to whole ones; a strip wider
// than a leaf is laid of ceil(width / side) leaves. Things: as they are. Throws std::logic_error when a
// material cannot be counted in the way its use asks: resolve lets none through.
Needs quantities(Structure const& structure, BookSpec const& spec, Catalogue const& catalogue);

}  // namespace endband
