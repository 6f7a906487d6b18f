// One sheet, pieces with profits: with and without limits of copies, oriented and turned.
#include "tests/bench/cutting/sheet_lines.h"

namespace endband::cutting::bench {
namespace {

std::vector<ValuedRect> read(Json const& items, bool limited, bool turns) {
  std::vector<ValuedRect> pieces;
  for (Json const& item : items) {
    ValuedRect piece;
    piece.rect = {item["w"].get<std::int64_t>(), item["h"].get<std::int64_t>(),
                  item.value("copies", std::int64_t{1}), turns && !item.value("grain_locked", false)};
    if (!limited) piece.rect.copies = 1'000'000'000;  // so that the check takes any number
    piece.value = item["profit"].get<std::int64_t>();
    pieces.push_back(piece);
  }
  return pieces;
}

Result run_variant(Json const& instance, Budgets const& budgets, bool limited, bool turns) {
  Sheet const sheet{instance["sheet"]["w"].get<std::int64_t>(), instance["sheet"]["h"].get<std::int64_t>(), 1,
                    1};
  std::vector<ValuedRect> const pieces = read(instance["items"], limited, turns);
  std::int64_t const kerf = instance.value("kerf", std::int64_t{0});
  auto const [answer, took] = timed([&] {
    return limited ? best_of_sheet(sheet, pieces, kerf, 0, budgets.of(Solver::one_sheet))
                   : best_of_sheet_unlimited(sheet, pieces, kerf, 0);
  });
  Result result;
  result.variant =
      std::string(limited ? "constrained_" : "unconstrained_") + (turns ? "rotation" : "oriented");
  result.greatest = true;
  result.took = took;
  result.stated = static_cast<double>(answer.value);
  result.bound = static_cast<double>(answer.bound);
  result.proved = answer.proved();
  result.work = answer.work;
  result.faults = names_of(check(sheet, pieces, kerf, 0, answer));
  if (instance.contains("values") && instance["values"].contains(result.variant)) {
    Json const& known = instance["values"][result.variant];
    if (known.contains("value") && !known["value"].is_null())
      result.best_known = known["value"].get<double>();
  }
  std::vector<Rect> rects;
  for (ValuedRect const& piece : pieces) rects.push_back(piece.rect);
  add_laid(result.placements, 0, answer.cut, rects, 1);
  return result;
}

}  // namespace

std::vector<Result> run_one_sheet(Json const& instance, Budgets const& budgets) {
  std::vector<Result> results;
  for (bool const limited : {true, false})
    for (bool const turns : {false, true}) results.push_back(run_variant(instance, budgets, limited, turns));
  return results;
}

}  // namespace endband::cutting::bench
