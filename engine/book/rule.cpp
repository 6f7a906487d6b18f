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

  RuleTable() {
    for (auto const group : {rules_of_text(), rules_of_sewing(), rules_of_spine(),
                             rules_of_boards_and_cover(), rules_of_covering_in_parts(),
                             rules_of_endbands_and_registers(), rules_of_edges(), rules_of_lettering(),
                             rules_of_fittings(), rules_of_whole_book(), rules_of_box(), rules_of_parcel()})
      rows.insert(rows.end(), group.begin(), group.end());
    for ([[maybe_unused]] Rule const& row : rows) assert(row.inputs.size() <= most_inputs);
  }
};

RuleTable const& rule_table() {
  static RuleTable const table;
  return table;
}

}  // namespace

std::span<Rule const> rules() { return rule_table().rows; }

Rule const* rule_of(FigureId id, Ways ways) {
  for (Rule const& rule : rules())
    if (rule.gives == id && ways.meet(rule.when)) return &rule;
  return nullptr;
}

void apply_rules(Figures& figures, Ways ways) {
  std::array<double, most_inputs> in{};
  for (Rule const& rule : rules()) {
    if (figures.has(rule.gives) || !ways.meet(rule.when)) continue;
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
