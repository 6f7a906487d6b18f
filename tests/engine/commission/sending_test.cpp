#include "engine/commission/sending.h"

#include "orders.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <span>

using namespace endband;
using namespace endband::testing;

namespace {

CarriageService service() {
  CarriageService service;
  service.code = "wend";
  service.name = "Wend parcels";
  service.zones = {{{"AT"}, {{Mass{2'000'000}, eur(6'00)}, {Mass{10'000'000}, eur(9'00)}}}};
  service.cover = eur(50'00);
  service.excess = eur(10'00);
  service.insurance = {{eur(500'00), eur(3'00)}, {eur(600'00), eur(40'00)}, {eur(5000'00), eur(95'00)}};
  return service;
}
Sending sending() { return {service(), 7, "AT", {}}; }

std::vector<Consignment> parcels(std::size_t count) {
  return std::vector<Consignment>(count, {Mass{800'000}, {Length{200'000}, Length{150'000}, Length{40'000}}});
}

Sold unsold() {
  Sold sold{{eur(0), ""}, {}, std::nullopt, {}};
  sold.selling.outlet = Outlet{};
  sold.selling.outlet->currency = euro();
  return sold;
}

// Asks so much for the goods as its carriage and a base come to.
OfferBy asking(Money base, int& asked) {
  return [base, &asked](Delivery const& delivery, SellingRules const&) -> Read<Offer> {
    ++asked;
    Offer offer;
    offer.goods_shown = base + delivery.carriage;
    return offer;
  };
}

}  // namespace

TEST_CASE("goods are insured for what the buyer pays for them, though the premium raises it") {
  int asked = 0;
  // 480 and 6 of carriage: 3 of premium; 489 is still insured by it
  Sold const sold = sold_and_sent(sending(), parcels(1), unsold(), asking(eur(480'00), asked)).value();
  CHECK(sold.delivery.carriage == eur(9'00));
  CHECK(sold.offer.goods_shown == eur(489'00));
  CHECK(sold.sent_by.value().insured >= sold.offer.goods_shown);
  // 495 + 9 leaves the first band; 495 + 46 is in the second
  Sold const next = sold_and_sent(sending(), parcels(1), unsold(), asking(eur(495'00), asked)).value();
  CHECK(next.sent_by.value().insurance == eur(40'00));
  CHECK(next.sent_by.value().insured >= next.offer.goods_shown);
  // 570 + 46 leaves the second too
  Sold const third = sold_and_sent(sending(), parcels(1), unsold(), asking(eur(570'00), asked)).value();
  CHECK(third.sent_by.value().insurance == eur(95'00));
  CHECK(third.sent_by.value().insured >= third.offer.goods_shown);
}

TEST_CASE("several parcels share the goods, and a loss is paid as the service says") {
  int asked = 0;
  Sold const sold = sold_and_sent(sending(), parcels(4), unsold(), asking(eur(160'00), asked)).value();
  CHECK(sold.delivery.carriage == eur(24'00));  // 46.00 each is within the cover
  CHECK(sold.sent_by.value().insurance == eur(0));
  CHECK(sold.sent_by.value().mass == Mass{3'200'000});
  CHECK(sold.selling.outlet->returns.insured == eur(200'00));
  CHECK(sold.selling.outlet->returns.excess == eur(40'00));
  CHECK(sold.delivery.words == "Wend parcels to AT");
}

TEST_CASE("tickets in other money are insured for what they are worth here") {
  int asked = 0;
  Sold abroad = unsold();
  abroad.selling.outlet->exchange.rate = Ratio(1, 2);
  Sold const sold = sold_and_sent(sending(), parcels(1), abroad, asking(eur(480'00), asked)).value();
  CHECK(sold.sent_by.value().insured == eur(244'50));  // half of 489.00
}

TEST_CASE("what carriage refuses is told at the flag that asks for it") {
  int asked = 0;
  Sending to_nowhere = sending();
  to_nowhere.country = "JP";
  auto const nowhere = sold_and_sent(to_nowhere, parcels(1), unsold(), asking(eur(1), asked));
  REQUIRE_FALSE(nowhere);
  CHECK(nowhere.error().front().where.field == "to");
  auto const too_dear = sold_and_sent(sending(), parcels(1), unsold(), asking(eur(6000'00), asked));
  REQUIRE_FALSE(too_dear);
  CHECK(too_dear.error().front().where.field == "service");
}

TEST_CASE("a book lies in the smallest carton that holds it") {
  Commission const order = an_order(1);
  auto const carton = [&](std::int64_t id, Length height, Length width, Length depth) {
    Material material = *std::find_if(order.catalogue.materials.begin(), order.catalogue.materials.end(),
                                      [](Material const& each) { return each.kind == MaterialKind::carton; });
    material.id = MaterialId{id};
    material.properties.height = height;
    material.properties.width = width;
    material.properties.depth = depth;
    return material;
  };
  std::vector<Material> const cartons{
      carton(901, Length{900'000}, Length{700'000}, Length{500'000}),   // far too large
      carton(902, Length{60'000}, Length{50'000}, Length{20'000}),      // too small
      carton(903, Length{500'000}, Length{420'000}, Length{300'000}),   // the one
      carton(904, Length{420'000}, Length{500'000}, Length{300'000})};  // as large
  auto const chosen = [](BookSpec const& book) {
    return book.materials[static_cast<std::size_t>(Role::carton)].material;
  };
  CHECK(chosen(in_smallest_carton(order.book, order.catalogue, cartons)) == MaterialId{903});
  std::span<Material const> const too_small(&cartons[1], 1);
  CHECK(chosen(in_smallest_carton(order.book, order.catalogue, too_small)) == chosen(order.book));
}

TEST_CASE("an order that is sent by a service is priced with its carriage, and so is one copy more") {
  Commission order = an_order(2);
  order.sending = sending();
  order.sending->service.zones[0].bands.back().up_to = Mass{100'000'000};
  Priced const priced = price_for_quote(order).value();
  REQUIRE(priced.sent_by.has_value());
  CHECK(priced.offer.carriage == priced.sent_by->price + priced.sent_by->insurance);
  CHECK(priced.sent_by->insured >= priced.offer.goods_shown);
  FrozenQuote const quote = freeze(order, priced, "", "");
  CHECK(quote.delivery.carriage == priced.offer.carriage);
  CHECK(quote.sent_by == priced.sent_by);
  CHECK(differs(quote) == "");
  order.book.present[static_cast<std::size_t>(Part::packing)] = false;
  auto const unpacked = price(order);
  REQUIRE_FALSE(unpacked);
  CHECK(unpacked.error().front().where.field == "service");
}
