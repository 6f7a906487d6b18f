// One figure by the table of rules, from just the figures that are given.
#pragma once

#include "engine/book/rule.h"

#include <initializer_list>
#include <utility>

namespace endband::tests {

using Given = std::initializer_list<std::pair<FigureId, double>>;

inline Figures figures_from(Given given) {
  Figures figures;
  for (auto const& [id, value] : given) figures.set(id, value, Origin::said);
  apply_rules(figures);
  return figures;
}
inline double by_rule(FigureId id, Given given) { return figures_from(given).value(id); }

}  // namespace endband::tests
