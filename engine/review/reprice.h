// A past quote at other prices, rates and steps, its plans kept: what it would now cost, whether its price
// still bears it, and which change alone did that.
#pragma once

#include "engine/commission/commission.h"
#include "engine/review/step_times.h"

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace endband {

// What holds now (or if): prices by material, steps by operation, the workshop's rates and rules. Of the
// rules overtime stays as it was quoted; a contingency that was simulated stays the share of the cost that it
// was.
class Today {
 public:
  Today(Catalogue const& catalogue, StepLibrary const& steps, ShopRules const& shop,
        std::vector<StepTimes> quoted_with);
  ~Today();
  Today(Today const&) = delete;
  Today& operator=(Today const&) = delete;
  Today(Today&&) noexcept;

  // "goat-dark=+12%", "rate=+2.00", "overhead=+0.50", "step.sew-sections=+10%": the landed price of a
  // material's pack, what an hour is paid or bears (not that of people with a rate of their own), a step's
  // times; by a share of it, or by a sum, which times have none. One upon the other. Faults: bad_value with
  // the form, or where it would leave less than nothing; unknown_code with near; no_price; too_large.
  Read<void> suppose(std::string_view what);

  struct Held;
  Held const& held() const { return *held_; }

 private:
  std::unique_ptr<Held> held_;
};

enum class ChangeKind : std::uint8_t { material, step, rate, overhead, rules };
struct SingleChange {
  ChangeKind kind;
  std::optional<MaterialId> material;
  std::optional<OperationKind> operation;
  Money dearer;  // what it alone adds to the cost
};
// Quantities are kept. A line of work takes what it took x (set-up + count x each) now / then, set-ups with
// the first line of each operation, rounded half away to 1/6000 s; extra work, and steps that the library
// does not have any more, take what they took. A line's own rate stays.
struct Repriced {
  Money cost_then, cost_now;
  Money price;  // without tax, as quoted
  Money left_then, left_now;
  bool under = false;  // left_now < 0: its price no longer bears its cost
  bool below_goal = false;
  // Of those below their goal: the least price point that meets it now, as the buyer sees it; none: no price
  // does.
  std::optional<Money> ticket;
  Money ticket_then;
  // Of those under, and of those below their goal that became dearer: what alone adds most.
  std::optional<SingleChange> largest;
  bool alone = false;       // and is enough alone to bring it under, when it was not before
  bool not_priced = false;  // a material has no price now, or one in another unit: left at the old one
};
// Of the quote only what a price follows from need be there: bill, work, outside, shop, selling, goal,
// delivery, of sheet and offer the sums, and the walk's ticket and price of what went through an outlet or
// was given away. Of a bill line with a chance of ruin all uses, of others none need be, but of a quote some
// of whose lines bear a tax rate of their own all of all. Throws Overflow.
Repriced repriced(FrozenQuote const& quote, Today const& today);

}  // namespace endband
