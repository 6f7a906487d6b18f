// How an order is sent: in which cartons, and what a carriage service takes for them.
#pragma once

#include "engine/book/spec.h"
#include "engine/book/structure.h"
#include "engine/commission/order.h"
#include "engine/pricing/carriage.h"
#include "engine/pricing/pricing.h"

#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace endband {

struct Sending {
  CarriageService service;
  std::int64_t version = 0;  // of the service's table
  std::string country;
  std::vector<Material> cartons;  // on the shelf
};

// The book in the smallest of the cartons that holds it, or each volume of a set; of equal ones the first.
// Unchanged where none does, or where the book is not packed.
BookSpec in_smallest_carton(BookSpec book, Catalogue const& catalogue, std::span<Material const> cartons);

// Each copy of each volume is a parcel of its own. Faults: bad_command at "service", for a book that is not
// packed.
Read<std::vector<Consignment>> parcels_of(std::span<Structure const> volumes, int of_each);

// What an order is sold by, once its carriage is known.
struct Sold {
  Delivery delivery;
  SellingRules selling;
  std::optional<SentBy> sent_by;
  Offer offer;
};
using OfferBy = std::function<Read<Offer>(Delivery const&, SellingRules const&)>;
// Sent by a service, which insures the goods for what the buyer pays for them: since the carriage follows
// from that and may have a say in it, the offer is made anew until it is insured. What the service pays for a
// loss stands for what the outlet's terms say. Faults: those of `offered`, and of carriage_of at "to" and
// "service".
Read<Sold> sold_and_sent(Sending const& sending, std::span<Consignment const> parcels, Sold so_far,
                         OfferBy const& offered);

}  // namespace endband
