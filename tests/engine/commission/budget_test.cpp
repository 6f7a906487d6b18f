// The search within a budget against all sets there are, each priced.
#include "engine/commission/options.h"
#include "tests/cases.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <array>
#include <limits>
#include <map>
#include <vector>

using namespace endband;

namespace {

Money eur(std::int64_t minor) { return {minor, read_currency("EUR").value()}; }

std::vector<Choices> all_sets(std::vector<int> const& alternatives) {
  std::vector<Choices> sets{Choices(alternatives.size(), 0)};
  for (std::size_t group = 0; group < alternatives.size(); ++group) {
    std::size_t const before = sets.size();
    for (int alternative = 1; alternative <= alternatives[group]; ++alternative)
      for (std::size_t i = 0; i < before; ++i) {
        sets.push_back(sets[i]);
        sets.back()[group] = alternative;
      }
  }
  return sets;
}

int changes_of(Choices const& choices) {
  return static_cast<int>(
      std::count_if(choices.begin(), choices.end(), [](int choice) { return choice != 0; }));
}

// The changes as (group, alternative): of these lists the lexicographically first is the first in order.
std::vector<std::pair<std::size_t, int>> changed(Choices const& choices) {
  std::vector<std::pair<std::size_t, int>> list;
  for (std::size_t group = 0; group < choices.size(); ++group)
    if (choices[group] != 0) list.emplace_back(group, choices[group]);
  return list;
}

// A book whose price has a part for each change, and one for each pair and each three of them.
struct Prices {
  std::vector<int> alternatives;
  std::int64_t pairs = 0, triples = 0;  // at most so much, up or down
  std::uint64_t seed = 0;
  int impossible_in = 0;  // one pair in so many cannot be made; 0: all can

  std::int64_t drawn(std::initializer_list<std::uint64_t> of, std::int64_t low, std::int64_t high) const {
    std::uint64_t state = seed * 0x9E3779B97F4A7C15ULL + 1;
    for (std::uint64_t const part : of)
      state = (state ^ part) * 0xBF58476D1CE4E5B9ULL + 0x94D049BB133111EBULL;
    state ^= state >> 31;
    state *= 0x94D049BB133111EBULL;
    state ^= state >> 29;
    return low + static_cast<std::int64_t>(state % static_cast<std::uint64_t>(high - low + 1));
  }

  std::optional<Outcome> operator()(Choices const& choices) const {
    std::vector<std::uint64_t> changes;
    for (auto const& [group, alternative] : changed(choices))
      changes.push_back(group * 100 + static_cast<std::uint64_t>(alternative));
    std::int64_t total = 1'000'00;
    std::int64_t left = 250'00;
    for (std::size_t i = 0; i < changes.size(); ++i) {
      total += drawn({1, changes[i]}, -100'00, 20'00);
      left += drawn({2, changes[i]}, -40'00, 20'00);
      for (std::size_t j = i + 1; j < changes.size(); ++j) {
        if (impossible_in > 0 && drawn({3, changes[i], changes[j]}, 1, impossible_in) == 1)
          return std::nullopt;
        total += drawn({4, changes[i], changes[j]}, -pairs, pairs);
        left += drawn({5, changes[i], changes[j]}, -pairs, pairs);
        for (std::size_t k = j + 1; k < changes.size(); ++k) {
          total += drawn({6, changes[i], changes[j], changes[k]}, -triples, triples);
          left += drawn({7, changes[i], changes[j], changes[k]}, -triples, triples);
        }
      }
    }
    return Outcome{eur(total), eur(left)};
  }
};

struct Priced {
  Choices choices;
  Outcome outcome;
};

// All that are within, by fewest changes, most left and order.
std::vector<Priced> within(Prices const& prices, Money budget) {
  std::vector<Priced> list;
  for (Choices const& choices : all_sets(prices.alternatives))
    if (auto const outcome = prices(choices); outcome && outcome->total <= budget)
      list.push_back({choices, *outcome});
  std::sort(list.begin(), list.end(), [](Priced const& a, Priced const& b) {
    if (changes_of(a.choices) != changes_of(b.choices)) return changes_of(a.choices) < changes_of(b.choices);
    if (a.outcome.left != b.outcome.left) return a.outcome.left > b.outcome.left;
    return changed(a.choices) < changed(b.choices);
  });
  return list;
}

Prices any_prices(std::vector<int> alternatives, std::int64_t pairs, std::int64_t triples) {
  return {std::move(alternatives), pairs, triples,
          static_cast<std::uint64_t>(*rc::gen::inRange(0, 1'000'000'000)), 0};
}

bool same(WithinBudget const& found, Priced const& best) {
  return found.choices == best.choices && found.changes == changes_of(best.choices) &&
         found.outcome.total == best.outcome.total && found.outcome.left == best.outcome.left;
}

std::vector<int> const five_of_four(5, 4);  // 5^5 = 3125 sets, 2944 of them larger than pairs

}  // namespace

TEST_CASE("a book that is within its budget needs no change") {
  std::vector<int> const alternatives{1};
  BudgetSearch const search = within_budget(alternatives, eur(100), [](Choices const&) {
    return Outcome{eur(100), eur(30)};
  });
  CHECK(search.priced == 1);
  CHECK(search.possible == 2);
  CHECK(search.all_priced);
  CHECK_FALSE(search.nearest.has_value());
  REQUIRE(search.found.size() == 1);
  CHECK(search.found.front().changes == 0);
  CHECK(search.as_it_is.total == eur(100));
}

TEST_CASE("of single changes the one that leaves most comes first, then pairs of which both are needed") {
  // Less to pay: 30 and 10 of the first group, 20 of the second, 25 of the third; left as said.
  std::vector<int> const alternatives{2, 1, 1};
  auto const price = [](Choices const& of) -> std::optional<Outcome> {
    std::int64_t total = 100 - (of[0] == 1 ? 30 : of[0] == 2 ? 10 : 0) - 20 * of[1] - 25 * of[2];
    std::int64_t left = 50 - (of[0] == 1 ? 9 : of[0] == 2 ? 1 : 0) - 2 * of[1] - 8 * of[2];
    return Outcome{eur(total), eur(left)};
  };
  BudgetSearch const search = within_budget(alternatives, eur(75), price);
  std::vector<Choices> found;
  for (WithinBudget const& set : search.found) found.push_back(set.choices);
  // The third (42 left), the first (41), then the only pair of neither: 100 - 10 - 20 = 70.
  CHECK(found == std::vector<Choices>{{0, 0, 1}, {1, 0, 0}, {2, 1, 0}});
  CHECK(search.priced == 1 + 4 + 5);
  CHECK(search.possible == 12);
  CHECK(search.all_priced);
}

TEST_CASE("where nothing is within, the nearest is the least that was priced") {
  std::vector<int> const alternatives{1, 1, 1};
  auto const price = [](Choices const& of) -> std::optional<Outcome> {
    if (changes_of(of) == 3) return std::nullopt;
    return Outcome{eur(100 - 10 * of[0] - 20 * of[1] - 20 * of[2]), eur(5)};
  };
  BudgetSearch const search = within_budget(alternatives, eur(10), price);
  CHECK(search.found.empty());
  REQUIRE(search.nearest.has_value());
  CHECK(search.nearest->choices == Choices{0, 1, 1});
  CHECK(search.nearest->outcome.total == eur(60));
  CHECK(search.priced == 8);
  CHECK(search.all_priced);
}

TEST_CASE("equals come in the order of their changes") {
  std::vector<int> const alternatives{2, 0, 2};
  auto const price = [](Choices const& of) -> std::optional<Outcome> {
    return Outcome{eur(changes_of(of) == 0 ? 100 : 50), eur(5)};
  };
  BudgetSearch const search = within_budget(alternatives, eur(50), price);
  REQUIRE(search.found.size() == 4);
  CHECK(search.found[0].choices == Choices{1, 0, 0});
  CHECK(search.found[1].choices == Choices{2, 0, 0});
  CHECK(search.found[2].choices == Choices{0, 0, 1});
  CHECK(search.found[3].choices == Choices{0, 0, 2});
}

TEST_CASE("what cannot be searched is refused") {
  std::vector<int> const none{1, -1};
  std::vector<int> const one{1};
  auto const never = [](Choices const&) -> std::optional<Outcome> { return std::nullopt; };
  CHECK_THROWS_AS(within_budget(none, eur(1), never), std::logic_error);
  CHECK_THROWS_AS(within_budget(one, eur(1), never), std::logic_error);
}

TEST_CASE("one change or two are found as by pricing every set, whatever the prices") {
  CHECK(endband::testing::check_one_in(100, [] {
    Prices prices = any_prices(five_of_four, 60'00, 60'00);
    prices.impossible_in = *rc::gen::element(0, 5);
    Money const budget = eur(*rc::gen::inRange<std::int64_t>(750'00, 990'00));
    auto const all = within(prices, budget);
    int const fewest = all.empty() ? 9 : changes_of(all.front().choices);
    RC_PRE(fewest <= 2);
    BudgetSearch const search = within_budget(prices.alternatives, budget, prices);
    RC_TAG(fewest);
    RC_ASSERT(!search.found.empty());
    RC_ASSERT(same(search.found.front(), all.front()));
    RC_ASSERT(search.all_priced);
    // All that are shown: of one or two changes, each needed, in the same order.
    std::vector<Priced> needed;
    for (Priced const& set : all) {
      auto const list = changed(set.choices);
      bool const one_is_enough = std::any_of(needed.begin(), needed.end(), [&](Priced const& single) {
        auto const one = changed(single.choices);
        return one.size() < list.size() && std::find(list.begin(), list.end(), one.front()) != list.end();
      });
      if (list.size() > 2) break;
      if (!one_is_enough) needed.push_back(set);
    }
    RC_ASSERT(search.found.size() == std::min<std::size_t>(5, needed.size()));
    for (std::size_t i = 0; i < search.found.size(); ++i) RC_ASSERT(same(search.found[i], needed[i]));
  }));
}

TEST_CASE("a space that is small enough is priced in full, whatever the prices") {
  CHECK(rc::check([] {
    std::vector<int> const alternatives =
        *rc::gen::container<std::vector<int>>(4, rc::gen::inRange(1, 5));  // at most 256 + 256 larger ones
    Prices prices = any_prices(alternatives, 30'00, 60'00);
    prices.impossible_in = *rc::gen::element(0, 4);
    Money const budget = eur(*rc::gen::inRange<std::int64_t>(700'00, 850'00));
    auto const all = within(prices, budget);
    BudgetSearch const search = within_budget(prices.alternatives, budget, prices);
    RC_CLASSIFY(all.empty(), "none within");
    RC_ASSERT(search.all_priced);
    RC_ASSERT(search.possible == static_cast<std::int64_t>(all_sets(alternatives).size()));
    RC_ASSERT(search.found.empty() == all.empty());
    if (!all.empty()) {
      RC_TAG(changes_of(all.front().choices));
      RC_ASSERT(same(search.found.front(), all.front()));
      if (changes_of(all.front().choices) < 3) return;
      for (std::size_t i = 0; i < search.found.size(); ++i) RC_ASSERT(same(search.found[i], all[i]));
      return;
    }
    RC_ASSERT(search.priced == search.possible);
    Money least = search.as_it_is.total;
    for (Choices const& choices : all_sets(alternatives))
      if (auto const outcome = prices(choices)) least = std::min(least, outcome->total);
    RC_ASSERT(search.nearest->outcome.total == least);
  }));
}

TEST_CASE("where no three changes have a say together, the best is always found") {
  CHECK(endband::testing::check_one_in(100, [] {
    Prices prices = any_prices(five_of_four, 25'00, 0);
    prices.impossible_in = *rc::gen::element(0, 6);
    Money const budget = eur(*rc::gen::inRange<std::int64_t>(600'00, 800'00));
    auto const all = within(prices, budget);
    std::int64_t const larger = *rc::gen::element<std::int64_t>(3, 40, 2000);
    BudgetSearch const search = within_budget(prices.alternatives, budget, prices, {.larger = larger});
    RC_ASSERT(search.found.empty() == all.empty());
    RC_TAG(all.empty() ? -1 : changes_of(all.front().choices));
    if (!all.empty()) RC_ASSERT(same(search.found.front(), all.front()));
    RC_ASSERT(search.all_looked_at);
    RC_ASSERT(search.priced <= 1 + 20 + 160 + larger);
  }));
}

TEST_CASE("nothing is found that was not priced, and no set is priced twice") {
  CHECK(endband::testing::check_one_in(10, [] {
    Prices prices = any_prices(std::vector<int>(7, 3), 25'00, 25'00);
    prices.impossible_in = *rc::gen::element(0, 10);
    Money const budget = eur(*rc::gen::inRange<std::int64_t>(400'00, 800'00));
    std::map<Choices, std::optional<Outcome>> priced;
    BudgetSearch const search = within_budget(prices.alternatives, budget,
                                              [&](Choices const& choices) {
                                                auto const outcome = prices(choices);
                                                RC_ASSERT(priced.emplace(choices, outcome).second);
                                                return outcome;
                                              },
                                              {.larger = 200});
    RC_TAG(search.found.empty() ? -1 : search.found.front().changes);
    RC_ASSERT(search.priced == static_cast<std::int64_t>(priced.size()));
    for (WithinBudget const& set : search.found) {
      RC_ASSERT(priced.at(set.choices).has_value());
      RC_ASSERT(set.outcome.total == priced.at(set.choices)->total);
      RC_ASSERT(set.outcome.total <= budget);
    }
    if (search.nearest) RC_ASSERT(priced.at(search.nearest->choices).has_value());
    RC_ASSERT(search.nearest.has_value() == search.found.empty());
  }));
}

// A measure, not a promise: how often the best of all is found where any three changes have a say of up to
// 25.00 together, beside single ones of up to 100.00 and pairs of up to 25.00.
TEST_CASE("where three changes have a say together, the best is found nearly always") {
  int wanted = 0;
  int found = 0;
  int within_at_all = 0;
  for (std::uint64_t seed = 1; seed <= 120; ++seed) {
    Prices const prices{five_of_four, 25'00, 25'00, seed, 0};
    Money const budget = eur(500'00 + static_cast<std::int64_t>(seed % 30) * 10'00);
    auto const all = within(prices, budget);
    if (all.empty() || changes_of(all.front().choices) < 3) continue;
    BudgetSearch const search = within_budget(prices.alternatives, budget, prices, {.larger = 400});
    ++wanted;
    within_at_all += search.found.empty() ? 0 : 1;
    found += !search.found.empty() && same(search.found.front(), all.front()) ? 1 : 0;
  }
  MESSAGE("of ", wanted, " books that need three changes or more, the best was found of ", found,
          " with 400 of 2944 larger sets priced, and some set within the budget of ", within_at_all);
  CHECK(wanted > 50);
  CHECK(found * 10 >= wanted * 7);
  CHECK(within_at_all * 10 >= wanted * 9);
}

// A measure too: prices that stand at points of 25.00, each pair with a say of up to 25.00 of its own. What
// any price would be is foretold well, what stands at a point is not.
TEST_CASE("where price points blur the differences, any price tells which sets to price") {
  int wanted = 0;
  std::array<int, 2> fewest{};  // without any price, with it
  for (std::uint64_t seed = 1; seed <= 120; ++seed) {
    Prices const any{five_of_four, 25'00, 0, seed, 0};
    auto const at_point = [&](Choices const& choices, bool tell) {
      Outcome outcome = any(choices).value();
      Money const total = round_to(outcome.total, 25'00, Rounding::up);
      Money const left = outcome.left + (total - outcome.total);
      return tell ? Outcome{total, left, outcome.total, outcome.left} : Outcome{total, left};
    };
    Money const budget = eur(550'00 + static_cast<std::int64_t>(seed % 10) * 25'00);
    int least = 9;
    for (Choices const& choices : all_sets(any.alternatives))
      if (at_point(choices, false).total <= budget) least = std::min(least, changes_of(choices));
    if (least == 9 || least < 3) continue;
    ++wanted;
    for (bool const tell : {false, true}) {
      BudgetSearch const search = within_budget(
          any.alternatives, budget,
          [&](Choices const& choices) { return std::optional(at_point(choices, tell)); }, {.larger = 60});
      fewest.at(tell ? 1 : 0) += !search.found.empty() && search.found.front().changes == least ? 1 : 0;
    }
  }
  MESSAGE("of ", wanted, " books that need three changes or more, the fewest were found of ", fewest[0],
          " by what stands at a point, of ", fewest[1], " by any price, with 60 of 2944 larger sets priced");
  CHECK(wanted > 40);
  CHECK(fewest[1] * 20 >= wanted * 19);
  CHECK(fewest[1] > fewest[0]);
}

TEST_CASE("the greatest search ends, and says that it has not looked at everything") {
  Prices const prices{std::vector<int>(30, 20), 1'00, 0, 7, 0};
  int priced = 0;
  BudgetSearch const search = within_budget(prices.alternatives, eur(-4'000'00),
                                            [&](Choices const& choices) {
                                              ++priced;
                                              return prices(choices);
                                            },
                                            {.larger = 300, .shown = 5, .work = 300'000});
  CHECK(search.priced == priced);
  CHECK(priced <= 1 + 600 + 435 * 400 + 300);
  CHECK(search.possible == std::numeric_limits<std::int64_t>::max());
  CHECK_FALSE(search.all_priced);
  CHECK_FALSE(search.all_looked_at);
  CHECK(search.nearest.has_value());
}
