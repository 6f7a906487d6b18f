// The bill: for each material what is used, cut away, spoiled, kept, opened and charged, each kept apart, and
// how it was found. It carries the unit costs of the day, so that nothing after it needs the catalogue.
//   consumed = net + spoil + cutting_loss          opened = consumed + kept + pack_remainder
// Both hold exactly for every line.
//
// The steps, for one material:
// Where a plan stands in the table and found a way to cut, gross and what must be opened are the plan's; else
// they are found by yield, and the line says so.
//
//   net       what is in the finished book. Sheets: its area / a sheet's area, to a thousandth; wide rolls:
//             its area / the width; both rounded up.
//   gross     what net is cut out of or comes with. Sheets: each piece takes 1 / (pieces a sheet yields),
//             each size rounded up to a thousandth. Skins: area / usable share, rounded up. Rolls: whole
//             rows across. All else: what each use takes (needlefuls, frame). What the description adds is
//             taken as said.
//   cutting_loss  gross - net
//   spoil     max(ceil(gross / (1 - s)), gross + least spoil) - gross
//   touched   what must be opened of it. Sheets and skins: whole ones, as many as consumed fills, and no
//             fewer than the pieces can be cut from. All else: consumed.
//   kept      touched - consumed
//   opened    touched, in whole packs; sheets only where they are charged whole. A skin is a pack. Without a
//             price nothing says what a pack is: then touched.
//   pack_remainder  opened - touched
#pragma once

#include "engine/catalogue/catalogue.h"
#include "engine/cutting/request.h"
#include "engine/quantities/quantities.h"

#include <cstdint>
#include <vector>

namespace endband {

struct Use {
  Item item;
  Part part;
  Amount net;  // in the material's dimension; the uses of a line sum to its net
};

struct BillLine {
  MaterialId material;
  std::int64_t material_version = 0, price_version = 0;
  HowFound how = HowFound::counted;
  Amount net, spoil, cutting_loss, kept, pack_remainder, opened, charged;  // all in the material's dimension
  std::int64_t units_opened = 0;  // sheets; skins; of all else packs, 0 when no price says what a pack is
  std::vector<Use> uses;
  bool customer_supplied = false;
  Charging charging = Charging::as_used;
  UnitCost unit;  // landed; zero when customer_supplied
  Ratio kept_worth;
  Ratio ruin_chance;  // of the costly single piece
  // by_plan: what the plan costs, and what any plan costs at least, in the plan's own unit; of several plans
  // their sums.
  std::int64_t plan_cost = 0, plan_bound = 0;
  bool plan_guess = false;  // on a skin that nobody has measured
  Amount consumed() const { return net + spoil + cutting_loss; }
};

struct Bill {
  std::vector<BillLine> lines;  // by material id
};

// Faults, all at once: does_not_fit (a piece larger than its sheet, roll or usable rectangle), no_price. A
// fault lies at the place that named the material (BookSpec::materials, underlays, extras), when one did.
// Charged: as_used: consumed.
//          whole_less_offcuts: opened - kept_worth x kept (rounded down), never less than consumed.
//          whole: opened.
// Never calls a solver: `plans` are those of requests() under `rules`.
Read<Bill> settle(Needs const& needs, BookSpec const& spec, Catalogue const& catalogue,
                  PlanTable const& plans = {}, CutRules const& rules = {});

// Charged x unit cost, half away.
Money material_cost(BillLine const& line);
// What this order makes one buy: consumed when charged as used, else opened.
Money outlay(BillLine const& line);

}  // namespace endband
