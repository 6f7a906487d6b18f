#include "engine/cutting/check/replay.h"
#include "engine/cutting/geometry/worth.h"

namespace endband::cutting {
namespace {

Wide cost_of(Sheet const& sheet, CutSheet const& cut, Worth worth) {
  Wide cost = sheet.by_length ? torn_cost(sheet.cost, cut.length, sheet.height) : sheet.cost;
  for (Offcut const& kept : cut.kept)
    cost -= kept_worth(worth, sheet.cost, kept.width, kept.height, sheet.width * sheet.height);
  return cost;
}

// nullopt: a sheet that does not exist, or a sum that cannot be made.
std::optional<Wide> cost_of(SheetRequest const& request, std::vector<CutSheet> const& used) try {
  Wide cost = 0;
  for (CutSheet const& cut : used) {
    if (!has(request.sheets, cut.sheet)) return std::nullopt;
    cost += cost_of(at(request.sheets, cut.sheet), cut, request.worth);
  }
  return cost;
} catch (std::logic_error const&) {
  return std::nullopt;
}

}  // namespace

std::vector<PlanFault> check(SheetRequest const& request, Answer<CutSheet> const& answer) {
  Faults faults;
  if (!check_outcome(answer, request.pieces, faults)) return faults.take();
  std::vector<Wide> taken(request.sheets.size(), 0);
  std::vector<Wide> placed(request.pieces.size(), 0);
  SheetRules const rules{request.kerf, request.trim, request.least_kept};
  for (std::size_t u = 0; u < answer.used.size(); ++u) {
    CutSheet const& cut = answer.used[u];
    int const used = static_cast<int>(u);
    if (!has(request.sheets, cut.sheet)) {
      faults.add(Broken::no_such_stock, used);
      continue;
    }
    at(taken, cut.sheet) += 1;
    check_sheet(at(request.sheets, cut.sheet), cut, request.pieces, rules, used, placed, faults);
  }
  check_copies(request.sheets, taken, faults);
  check_demand(request.pieces, placed, Demand::exact, faults);
  check_proof(answer.proof, cost_of(request, answer.used), faults);
  return faults.take();
}

std::vector<PlanFault> check(Sheet const& sheet, std::vector<ValuedRect> const& pieces, std::int64_t kerf,
                             std::int64_t trim, OneSheet const& answer) {
  Faults faults;
  std::vector<Rect> rects;
  rects.reserve(pieces.size());
  for (ValuedRect const& piece : pieces) rects.push_back(piece.rect);
  std::vector<Wide> placed(pieces.size(), 0);
  faults.unless(answer.cut.sheet == 0, Broken::no_such_stock, 0);
  check_sheet(sheet, answer.cut, rects, {kerf, trim, 0}, 0, placed, faults);
  check_demand(rects, placed, Demand::at_most, faults);
  Wide value = 0;
  for (std::size_t i = 0; i < pieces.size(); ++i) value += placed[i] * pieces[i].value;
  faults.unless(value == answer.value, Broken::cost);
  faults.unless(answer.value <= answer.bound, Broken::bound);
  return faults.take();
}

}  // namespace endband::cutting
