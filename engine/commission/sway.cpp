#include "engine/commission/sway.h"

#include <algorithm>
#include <array>
#include <numeric>
#include <set>
#include <stdexcept>

namespace endband {
namespace {

// The rows that a price follows from; each input is raised in a copy.
struct Inputs {
  Bill bill;
  Work work;
  std::vector<Outside> outside;
  ShopRules shop;
  SellingRules selling;
  Delivery delivery;
  CostSheet sheet() const { return cost(bill, work, outside, shop); }
};

Money raised(Money money, Ratio factor) { return scale(money, factor, Rounding::half_away); }

// minor / pack x factor, exactly: the pack takes what the minor units cannot.
UnitCost raised(UnitCost unit, Ratio factor) {
  std::int64_t const of_minor = std::gcd(unit.minor, factor.den());
  std::int64_t const of_pack = std::gcd(unit.pack.n, factor.num());
  unit.minor = checked_mul(unit.minor / of_minor, factor.num() / of_pack);
  unit.pack.n = checked_mul(unit.pack.n / of_pack, factor.den() / of_minor);
  return unit;
}

void raise_material(Inputs& inputs, MaterialId material, Ratio factor) {
  for (BillLine& line : inputs.bill.lines)
    if (line.material == material && !line.customer_supplied) line.unit = raised(line.unit, factor);
}

void raise_hours(Inputs& inputs, Ratio factor) {
  for (WorkLine& line : inputs.work.lines)
    for (Ratio WorkLine::*const time :
         {&WorkLine::low_seconds, &WorkLine::mean_seconds, &WorkLine::high_seconds})
      line.*time = line.*time * factor;
}

Money times(Money money, std::int64_t by) { return {checked_mul(money.minor, by), money.currency}; }

// Exactly: the others of the basis, and its hours, are taken so many times that the raised ones are whole.
void raise_basis(RateBasis& basis, std::initializer_list<Money RateBasis::*> to_raise, Ratio factor) {
  for (Money RateBasis::*const part :
       {&RateBasis::pay_wanted, &RateBasis::charges_on_pay, &RateBasis::overhead}) {
    bool const raise = std::find(to_raise.begin(), to_raise.end(), part) != to_raise.end();
    basis.*part = times(basis.*part, raise ? factor.num() : factor.den());
  }
  basis.hours_charged.n = checked_mul(basis.hours_charged.n, factor.den());
}

void raise_rate(Inputs& inputs, Ratio factor) {
  raise_basis(inputs.shop.basis, {&RateBasis::pay_wanted, &RateBasis::charges_on_pay}, factor);
  for (WorkLine& line : inputs.work.lines)
    if (line.rate) line.rate = raised(*line.rate, factor);
}

void raise_overhead(Inputs& inputs, Ratio factor) {
  raise_basis(inputs.shop.basis, {&RateBasis::overhead}, factor);
}

void raise_outside(Inputs& inputs, Ratio factor) {
  for (Outside& work : inputs.outside) work.price = raised(work.price, factor);
}

void raise_fee(Fee& fee, Ratio factor) {
  for (FeeStep& step : fee.steps) step.share = step.share * factor;
  fee.fixed = raised(fee.fixed, factor);
}

bool takes_all(Fee const& fee) {
  return std::any_of(fee.steps.begin(), fee.steps.end(),
                     [](FeeStep const& step) { return step.share >= Ratio(1); });
}

class Swaying {
 public:
  Swaying(FrozenQuote const& quote, Ratio factor)
      : quote_(quote), factor_(factor), inputs_{quote.bill, quote.work,    quote.outside,
                                                quote.shop, quote.selling, quote.delivery} {}

  Read<std::vector<Sway>> sways() {
    Read<Offer> base = offer_of(inputs_);
    if (!base) return tl::unexpected(base.error());
    base_ = std::move(*base);
    costs();
    if (quote_.selling.outlet) outlet(*quote_.selling.outlet);
    sway({.of = SwayOf::carriage}, [](Inputs& inputs, Ratio factor) {
      inputs.delivery.carriage = raised(inputs.delivery.carriage, factor);
    });
    if (!faults_.empty()) return tl::unexpected(std::move(faults_));
    std::stable_sort(sways_.begin(), sways_.end(),
                     [](Sway const& a, Sway const& b) { return size_of(a.left) > size_of(b.left); });
    return std::move(sways_);
  }

 private:
  static Money size_of(Money money) { return money.minor < 0 ? -money : money; }

  Read<Offer> offer_of(Inputs const& inputs) const {
    return offer(inputs.sheet(), inputs.delivery, inputs.selling, quote_.goal, inputs.shop);
  }

  void costs() {
    std::set<MaterialId> materials;
    for (BillLine const& line : quote_.bill.lines) materials.insert(line.material);
    for (MaterialId const material : materials)
      sway({.of = SwayOf::material, .material = material},
           [&](Inputs& inputs, Ratio factor) { raise_material(inputs, material, factor); });
    sway({.of = SwayOf::hours}, raise_hours);
    sway({.of = SwayOf::rate}, raise_rate);
    sway({.of = SwayOf::overhead}, raise_overhead);
    sway({.of = SwayOf::outside}, raise_outside);
  }

  void outlet(Outlet const& outlet) {
    for (std::size_t i = 0; i < outlet.fees.size(); ++i)
      sway({.of = SwayOf::fee, .name = outlet.fees[i].name},
           [&](Inputs& inputs, Ratio factor) { raise_fee(inputs.selling.outlet->fees[i], factor); });
    if (outlet.currency != quote_.shop.currency)
      sway({.of = SwayOf::exchange}, [](Inputs& inputs, Ratio factor) {
        Exchange& exchange = inputs.selling.outlet->exchange;
        exchange.rate = exchange.rate * factor;
      });
  }

  template <class Raise>
  void sway(Sway sway, Raise const& raise) {
    Inputs inputs = inputs_;
    raise(inputs, factor_);
    if (inputs.selling.outlet && takes_all_of_it(*inputs.selling.outlet)) return;
    Read<Offer> const anew = offer_of(inputs);
    if (!anew) return take_faults(anew.error());
    Read<Offer> const stays = offer_at(base_.walk.ticket, inputs.sheet(), inputs.delivery, inputs.selling,
                                       quote_.goal, inputs.shop);
    if (!stays) return take_faults(stays.error());
    sway.price = anew->ladder.target.price - base_.ladder.target.price;
    sway.left = stays->left - base_.left;
    sway.margin = stays->margin;
    if (sway.price.minor != 0 || sway.left.minor != 0) sways_.push_back(std::move(sway));
  }

  // No rules of a sale have such a fee.
  bool takes_all_of_it(Outlet const& outlet) {
    auto const fee = std::find_if(outlet.fees.begin(), outlet.fees.end(), takes_all);
    if (fee == outlet.fees.end()) return false;
    faults_.push_back({FaultCode::bad_goal,
                       Where{{}, 0, 0, "change"},
                       fee->name,
                       "a change with which the fee stays below 100 %",
                       {}});
    return true;
  }

  void take_faults(std::vector<Fault> const& faults) {
    faults_.insert(faults_.end(), faults.begin(), faults.end());
  }

  FrozenQuote const& quote_;
  Ratio const factor_;
  Inputs const inputs_;
  Offer base_;
  std::vector<Sway> sways_;
  std::vector<Fault> faults_;
};

}  // namespace

std::string_view sway_name(SwayOf of) {
  static constexpr std::array<std::string_view, 8> names{"material", "hours", "rate",     "overhead",
                                                         "outside",  "fee",   "exchange", "carriage"};
  return names.at(static_cast<std::size_t>(of));
}

Read<std::vector<Sway>> sways(FrozenQuote const& quote, Ratio change) try {
  if (change <= Ratio(-1)) throw std::logic_error("a change that leaves nothing of an input");
  return Swaying(quote, Ratio(1) + change).sways();
} catch (Overflow const&) {
  return refuse({FaultCode::too_large,
                 Where{{}, 0, 0, "quote"},
                 "",
                 "a quote whose costs fit in the range of money",
                 {}});
}

}  // namespace endband
