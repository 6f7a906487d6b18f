#include "engine/risk/runs.h"

#include <algorithm>
#include <array>
#include <utility>

namespace endband {

namespace {

constexpr std::int64_t most_runs = 10'000'000;

std::vector<Fault> faults_of(RiskRules const& rules) {
  std::vector<Fault> faults;
  auto const add = [&](std::string field, std::string found, std::string expected) {
    faults.push_back({FaultCode::out_of_range,
                      Where{{}, 0, 0, std::move(field)},
                      std::move(found),
                      std::move(expected),
                      {}});
  };
  if (rules.runs < 1 || rules.runs > most_runs) add("runs", std::to_string(rules.runs), "1 to 10000000 runs");
  if (rules.confidence <= Ratio(0) || rules.confidence >= Ratio(1))
    add("confidence", percent_text(rules.confidence, 1) + " %", "more than 0 % and less than 100 %");
  return faults;
}

ShopRules without_contingency(ShopRules shop) {
  shop.contingency = 0;
  shop.simulated_contingency.reset();
  return shop;
}

Duration seconds(std::int64_t ms) { return {mul_div(ms, 1, risk::thousandths, Rounding::half_away)}; }

std::vector<RiskQuantile> quantiles(risk::Spread const& work, risk::Spread const& wait,
                                    risk::Spread const& cost, Ratio confidence, Currency currency) {
  std::vector<RiskQuantile> rows;
  for (Ratio const at : risk::chances(confidence))
    rows.push_back({at,
                    seconds(work.quantile(at)),
                    seconds(wait.quantile(at)),
                    {mul_div(cost.quantile(at), 1, risk::thousandths, Rounding::half_away), currency}});
  return rows;
}

Read<Offer> offer_with(Money contingency, RiskInput const& input) {
  ShopRules shop = input.shop;
  shop.simulated_contingency = contingency;
  return offer(cost(input.bill, input.work, input.outside, shop), input.delivery, input.selling, input.goal,
               shop);
}

}  // namespace

std::string_view risk_source_name(RiskSource source) {
  static constexpr std::array<std::string_view, 4> names{"step", "spoil", "ruin", "redo"};
  return names.at(static_cast<std::size_t>(source));
}

Read<Risk> simulate(RiskInput const& input, RiskRules const& rules, RunAll const& run_all) {
  if (std::vector<Fault> faults = faults_of(rules); !faults.empty()) return tl::unexpected(std::move(faults));
  Currency const currency = input.shop.currency;
  CostSheet const sheet = cost(input.bill, input.work, input.outside, without_contingency(input.shop));
  risk::Model const model = risk::model_of(input, sheet);
  risk::Runs runs = risk::run(model, rules, run_all);
  std::vector<std::vector<std::int64_t>> values;
  for (auto* const drawn : {&runs.work, &runs.wait, &runs.cost}) values.push_back(std::move(*drawn));
  std::vector<risk::Spread> const spreads = risk::spreads_of(std::move(values), run_all);
  risk::Spread const& of_cost = spreads[2];

  Risk risk;
  risk.quantiles = quantiles(spreads[0], spreads[1], of_cost, rules.confidence, currency);
  risk.mean_work = {spreads[0].mean(risk::thousandths)};
  risk.mean_wait = {spreads[1].mean(risk::thousandths)};
  risk.mean_cost = {of_cost.mean(risk::thousandths), currency};
  risk.losing = {of_cost.above(checked_mul(input.quoted.minor, risk::thousandths)), rules.runs};
  risk.contingency = {std::max<std::int64_t>(0, of_cost.over_mean(rules.confidence, risk::thousandths)),
                      currency};
  Read<Offer> sure = offer_with(risk.contingency, input);
  if (!sure) return tl::unexpected(std::move(sure.error()));
  risk.sure = std::move(*sure);
  risk.drivers = risk::drivers_of(model, input);
  return risk;
}

Read<HoursRisk> simulate_hours(Work const& work, RiskRules const& rules, RunAll const& run_all) {
  if (std::vector<Fault> faults = faults_of(rules); !faults.empty()) return tl::unexpected(std::move(faults));
  std::vector<std::vector<std::int64_t>> values;
  values.push_back(risk::run_times(risk::model_of(work), rules, run_all));
  risk::Spread const spread = risk::spreads_of(std::move(values), run_all).front();
  HoursRisk risk;
  risk.mean = {spread.mean(risk::thousandths)};
  for (Ratio const at : risk::chances(rules.confidence))
    risk.quantiles.push_back({at, seconds(spread.quantile(at))});
  return risk;
}

}  // namespace endband
