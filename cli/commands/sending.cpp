#include "cli/commands/sending.h"

#include "db/materials.h"
#include "db/stock.h"
#include "engine/book/copies.h"
#include "engine/book/structure.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace endband::cli {
namespace {

using Sides = std::array<std::int64_t, 3>;  // micrometres, ascending

std::int64_t micrometres(double mm) { return std::llround(mm * 1000); }

Sides sorted(Sides sides) {
  std::sort(sides.begin(), sides.end());
  return sides;
}

std::optional<Sides> parcel_content(Figures const& figures) {
  using enum FigureId;
  if (!figures.has(parcel_height) || !figures.has(parcel_width) || !figures.has(parcel_thickness))
    return std::nullopt;
  double const padding = 2 * figures.value_or(padding_thickness, 0);
  return sorted({micrometres(figures.value(parcel_height) + padding),
                 micrometres(figures.value(parcel_width) + padding),
                 micrometres(figures.value(parcel_thickness) + padding)});
}

std::optional<Sides> inside_of(Material const& carton) {
  Properties const& of = carton.properties;
  if (!of.height || !of.width || !of.depth) return std::nullopt;
  return sorted({of.height->n, of.width->n, of.depth->n});
}

bool holds(Sides const& inside, Sides const& content) {
  for (std::size_t i = 0; i < inside.size(); ++i)
    if (content[i] > inside[i]) return false;
  return true;
}

// The smallest by what is in it; of equal ones the first by code.
std::optional<std::string> smallest_on_shelf(db::Workshop& workshop, Sides const& content, Date on) {
  std::optional<std::string> best;
  Sides best_inside{};
  auto const smaller = [&](Sides const& a, Sides const& b) {
    auto const volume = [](Sides const& s) {
      return mul_div(mul_div(s[0], s[1], 1000, Rounding::down), s[2], 1'000'000, Rounding::down);
    };
    return volume(a) < volume(b);
  };
  for (Material const& carton : db::list_materials(workshop, on, MaterialKind::carton)) {
    auto const inside = inside_of(carton);
    if (!inside || !holds(*inside, content)) continue;
    auto const stock = db::on_hand(workshop, carton.code);
    if (!stock || stock->quantity.n < 1000) continue;
    if (!best || smaller(*inside, best_inside)) {
      best = carton.code;
      best_inside = *inside;
    }
  }
  return best;
}

std::string_view carton_of(Described const& described) {
  MaterialId const id = described.book.materials[static_cast<std::size_t>(Role::carton)].material;
  for (Material const& material : described.catalogue.materials)
    if (material.id == id) return material.code;
  return "";
}

Read<Parcel> parcel_of(Structure const& book, std::string const& command) {
  using enum FigureId;
  Figures const& figures = book.figures;
  if (!figures.has(packed_mass) || !figures.has(packed_height))
    return refuse({FaultCode::bad_command,
                   {command, 0, 0, "--service"},
                   "",
                   "a book that is packed: a carton in the description, or packing.carton of the workshop",
                   {}});
  return Parcel{
      Mass{micrometres(figures.value(packed_mass))},
      {Length{micrometres(figures.value(packed_height))}, Length{micrometres(figures.value(packed_width))},
       Length{micrometres(figures.value(packed_thickness))}}};
}

}  // namespace

Read<Described> in_smallest_carton(db::Workshop& workshop, Described described, Asked const& asked, Date on) {
  if (!asked.sending || !described.book.has(Part::packing)) return described;
  auto const content = parcel_content(structure(described.book, described.catalogue).figures);
  if (!content) return described;
  auto const carton = smallest_on_shelf(workshop, *content, on);
  if (!carton || *carton == carton_of(described)) return described;
  BookText said = described.said;
  std::erase_if(said.entries, [](Entry const& entry) { return entry.key == "packing.carton"; });
  said.entries.push_back({"packing.carton", -1, Value(*carton), Where{said.source, 0, 0, "packing.carton"}});
  return described_with(workshop, described, std::move(said), on);
}

Read<std::optional<SentBy>> send(Commission& commission, Sending const& sending, Priced const& priced,
                                 std::string const& command) {
  auto const parcels = static_cast<std::int64_t>(commission.book.copies) *
                       static_cast<std::int64_t>(std::max<std::size_t>(1, commission.book.volumes.size()));
  auto const parcel = parcel_of(priced.structure, command);
  if (!parcel) return tl::unexpected(parcel.error());
  Currency const currency = commission.shop.currency;
  Money const value{mul_div(priced.offer.goods_shown.minor, 1, parcels, Rounding::up), currency};
  auto const carriage = carriage_of(sending.service.service, *parcel, sending.country, value);
  if (!carriage) {
    std::vector<Fault> faults = carriage.error();
    for (Fault& fault : faults)
      fault.where = {command, 0, 0, fault.where.field == "country" ? "--to" : "--service"};
    return tl::unexpected(std::move(faults));
  }
  commission.delivery.carriage = {checked_mul(carriage->total().minor, parcels), currency};
  if (commission.delivery.words.empty())
    commission.delivery.words = fmt::format("{} to {}", sending.service.service.name, sending.country);
  if (commission.selling.outlet) {
    commission.selling.outlet->returns.insured = carriage->insured;
    commission.selling.outlet->returns.excess = sending.service.service.excess;
  }
  return SentBy{sending.service.service.code,
                sending.service.version,
                sending.country,
                carriage->mass,
                carriage->volumetric,
                carriage->counted,
                {checked_mul(carriage->price.minor, parcels), currency},
                {checked_mul(carriage->insurance.minor, parcels), currency},
                carriage->insured};
}

}  // namespace endband::cli
