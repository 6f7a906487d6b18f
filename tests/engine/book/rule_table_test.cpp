// The table of rules keeps what it says of itself.
#include "engine/book/rule.h"
#include "engine/book/style.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <bitset>
#include <map>
#include <random>
#include <set>
#include <string>
#include <string_view>
#include <vector>

using namespace endband;

namespace {

FigureId figure_at(std::size_t i) { return static_cast<FigureId>(i); }

// Plausible values, each figure in its own unit, so that most rules are somewhere in the middle of their
// range.
class Values {
 public:
  double draw(FigureId id) {
    switch (figure_row(id).unit) {
      case Unit::count: return std::uniform_int_distribution<int>(1, 12)(engine_);
      case Unit::share: return between(0.05, 0.95);
      case Unit::degree: return between(30, 200);
      case Unit::yes_no: return std::uniform_int_distribution<int>(0, 1)(engine_);
      case Unit::tex: return between(40, 400);
      case Unit::kg_m3: return between(300, 1200);
      case Unit::mm:
      case Unit::mm2:
      case Unit::gram:
      case Unit::gram_m2: return between(1, 60);
    }
    return 0;
  }
  Figures draw_all_but(FigureId left_out) {
    Figures figures;
    for (std::size_t i = 0; i < figure_count; ++i)
      if (figure_at(i) != left_out) figures.set(figure_at(i), draw(figure_at(i)), Origin::said);
    return figures;
  }

 private:
  double between(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(engine_);
  }
  std::mt19937 engine_{20260105};
};

// A book that the rule is for.
Ways ways_for(Rule const& rule) {
  Ways ways = styles().front().usual;
  for (std::size_t i = 0; i < axis_count; ++i)
    if (auto const way = rule.when.of(static_cast<Axis>(i))) ways = ways.replaced_by({*way});
  return ways;
}

double computed(Figures figures, Rule const& rule) {
  apply_rules(figures, ways_for(rule));
  return figures.value(rule.gives);
}

// Is there a book that both rules are for?
bool meet_together(Ways a, Ways b) {
  for (std::size_t i = 0; i < axis_count; ++i) {
    auto const axis = static_cast<Axis>(i);
    Ways const of_a = a.only(axis);
    if (!of_a.empty() && !b.only(axis).empty() && !b.meet(of_a)) return false;
  }
  return true;
}

bool declares(Rule const& rule, FigureId id) {
  return std::find(rule.inputs.begin(), rule.inputs.end(), id) != rule.inputs.end();
}

// The words of a formula that may be symbols: letters, digits and '_'.
std::set<std::string_view> words_of(std::string_view formula) {
  std::set<std::string_view> words;
  auto const is_of_word = [](char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_'; };
  for (auto at = formula.begin(); at != formula.end();) {
    auto const begin = std::find_if(at, formula.end(), is_of_word);
    at = std::find_if_not(begin, formula.end(), is_of_word);
    if (begin != at) words.insert(std::string_view(begin, at));
  }
  return words;
}

}  // namespace

TEST_CASE("no figure has two rules in one book, and each rule comes after those of its inputs") {
  std::bitset<figure_count> read_before;
  for (Rule const& rule : rules()) {
    CAPTURE(figure_row(rule.gives).name);
    for (Rule const& other : rules())
      CHECK((&other == &rule || other.gives != rule.gives || !meet_together(rule.when, other.when)));
    CHECK_FALSE(read_before[Figures::index(rule.gives)]);
    CHECK_FALSE(declares(rule, rule.gives));
    CHECK(rule_of(rule.gives, ways_for(rule)) == &rule);
    for (FigureId const input : rule.inputs) read_before.set(Figures::index(input));
  }
  CHECK(rule_of(FigureId::leaf_height, styles().front().usual) == nullptr);
}

TEST_CASE("each rule says its formula in the symbols of its figures, and where it comes from") {
  std::map<std::string_view, FigureId> symbols;
  for (std::size_t i = 0; i < figure_count; ++i)
    if (std::string_view const symbol = figure_row(figure_at(i)).symbol; !symbol.empty())
      CHECK_MESSAGE(symbols.emplace(symbol, figure_at(i)).second, symbol);

  for (Rule const& rule : rules()) {
    CAPTURE(rule.formula);
    CHECK_FALSE(rule.source.empty());
    CHECK(rule.formula.starts_with(std::string(figure_row(rule.gives).symbol) + " "));
    auto const words = words_of(rule.formula);
    for (FigureId const input : rule.inputs) {
      std::string_view const symbol = figure_row(input).symbol;
      CHECK_MESSAGE((symbol.empty() || words.contains(symbol)),
                    "an input the formula is silent of: " << symbol);
    }
    for (std::string_view const word : words) {
      auto const named = symbols.find(word);
      if (named == symbols.end() || named->second == rule.gives) continue;
      CHECK_MESSAGE(declares(rule, named->second), "read, but not declared: " << word);
    }
  }
}

TEST_CASE("a rule does not see a figure that it does not declare") {
  Values values;
  for (Rule const& rule : rules()) {
    CAPTURE(figure_row(rule.gives).name);
    Figures base = values.draw_all_but(rule.gives);
    double const before = computed(base, rule);
    for (std::size_t i = 0; i < figure_count; ++i) {
      FigureId const other = figure_at(i);
      if (other == rule.gives || declares(rule, other)) continue;
      Figures changed = base;
      changed.set(other, base[other].value + 7, Origin::said);
      CHECK_MESSAGE(computed(changed, rule) == before, figure_row(other).name);
    }
  }
}

TEST_CASE("a rule sees every figure that it declares") {
  Values values;
  for (Rule const& rule : rules())
    for (FigureId const input : rule.inputs) {
      CAPTURE(figure_row(rule.gives).name);
      CAPTURE(figure_row(input).name);
      bool seen = false;
      // Rounded and bounded figures do not move at every point.
      for (int trial = 0; trial < 200 && !seen; ++trial) {
        Figures const base = values.draw_all_but(rule.gives);
        Figures changed = base;
        changed.set(input, values.draw(input), Origin::said);
        seen = computed(base, rule) != computed(changed, rule);
      }
      CHECK(seen);
    }
}

TEST_CASE("a rule waits for all its inputs") {
  Values values;
  for (Rule const& rule : rules())
    for (FigureId const missing : rule.inputs) {
      Figures figures;
      for (FigureId const input : rule.inputs)
        if (input != missing) figures.set(input, values.draw(input), Origin::said);
      apply_rules(figures, ways_for(rule));
      // Computed from the others, or from nothing as the two boards are, it is not missing.
      CHECK_MESSAGE(figures.has(rule.gives) == figures.has(missing),
                    figure_row(rule.gives).name << " without " << figure_row(missing).name);
    }
}

TEST_CASE("a figure that is said is left as it is, and those after it are computed from it") {
  Figures figures;
  figures.set(FigureId::spine_radius, 20, Origin::computed);
  figures.set(FigureId::round_angle, 120, Origin::practice);
  figures.set(FigureId::arc, 55, Origin::said);
  figures.set(FigureId::core_trim, 20, Origin::practice);
  apply_rules(figures, styles().front().usual);
  CHECK(figures.value(FigureId::arc) == 55);
  CHECK(figures[FigureId::arc].origin == Origin::said);
  CHECK(figures.value(FigureId::core_length) == 95);
  CHECK(figures[FigureId::core_length].origin == Origin::computed);
}

TEST_CASE("a figure that is not known throws by name, and nothing else stands for it") {
  Figures const figures;
  CHECK_THROWS_WITH(static_cast<void>(figures.value(FigureId::arc)), "figure not known: arc");
  CHECK(figures.value_or(FigureId::arc, 7) == 7);
}

TEST_CASE("names are unique, in small letters and hyphens") {
  std::set<std::string_view> names;
  for (std::size_t i = 0; i < figure_count; ++i) {
    FigureRow const& row = figure_row(figure_at(i));
    CHECK(names.insert(row.name).second);
    CHECK(row.name.find_first_not_of("abcdefghijklmnopqrstuvwxyz-") == std::string_view::npos);
    CHECK_FALSE(row.words.empty());
  }
}
