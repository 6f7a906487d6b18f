// One figure by the table of rules, from just the figures that are given.
#pragma once

#include "engine/book/rule.h"
#include "engine/book/style.h"

#include <initializer_list>
#include <utility>

namespace endband::tests {

using Given = std::initializer_list<std::pair<FigureId, double>>;

// In a plain book on raised cords but for the ways that are named.
inline Figures figures_from(Given given, Ways ways = {}) {
  Figures figures;
  for (auto const& [id, value] : given) figures.set(id, value, Origin::said);
  apply_rules(figures, styles().front().usual.replaced_by(ways));
  return figures;
}
inline double by_rule(FigureId id, Given given, Ways ways = {}) {
  return figures_from(given, ways).value(id);
}

}  // namespace endband::tests
