#include "engine/book/rule.h"
#include "quotes.h"

#include <doctest/doctest.h>

#include <algorithm>

using namespace endband::testing;
using endband::FigureId;
using endband::FrozenQuote;
using endband::Origin;
using endband::Reason;

namespace {

endband::Ways const raised_cords = endband::styles().front().usual;

// Every figure that no rule gives is said; the rules give the rest.
FrozenQuote with_all_figures() {
  endband::Figures figures;
  for (std::size_t i = 0; i < endband::figure_count; ++i) {
    auto const id = static_cast<FigureId>(i);
    if (endband::rule_of(id, raised_cords) == nullptr) figures.set(id, 3, Origin::said);
  }
  endband::apply_rules(figures, raised_cords);
  FrozenQuote made = quote();
  made.ways = raised_cords;
  made.figures.clear();
  for (std::size_t i = 0; i < endband::figure_count; ++i) {
    auto const id = static_cast<FigureId>(i);
    if (figures.has(id))
      made.figures.push_back({id, static_cast<std::int64_t>(i) * 1'000'000, figures[id].origin});
  }
  return made;
}

bool has(std::vector<Reason> const& reasons, FigureId id) {
  return std::any_of(reasons.begin(), reasons.end(),
                     [&](Reason const& reason) { return reason.figure == id; });
}

}  // namespace

TEST_CASE("a figure is explained by its rule and what that reads, down to what was said, each once") {
  FrozenQuote const made = with_all_figures();
  for (endband::Rule const& rule : endband::rules()) {
    if (!raised_cords.meet(rule.when)) continue;
    CAPTURE(endband::figure_row(rule.gives).name);
    std::vector<Reason> const reasons = endband::why(made, rule.gives);
    REQUIRE_FALSE(reasons.empty());
    CHECK(reasons[0].figure == rule.gives);
    for (std::size_t i = 0; i < reasons.size(); ++i) {
      Reason const& reason = reasons[i];
      CHECK(reason.value == static_cast<double>(static_cast<int>(reason.figure)));
      CHECK((reason.origin == Origin::computed) == !reason.formula.empty());
      CHECK((reason.origin == Origin::computed) == !reason.source.empty());
      for (FigureId const input : reason.inputs) CHECK(has(reasons, input));
      for (std::size_t j = 0; j < i; ++j) CHECK(reasons[j].figure != reason.figure);
    }
  }
}

TEST_CASE("a figure that was said stops the walk, even where a rule could have computed it") {
  FrozenQuote made = with_all_figures();
  for (auto& figure : made.figures)
    if (figure.id == FigureId::arc) figure.origin = Origin::said;
  std::vector<Reason> const reasons = endband::why(made, FigureId::arc);
  REQUIRE(reasons.size() == 1);
  CHECK(reasons[0].formula.empty());
  CHECK(reasons[0].inputs.empty());
}

TEST_CASE("a figure that the book does not have has no reason") {
  CHECK(endband::why(quote(), FigureId::stones).empty());
}
