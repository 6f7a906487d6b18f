// One length for all (capacity), or rolls and remnants with costs (stock).
#include "tests/bench/cutting/bench.h"

namespace endband::cutting::bench {
namespace {

constexpr std::int64_t milli = 1000;

LengthRequest read(Json const& instance, std::int64_t scale) {
  LengthRequest request;
  request.kerf = instance.value("kerf", std::int64_t{0}) * scale;
  if (instance.contains("capacity"))
    request.rolls.push_back({instance["capacity"].get<std::int64_t>() * scale, 1, std::nullopt});
  else
    for (Json const& stock : instance["stock"]) {
      Roll roll{stock["length"].get<std::int64_t>() * scale, stock.value("cost", std::int64_t{1}),
                std::nullopt};
      if (stock.contains("copies") && !stock["copies"].is_null())
        roll.copies = stock["copies"].get<std::int64_t>();
      request.rolls.push_back(roll);
    }
  for (Json const& item : instance["items"])
    request.pieces.push_back(
        {item["length"].get<std::int64_t>() * scale, item.value("copies", std::int64_t{1})});
  return request;
}

std::optional<double> best_known(Json const& values) {
  if (values.contains("optimum_cost")) return values["optimum_cost"].get<double>();
  if (!values.contains("rolls")) return std::nullopt;
  for (char const* key : {"optimum", "upper_bound"})
    if (values["rolls"].contains(key) && !values["rolls"][key].is_null())
      return values["rolls"][key].get<double>();
  return std::nullopt;
}

}  // namespace

std::vector<Result> run_lengths(Json const& instance, Budgets const& budgets) {
  std::int64_t const scale = instance.contains("stock") ? milli : 1;
  LengthRequest const request = read(instance, scale);
  auto const [answer, took] = timed([&] { return plan_lengths(request, budgets.of(Solver::lengths)); });
  Result result;
  result.took = took;
  take_answer(result, answer);
  result.faults = names_of(check(request, answer));
  if (instance.contains("values")) result.best_known = best_known(instance["values"]);
  for (CutRoll const& cut : answer.used) {
    Json pieces = Json::array();
    for (std::size_t i = 0; i < cut.counts.size(); ++i)
      if (cut.counts[i] > 0) pieces.push_back({{"piece", i}, {"copies", cut.counts[i]}});
    result.placements.push_back({{"stock", cut.roll}, {"times", cut.times}, {"pieces", pieces}});
  }
  return {result};
}

}  // namespace endband::cutting::bench
