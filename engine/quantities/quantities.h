// Structure to needs: how much of each material the book holds, before anything is lost, in the material's own
// dimension; pieces stay pieces, so that whoever cuts can see them.
#pragma once

#include "engine/book/structure.h"
#include "engine/catalogue/catalogue.h"

#include <vector>

namespace endband {

// One use of one material. Exactly one of pieces/amount carries the quantity: pieces for what is cut from sheets and
// skins, `net` always (their area, or a count, length, mass, volume).
struct Need {
  Item item;
  Part part;
  MaterialId material;
  Amount net;                  // what is in the finished book: for sheets the area-true share is not needed, see pieces
  Amount taken;                // net and what this use wastes by itself (needlefuls, frame, leaf laps)
  std::vector<Piece> pieces;   // empty unless cut from a sheet, board or skin
  bool customer_supplied = false;
};
struct Needs {
  std::vector<Need> needs;     // grouped by material in order of id, uses in book order
};

// Spread x area x coats x faces, to mass or volume rounded up; lengths, counts, leaves of strips (rounded up).
Needs quantities(Structure const& structure, BookSpec const& spec, Catalogue const& catalogue);

}  // namespace endband
