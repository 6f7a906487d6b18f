// Offcuts: what is left of what a job took, on the shelf again as a lot of its own.
#include "db/cutting.h"
#include "db/materials.h"
#include "db/stock_ledger.h"

#include <algorithm>
#include <utility>

namespace endband::db {
namespace {

Where at(std::string_view field) { return {"job return", 0, 0, std::string(field)}; }

// What the job took of each lot less what it gave back; the most first.
std::vector<Held> holdings(Connection& connection, std::int64_t job, MaterialId material) {
  Statement select(
      connection,
      "SELECT lot, -sum(quantity), -sum(value) FROM movement WHERE job = ? AND material = ? AND kind IN "
      "('used', 'cut-away', 'spoiled') GROUP BY lot HAVING sum(quantity) < 0 ORDER BY sum(quantity), lot");
  select.bind(job, material);
  std::vector<Held> all;
  while (select.step()) {
    Held& held = all.emplace_back();
    select.read(held.lot.value, held.quantity, held.value);
  }
  return all;
}

std::int64_t worth_kept(Connection& connection, std::int64_t job, LotId parent) {
  Statement select(
      connection,
      "SELECT ifnull(sum(v.value), 0) FROM lot l JOIN movement v ON v.lot = l.id WHERE l.parent = ? AND "
      "v.kind = 'kept' AND v.job = ?");
  select.bind(parent.value, job).step();
  return select.value<std::int64_t>();
}

struct ParentRow {
  std::string batch, shade;
  std::optional<Thickness> thickness;
};
ParentRow load_parent(Connection& connection, LotId id) {
  Statement select(connection, "SELECT batch, shade, thickness_nm FROM lot WHERE id = ?");
  select.bind(id.value).step();
  ParentRow row;
  select.read(row.batch, row.shade, row.thickness);
  return row;
}

// The lot that it was cut from: the one named, else the one that the job took most of.
Read<Held> cut_from(Workshop& workshop, StockItem const& item, std::int64_t job, std::string_view parent,
                    Date on) {
  std::vector<Held> const held = holdings(workshop.connection(), job, item.id);
  if (held.empty())
    return refuse(
        {FaultCode::rule_refused, at("offcut"), item.code, "a material that the job has taken", {}});
  if (parent.empty()) return held.front();
  Read<Lot> const lot = lot_named(workshop, parent, on, at("from"));
  if (!lot) return tl::unexpected(lot.error());
  auto const found = std::ranges::find(held, lot->id, &Held::lot);
  if (found != held.end()) return *found;
  Fault fault{FaultCode::rule_refused,
              at("from"),
              mark_text(lot->mark),
              "a lot of " + item.code + " that the job took from",
              {}};
  for (Held const& each : held)
    fault.near.push_back(mark_text(load_lot(workshop.connection(), each.lot, on).mark));
  return refuse(std::move(fault));
}

}  // namespace

std::map<LotId, std::int64_t> kept_from(Connection& connection, std::int64_t job, MaterialId material) {
  Statement select(
      connection,
      "SELECT l.parent, sum(v.quantity) FROM movement v JOIN lot l ON l.id = v.lot WHERE v.job = ? AND "
      "v.material = ? AND v.kind = 'kept' GROUP BY l.parent");
  select.bind(job, material);
  std::map<LotId, std::int64_t> kept;
  while (select.step()) {
    LotId parent;
    std::int64_t quantity = 0;
    select.read(parent.value, quantity);
    kept[parent] = quantity;
  }
  return kept;
}

namespace {

// What is kept, however its size was found.
struct Offcut {
  Amount size;
  std::string said;
  std::optional<Length> height, width;
};

Read<LotRow> keep(Writing& writing, std::int64_t job, StockItem const& item, Material const& material,
                  std::string_view parent_mark, Offcut const& offcut, Date on, std::string_view place) {
  Workshop& workshop = writing.workshop();
  Connection& connection = workshop.connection();
  Read<Held> const held = cut_from(workshop, item, job, parent_mark, on);
  if (!held) return tl::unexpected(held.error());
  std::int64_t const left = held->quantity - kept_from(connection, job, item.id)[held->lot];
  if (offcut.size.n > left)
    return refuse({FaultCode::does_not_fit,
                   at("offcut"),
                   amount_text(offcut.size),
                   "at most " + amount_text(item.amount(left)) + ", which the job holds of it",
                   {}});
  Lot const parent = load_lot(connection, held->lot, on);
  if (auto fault = too_early(parent, {}, on, at("on"))) return refuse(*std::move(fault));
  // Shares that are each rounded must not come to more than the whole.
  std::int64_t const value = std::min(kept_value(*held, offcut.size.n, material.kept_worth),
                                      held->value - worth_kept(connection, job, held->lot));
  bool const custody = parent.source == LotSource::custody;
  ParentRow const of = load_parent(connection, held->lot);
  Money const nothing{0, workshop.currency()};
  NewLot fresh;
  fresh.letter = item.single() ? 'K' : 'L';
  fresh.item = item;
  fresh.source = custody ? LotSource::custody : LotSource::kept;
  fresh.on = on;
  fresh.parent = held->lot.value;
  fresh.owner = parent.owner;
  fresh.said = offcut.said;
  fresh.said_price = value;
  fresh.landed = {{value, workshop.currency()}, nothing, nothing, nothing, nothing,
                  {value, workshop.currency()}};
  fresh.height = offcut.height;
  fresh.width = offcut.width;
  fresh.thickness = of.thickness;
  fresh.batch = of.batch;
  fresh.shade = of.shade;
  Lot const lot = begin_lot(writing, fresh);
  if (!place.empty()) say_fact(writing, lot.id, "place", place);
  post_in(writing, lot, offcut.size.n, value, {MovementKind::kept, on, job, ""});
  return find_lot(workshop, mark_text(lot.mark));
}

Read<Material> material_of_open_job(Workshop& workshop, std::int64_t job, std::string_view code, Date on) {
  if (job_ended(workshop.connection(), job))
    return refuse({FaultCode::rule_refused,
                   at("job"),
                   job_number(workshop.connection(), job),
                   "a job that has not ended",
                   {}});
  return located(find_material(workshop, code, on), at("code"));
}

}  // namespace

Read<LotRow> keep_offcut(Writing& writing, std::int64_t job, std::string_view code,
                         std::string_view parent_mark, Length height, Length width, Date on,
                         std::string_view place) {
  Workshop& workshop = writing.workshop();
  Read<StockItem> const item = find_item(workshop, code, at("code"));
  if (!item) return tl::unexpected(item.error());
  std::string const said = length_mm(height) + " x " + length_mm(width) + " mm";
  if (height.n <= 0 || width.n <= 0)
    return refuse({FaultCode::out_of_range, at("offcut"), said, "two sides of more than nothing", {}});
  Read<Material> const material = material_of_open_job(workshop, job, code, on);
  if (!material) return tl::unexpected(material.error());
  Read<Amount> const size = located(offcut_amount(*material, height, width), at("offcut"));
  if (!size) return tl::unexpected(size.error());
  return keep(writing, job, *item, *material, parent_mark, {*size, said, height, width}, on, place);
}

Read<LotRow> keep_rest_of_skin(Writing& writing, std::int64_t job, std::string_view lot_mark,
                               Shape const& rest, Area area, Date on, std::string_view place) {
  Workshop& workshop = writing.workshop();
  Read<Lot> const lot = lot_named(workshop, lot_mark, on, at("lot"));
  if (!lot) return tl::unexpected(lot.error());
  StockItem const item = item_of(workshop, lot->material);
  if (item.sold_by != SoldBy::skin)
    return refuse(
        {FaultCode::rule_refused, at("lot"), std::string(lot_mark), "a skin, or an offcut of one", {}});
  Read<Material> const material = material_of_open_job(workshop, job, item.code, on);
  if (!material) return tl::unexpected(material.error());
  auto kept = keep(writing, job, item, *material, lot_mark,
                   {amount(area), "the rest of " + std::string(lot_mark), {}, {}}, on, place);
  if (kept) save_shape(writing, kept->id, rest);
  return kept;
}

}  // namespace endband::db
