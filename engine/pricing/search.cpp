// The method. At a ticket t that does not reach the aim, let `lacks` be what it lacks, and let what a walk
// has beyond the aim rise by at most slope x d + slack from t to t + d, for every d up to a horizon
// (slopes.h). Then no ticket t + d with slope x d + slack < lacks reaches the aim, and all those up to the
// horizon are passed over at once; the next point after them is walked. So no point that reaches the aim is
// ever passed over, whatever the fees do, and the first that is found is the first of all.
//
// A fee's slope holds while its base stays within one piece of it. Where the base, with its slack, may reach
// the neighbouring pieces too, the least of their slopes is taken, and the jumps between them are part of the
// slack; the horizon is where a further piece may be reached. Each hop passes a piece, or halves the way at
// least, or is one of the few points whose roundings decide.
#include "engine/pricing/search.h"

#include "engine/pricing/points.h"

#include <algorithm>
#include <limits>

namespace endband {
namespace {

constexpr std::int64_t never = std::numeric_limits<std::int64_t>::max();
// A price that takes more walks than this hangs on roundings alone: nothing to speak of is left of it.
constexpr int most_walks = 400'000;

// The first d > 0 at which slope x d + slack may reach what is lacking.
std::int64_t first_step(std::int64_t lacks, std::int64_t slope, std::int64_t slack) {
  if (lacks <= 0) return 1;
  std::int64_t const rest = lacks - whole_units(slack);
  if (rest <= 0) return 1;
  if (slope <= 0 || rest / slope >= never / nano) return never;
  return mul_div(rest, nano, slope, Rounding::up);
}

// The last d >= 0 at which a base that has `room` more to grow surely stays below.
std::int64_t last_step(std::int64_t room, std::int64_t slope, std::int64_t slack) {
  std::int64_t const rest = room - slack - 1;
  if (rest <= 0) return 0;
  if (slope <= 0) return never;
  if (rest < never / nano) return rest * nano / slope;
  return rest / slope >= never / nano ? never : mul_div(rest, nano, slope, Rounding::down);
}

}  // namespace

bool Search::Rise::falls_for_ever() const {
  return horizon == never && (beyond.high <= 0 || (settled && beyond.low <= 0));
}

Search::Search(Walker const& walker, Aim const& aim, std::optional<Money> least_price,
               PricePoints const& points)
    : walker_(walker), aim_(aim), least_price_(least_price), points_(points), slopes_(walker_, aim_, false) {
  check(points);
  if (!walker.goods_of_one_rate() && walker.at_cost_shown() > 0) all_at_cost_.emplace(walker_, aim_, true);
}

// More goods shown with every ticket: only of a sale of several rates does it matter where they exceed what
// stands at cost.
Slopes const& Search::slopes_at(Walk const& walk) const {
  return all_at_cost_ && walk.goods_shown.minor < walker_.at_cost_shown() ? *all_at_cost_ : slopes_;
}

// Takes a fee off a rise. Returns how many tickets further that holds.
std::int64_t Search::add_fee(FeeSlopes const& fee, std::int64_t base, Slopes const& slopes, Rise& rise) {
  auto const& pieces = fee.pieces;
  std::int64_t const slack = slopes.base_slack[index_of(fee.base)];
  std::size_t first = 0;
  while (first + 1 < pieces.size() && pieces[first + 1].from <= base) ++first;
  std::size_t last = first;
  while (first > 0 && pieces[first].from > base - slack) --first;
  while (last + 1 < pieces.size() && pieces[last + 1].from <= base + slack + 1) ++last;
  Line takes = pieces[last].takes;
  for (std::size_t i = first; i < last; ++i) {
    Line const& other = pieces[i].takes;
    takes = {std::min(takes.low, other.low), std::max(takes.high, other.high),
             std::max(takes.slack, other.slack)};
    rise.beyond.slack = checked_add(rise.beyond.slack, pieces[i + 1].jump);
    rise.settled = false;
  }
  rise.beyond = rise.beyond - takes;
  if (last + 1 == pieces.size()) return never;
  return last_step(pieces[last + 1].from - base, slopes.bases[index_of(fee.base)].high, slack);
}

Search::Rise Search::rise_from(Walk const& walk, Bases const& bases) const {
  Slopes const& slopes = slopes_at(walk);
  Rise rise;
  rise.beyond = slopes.beyond;
  rise.price = slopes.price;
  std::int64_t horizon = never;
  for (FeeSlopes const& fee : slopes.fees)
    horizon = std::min(horizon, add_fee(fee, bases[index_of(fee.base)], slopes, rise));
  if (&slopes != &slopes_)
    horizon = std::min(horizon, last_step(walker_.at_cost_shown() - walk.goods_shown.minor,
                                          slopes.goods_shown.high, whole_units(slopes.goods_shown.slack)));
  rise.horizon = horizon >= never - walk.ticket.minor ? never : walk.ticket.minor + horizon;
  return rise;
}

std::int64_t Search::steps_to_skip(std::int64_t lacks, std::int64_t lacks_of_price, Rise const& rise,
                                   std::int64_t ticket) {
  std::int64_t const slope = rise.falls_for_ever() ? 0 : rise.beyond.high;
  std::int64_t const steps = std::max(first_step(lacks, slope, rise.beyond.slack),
                                      first_step(lacks_of_price, rise.price.high, rise.price.slack));
  std::int64_t const known = rise.horizon == never ? never : rise.horizon - ticket;
  return known < steps ? known + 1 : steps;
}

tl::unexpected<std::vector<Fault>> Search::no_price(Rise const& rise) const {
  Line const whole = scaled(slopes_.goods_shown, walker_.factor());
  Ratio const taken = Ratio(1) - Ratio(rise.beyond.high, std::max<std::int64_t>(1, whole.low));
  return refuse(
      bad_goal("goal", taken, "fees, tax and a goal that together take less than 100 % of a price"));
}

Read<Money> Search::first_from(std::int64_t from) {
  Walk walk;
  Bases bases{};
  Rise rise;
  std::int64_t ticket = point_from(from, points_);
  for (int walks = 1;; ++walks) {
    walker_.walk(ticket, walk, bases);
    std::int64_t const lacks = checked_sub(0, beyond(aim_, walk, walker_.sale().sheet.standing));
    std::int64_t const lacks_of_price = least_price_ ? (*least_price_ - walk.price).minor : 0;
    if (lacks <= 0 && lacks_of_price <= 0) return walk.ticket;
    if (!rise.known_at(ticket)) rise = rise_from(walk, bases);
    std::int64_t const steps = steps_to_skip(lacks, lacks_of_price, rise, ticket);
    if ((steps == never && rise.falls_for_ever()) || walks == most_walks) return no_price(rise);
    ticket = point_from(checked_add(ticket, steps), points_);
  }
}

Read<Money> least_ticket(Sale const& sale, Goal const& goal, Money from) {
  Read<Aim> const aim = aim_of(goal, sale.sheet);
  if (!aim) return tl::unexpected(aim.error());
  Walker const walker(sale);
  return Search(walker, *aim, sale.shop.least_charge, points_of(sale.selling, sale.shop.currency))
      .first_from(from.minor);
}

}  // namespace endband
