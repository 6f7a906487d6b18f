// The table of rules, joined from its groups, and its one use.
#include "engine/book/rule.h"

#include "engine/book/rules_table.h"

#include <array>
#include <cassert>
#include <vector>

namespace endband {
namespace {

constexpr std::size_t most_inputs = 10;

struct RuleTable {
  std::vector<Rule> rows;
  std::array<Rule const*, figure_count> of{};

  RuleTable() {
    for (auto const group :
         {rules_of_text(), rules_of_sewing(), rules_of_spine(), rules_of_boards_and_cover(),
          rules_of_endbands_and_registers(), rules_of_fittings(), rules_of_whole_book()})
      rows.insert(rows.end(), group.begin(), group.end());
    for (Rule const& row : rows) {
      assert(row.inputs.size() <= most_inputs);
      of[Figures::index(row.gives)] = &row;
    }
  }
};

RuleTable const& rule_table() {
  static RuleTable const table;
  return table;
}

}  // namespace

std::span<Rule const> rules() { return rule_table().rows; }

Rule const* rule_of(FigureId id) { return rule_table().of[Figures::index(id)]; }

void apply_rules(Figures& figures) {
  std::array<double, most_inputs> in{};
  for (Rule const& rule : rules()) {
    if (figures.has(rule.gives)) continue;
    bool known = true;
    std::size_t filled = 0;
    for (FigureId const input : rule.inputs) {
      if (!figures.has(input)) {
        known = false;
        break;
      }
      in[filled++] = figures[input].value;
    }
    if (known) figures.set(rule.gives, rule.value(in.data()), Origin::computed);
  }
}

}  // namespace endband
