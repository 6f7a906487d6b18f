// The first price point from a ticket on whose walk reaches an aim.
#pragma once

#include "engine/pricing/aim.h"
#include "engine/pricing/slopes.h"
#include "engine/pricing/walker.h"

#include <cstdint>
#include <optional>

namespace endband {

class Search {
 public:
  // No least price: none is asked. Throws std::logic_error for points of no step.
  Search(Walker const& walker, Aim const& aim, std::optional<Money> least_price, PricePoints const& points);
  // Faults: bad_goal. Throws Overflow for a price that is no Money.
  Read<Money> first_from(std::int64_t ticket);

 private:
  // How the walks of a ticket and of those after it, up to the horizon, differ from each other.
  struct Rise {
    Line beyond, price;
    std::int64_t horizon = -1;  // a ticket
    bool settled = true;        // every fee's base stays within the one piece of its fee
    bool known_at(std::int64_t ticket) const { return settled && ticket <= horizon; }
    // No piece follows, and the slope is not surely positive: only roundings could still help.
    bool falls_for_ever() const;
  };
  Slopes const& slopes_at(Walk const& walk) const;
  Rise rise_from(Walk const& walk, Bases const& bases) const;
  static std::int64_t add_fee(FeeSlopes const& fee, std::int64_t base, Slopes const& slopes, Rise& rise);
  static std::int64_t steps_to_skip(std::int64_t lacks, std::int64_t lacks_of_price, Rise const& rise,
                                    std::int64_t ticket);
  tl::unexpected<std::vector<Fault>> no_price(Rise const& rise) const;

  Walker const& walker_;
  Aim aim_;
  std::optional<Money> least_price_;
  PricePoints points_;
  Slopes slopes_;
  std::optional<Slopes> all_at_cost_;
};

}  // namespace endband
