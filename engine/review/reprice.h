// A past quote at other prices, rates and steps, its plans kept: what it would now cost, whether its price still
// bears it, and which change alone did that.
#pragma once

#include "engine/commission/commission.h"

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace endband {

// What a price follows from, of a frozen quote, and nothing else: a FrozenQuote in which only bill, work, outside,
// shop, selling, goal, delivery, sheet and offer need be there. Of a bill line with a chance of ruin all uses, of
// others none need be.
struct StepTimes {  // of a version of a step that quotes were made with
  std::int64_t version = 0;
  Ratio set_up, each;  // mean seconds
};

// What holds now (or if): prices by material, steps by operation, the workshop's rates and rules.
class Today {
 public:
  Today(std::span<Material const> materials, StepLibrary const& steps, ShopRules shop,
        std::vector<StepTimes> quoted_with);
  ~Today();
  Today(Today const&) = delete;
  Today& operator=(Today const&) = delete;
  Today(Today&&) noexcept;

  // "goat-dark=+12%", "rate=+2.00", "overhead=+0.50", "step.sew-sections=+10%": a material's landed price, what an
  // hour is paid or bears, a step's times; +, - or % of it. Faults: bad_value with the form, unknown_code with near.
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
struct Repriced {
  Money cost_then, cost_now;
  Money price;           // without tax, as quoted
  Money left_then, left_now;
  bool under = false;    // left_now < 0: its price no longer bears its cost
  bool below_goal = false;
  std::optional<Money> ticket;  // of those below their goal: the least price point that meets it now, as the buyer sees it
  Money ticket_then;
  std::optional<SingleChange> largest;  // of those under: what alone adds most
  bool alone = false;                   // and is enough alone to bring it under
  bool not_priced = false;              // a material has no price now: left at the old one
};
// Throws Overflow.
Repriced repriced(FrozenQuote const& quote, Today const& today);

}  // namespace endband
