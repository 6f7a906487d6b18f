#include "engine/book/rule.h"
#include "engine/commission/commission.h"

#include <algorithm>
#include <cstddef>

namespace endband {
namespace {

bool holds(std::vector<Reason> const& reasons, FigureId id) {
  return std::any_of(reasons.begin(), reasons.end(),
                     [&](Reason const& reason) { return reason.figure == id; });
}

// A figure that was given stops the walk, even where a rule could have computed it.
void add_reason(std::vector<Reason>& reasons, FrozenQuote const& quote, FigureId id) {
  auto const figure = std::find_if(quote.figures.begin(), quote.figures.end(),
                                   [&](FrozenFigure const& row) { return row.id == id; });
  if (figure == quote.figures.end() || holds(reasons, id)) return;
  Reason reason{id, static_cast<double>(figure->value_e6) / 1e6, figure->origin, {}, {}, {}};
  Rule const* const rule = figure->origin == Origin::computed ? rule_of(id, quote.ways) : nullptr;
  if (rule != nullptr) {
    reason.formula = rule->formula;
    reason.source = rule->source;
    reason.inputs.assign(rule->inputs.begin(), rule->inputs.end());
  }
  reasons.push_back(std::move(reason));
}

}  // namespace

// The figure first, then what it reads, then what that reads: each once.
std::vector<Reason> why(FrozenQuote const& quote, FigureId figure) {
  std::vector<Reason> reasons;
  add_reason(reasons, quote, figure);
  for (std::size_t next = 0; next < reasons.size(); ++next) {
    std::vector<FigureId> const inputs = reasons[next].inputs;  // a copy: the list grows under it
    for (FigureId input : inputs) add_reason(reasons, quote, input);
  }
  return reasons;
}

}  // namespace endband
