// The bill: for each material what is used, cut away, spoiled, kept, opened and charged, each kept apart, and how it was
// found. It carries the unit costs of the day, so that nothing after it needs the catalogue.
//   consumed = net + spoil + cutting_loss          opened = consumed + kept + pack_remainder
// Both hold exactly for every line.
#pragma once

#include "engine/catalogue/catalogue.h"
#include "engine/quantities/quantities.h"

#include <cstdint>
#include <string_view>
#include <vector>

namespace endband {

enum class HowFound : std::uint8_t {
  counted,              // pieces, leaves, strips
  by_length,            // lengths off a roll, with needlefuls and frame
  by_spread,            // area x coats x faces x spread
  by_yield,             // sheets in rows and columns, grain respected
  by_usable_rectangle,  // skins: the largest rectangle one may count on, and the usable share
  as_said,              // an extra of the description
};
std::string_view how_found_name(HowFound how);

struct Use {
  Item item;
  Part part;
  Amount net;
};

struct BillLine {
  MaterialId material;
  std::int64_t material_version = 0, price_version = 0;
  HowFound how = HowFound::counted;
  // All in the material's dimension. Sheets: a count; the cutting loss is what yield leaves over of a consumed sheet
  // and is kept in the count (net is the sheets that whole yield would take, exact to a thousandth, rounded up).
  Amount net, spoil, cutting_loss, kept, pack_remainder, opened, charged;
  std::int64_t units_opened = 0;  // sheets, skins, packs
  std::vector<Use> uses;
  bool customer_supplied = false;
  Charging charging = Charging::as_used;
  UnitCost unit;          // landed; zero when customer_supplied
  Ratio kept_worth;
  Ratio ruin_chance;      // of the costly single piece
  Amount consumed() const { return net + spoil + cutting_loss; }
};

struct Bill {
  std::vector<BillLine> lines;  // by material id
};

// Faults: does_not_fit (a piece larger than its sheet or usable rectangle), no_price. Where a fault lies is the place that
// named the material (BookSpec::materials), when one did.
//   charged: as_used: consumed.  whole_less_offcuts: opened - kept_worth x kept, never less than consumed.  whole: opened.
//   taken for spoil s: ceil(net / (1 - s)) and at least net + least_spoil.
Read<Bill> settle(Needs const& needs, BookSpec const& spec, Catalogue const& catalogue);

Money material_cost(BillLine const& line);  // charged x unit cost, half away
Money outlay(BillLine const& line);         // what this order makes one buy: consumed when charged as used, else opened

}  // namespace endband
