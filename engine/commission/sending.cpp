#include "engine/commission/sending.h"

#include "engine/book/copies.h"
#include "engine/pricing/walk.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace endband {
namespace {

using Sides = std::array<std::int64_t, 3>;  // micrometres, ascending

// Of millimetres whole micrometres, of grams whole milligrams.
std::int64_t thousandths(double value) { return std::llround(value * 1000); }

Sides sorted(Sides sides) {
  std::sort(sides.begin(), sides.end());
  return sides;
}

std::optional<Sides> content_of(Figures const& figures) {
  using enum FigureId;
  if (!figures.has(parcel_height) || !figures.has(parcel_width) || !figures.has(parcel_thickness))
    return std::nullopt;
  double const padding = 2 * figures.value_or(padding_thickness, 0);
  return sorted({thousandths(figures.value(parcel_height) + padding),
                 thousandths(figures.value(parcel_width) + padding),
                 thousandths(figures.value(parcel_thickness) + padding)});
}

std::optional<Sides> inside_of(Material const& carton) {
  Properties const& of = carton.properties;
  if (!of.height || !of.width || !of.depth) return std::nullopt;
  return sorted({of.height->n, of.width->n, of.depth->n});
}

bool holds(Sides const& inside, Sides const& content) {
  return std::equal(content.begin(), content.end(), inside.begin(), std::less_equal<>());
}

std::int64_t volume_mm3(Sides const& sides) {
  return mul_div(mul_div(sides[0], sides[1], 1'000'000, Rounding::down), sides[2], 1000, Rounding::down);
}

Fault at_flag(Fault fault) {
  fault.where = {{}, 0, 0, fault.where.field == "country" ? "to" : "service"};
  return fault;
}

// All parcels, their goods shared equally.
Read<SentBy> sent_by(Sending const& sending, std::span<Consignment const> parcels, Money goods) {
  Money const none{0, goods.currency};
  SentBy all{sending.service.code, sending.version, sending.country, {}, {}, {}, none, none, none};
  Money const value{mul_div(goods.minor, 1, static_cast<std::int64_t>(parcels.size()), Rounding::up),
                    goods.currency};
  for (Consignment const& parcel : parcels) {
    Read<Carriage> const carriage = carriage_of(sending.service, parcel, sending.country, value);
    if (!carriage) return refuse(at_flag(carriage.error().front()));
    all.mass.n = checked_add(all.mass.n, carriage->mass.n);
    all.volumetric.n = checked_add(all.volumetric.n, carriage->volumetric.n);
    all.counted.n = checked_add(all.counted.n, carriage->counted.n);
    all.price += carriage->price;
    all.insurance += carriage->insurance;
    all.insured += carriage->insured;
  }
  return all;
}

void send(Sending const& sending, std::int64_t parcels, SentBy const& by, Sold& sold) {
  sold.delivery.carriage = by.price + by.insurance;
  if (sold.delivery.words.empty())
    sold.delivery.words = fmt::format("{} to {}", sending.service.name, sending.country);
  if (sold.selling.outlet) {
    Money const excess = sending.service.excess;
    sold.selling.outlet->returns.insured = by.insured;
    sold.selling.outlet->returns.excess = {checked_mul(excess.minor, parcels), excess.currency};
  }
  sold.sent_by = by;
}

}  // namespace

BookSpec in_smallest_carton(BookSpec book, Catalogue const& catalogue, std::span<Material const> cartons) {
  if (!book.has(Part::packing)) return book;
  std::vector<Sides> contents;
  for (Structure const& volume : volumes_of(book, catalogue))
    if (auto const content = content_of(volume.figures)) contents.push_back(*content);
  Material const* best = nullptr;
  Sides best_inside{};
  for (Material const& carton : cartons) {
    auto const inside = inside_of(carton);
    bool const fits = inside && std::all_of(contents.begin(), contents.end(),
                                            [&](Sides const& content) { return holds(*inside, content); });
    if (!fits || (best != nullptr && volume_mm3(*inside) >= volume_mm3(best_inside))) continue;
    best = &carton;
    best_inside = *inside;
  }
  if (best != nullptr)
    book.materials[static_cast<std::size_t>(Role::carton)] = {best->id, Origin::computed, {}};
  return book;
}

Read<std::vector<Consignment>> parcels_of(std::span<Structure const> volumes, int of_each) {
  using enum FigureId;
  std::vector<Consignment> parcels;
  for (Structure const& volume : volumes) {
    Figures const& figures = volume.figures;
    if (!figures.has(packed_mass) || !figures.has(packed_height))
      return refuse({FaultCode::bad_command,
                     Where{{}, 0, 0, "service"},
                     "",
                     "a book that is packed: a carton in the description, or packing.carton of the workshop",
                     {}});
    Consignment const parcel{
        Mass{thousandths(figures.value(packed_mass))},
        {Length{thousandths(figures.value(packed_height))}, Length{thousandths(figures.value(packed_width))},
         Length{thousandths(figures.value(packed_thickness))}}};
    parcels.insert(parcels.end(), static_cast<std::size_t>(of_each), parcel);
  }
  return parcels;
}

// The value insured only rises, and what is paid for the goods rises with it by bands: once a higher premium
// asks no more for the goods, they are insured.
Read<Sold> sold_and_sent(Sending const& sending, std::span<Consignment const> parcels, Sold sold,
                         OfferBy const& offered) {
  Currency const shop = sold.delivery.carriage.currency;
  Ratio const factor = exchange_factor(sold.selling, shop);
  for (Money value{0, shop};;) {
    Read<SentBy> const by = sent_by(sending, parcels, value);
    if (!by) return tl::unexpected(by.error());
    send(sending, static_cast<std::int64_t>(parcels.size()), *by, sold);
    Read<Offer> offer = offered(sold.delivery, sold.selling);
    if (!offer) return tl::unexpected(std::move(offer.error()));
    sold.offer = std::move(*offer);
    Money const goods{round_product(sold.offer.goods_shown.minor, factor, Rounding::up), shop};
    if (goods <= value) return sold;
    value = goods;
  }
}

}  // namespace endband
