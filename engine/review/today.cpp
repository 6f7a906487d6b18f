#include "engine/review/today.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace endband {
namespace {

std::vector<PriceNow> prices_of(Catalogue const& catalogue) {
  std::vector<PriceNow> prices;
  prices.reserve(catalogue.materials.size());
  for (Material const& material : catalogue.materials) {
    PriceNow& row = prices.emplace_back(PriceNow{material.id, material.code, {}});
    if (material.price) row.unit = unit_cost(material, catalogue.buying);
  }
  std::ranges::sort(prices, {}, &PriceNow::material);
  return prices;
}

}  // namespace

Today::Today(Catalogue const& catalogue, StepLibrary const& steps, ShopRules const& shop,
             std::vector<StepTimes> quoted_with)
    : held_(std::make_unique<Held>()) {
  held_->shop = shop;
  held_->prices = prices_of(catalogue);
  for (Step const& step : steps.steps)
    held_->step(step.kind) = StepNow{mean_of(step.set_up), mean_of(step.each)};
  held_->quoted_with = std::move(quoted_with);
  std::ranges::sort(held_->quoted_with, {}, &StepTimes::version);
}

Today::~Today() = default;
Today::Today(Today&&) noexcept = default;

UnitCost const* Today::Held::price_of(MaterialId material) const {
  auto const found = std::ranges::lower_bound(prices, material, {}, &PriceNow::material);
  bool const there = found != prices.end() && found->material == material && found->unit;
  return there ? &*found->unit : nullptr;
}

StepNow const* Today::Held::step_of(OperationKind kind) const {
  auto const& step = steps[static_cast<std::size_t>(kind)];
  return step ? &*step : nullptr;
}

StepTimes const* Today::Held::times_of(std::int64_t version) const {
  auto const found = std::ranges::lower_bound(quoted_with, version, {}, &StepTimes::version);
  return found != quoted_with.end() && found->version == version ? &*found : nullptr;
}

RateBasis basis_of(Rates const& rates, Currency currency) {
  std::int64_t const common = std::gcd(rates.labour.den(), rates.overhead.den());
  std::int64_t const seconds = checked_mul(rates.labour.den() / common, rates.overhead.den());
  auto const of_all = [&](Ratio rate) {
    return Money{checked_mul(rate.num(), seconds / rate.den()), currency};
  };
  return {of_all(rates.labour), {0, currency}, of_all(rates.overhead), {seconds}};
}

}  // namespace endband
