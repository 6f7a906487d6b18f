// What was said of a lot when it began is what came in, read as it was then: "2 packs" by the pack of that
// day's price.
#include "db/check.h"
#include "db/material_rows.h"
#include "db/statement.h"
#include "engine/stock/quantity_said.h"

namespace endband::db {
namespace {

struct Begun {
  std::int64_t id = 0, movement = 0;
  std::string source, said;
  bool for_a_job = false;
  std::optional<Length> height, width;
  Amount quantity;
};

// What the program itself says of a lot that was counted, or that a past job took: for people, to three
// figures and without a unit of what is counted.
std::optional<Amount> read_rounded(Begun const& lot) {
  if (lot.source != "opening" && lot.source != "found" && !lot.for_a_job) return std::nullopt;
  if (lot.quantity.dimension == Dimension::count) {
    Read<Count> const count = read_count(lot.said);
    return count ? std::optional(amount(*count)) : std::nullopt;
  }
  Read<Amount> const said = read_amount(lot.said);
  return said ? std::optional(*said) : std::nullopt;
}

bool about(Amount said, Amount is) {
  std::int64_t const apart = said.n > is.n ? said.n - is.n : is.n - said.n;
  return said.dimension == is.dimension && apart <= is.n / 200;
}

void check_begun(Findings& findings, Begun const& lot, Material const& material) {
  Read<SaidQuantity> const said = read_quantity_of(material, lot.said, Least::something);
  std::optional<Amount> const rounded = read_rounded(lot);
  if (lot.said == amount_text(lot.quantity)) return;  // whoever wrote it, to three figures
  bool const silent = !said && !rounded;              // "the rest of K1"
  bool const agrees = (said && said->amount == lot.quantity) || (rounded && about(*rounded, lot.quantity));
  if (!silent && !agrees)
    findings.add("movement", lot.movement, "brings " + amount_text(lot.quantity),
                 lot.said + ", as its lot says");
  if (said && said->height && (said->height != lot.height || said->width != lot.width))
    findings.add("lot", lot.id, "has other sides", lot.said + ", as was said");
}

// The versions that were in force, by the entries there were, when the lot began.
std::string in_force(std::string const& table) {
  return "(SELECT id FROM " + table +
         " WHERE material = l.material AND valid_from <= l.on_date AND entry <= l.entry "
         "ORDER BY valid_from DESC, id DESC LIMIT 1)";
}

}  // namespace

void check_lots_said(Findings& findings) {
  static std::string const sql =
      "SELECT l.id, b.id, l.source, l.said, l.job IS NOT NULL, l.height_um, l.width_um, l.dimension, "
      "b.quantity, " +
      material_columns +
      " FROM lot l JOIN movement b ON b.id = (SELECT min(id) FROM movement WHERE lot = l.id) "
      "JOIN material m ON m.id = l.material JOIN material_version v ON v.id = " +
      in_force("material_version") + " LEFT JOIN price_version p ON p.id = " + in_force("price_version");
  Statement select(findings.connection(), sql);
  while (select.step()) {
    Begun lot;
    select.read(lot.id, lot.movement, lot.source, lot.said, lot.for_a_job, lot.height, lot.width,
                lot.quantity.dimension, lot.quantity.n);
    check_begun(findings, lot, read_material(select));
  }
}

}  // namespace endband::db
