// How long the search within a budget takes where each set is a whole book computed anew: 4, 7 and 10 groups
// of 4 alternatives, and budgets from one that a change meets to one that nothing meets: so much of what all
// changes save is to be saved. Target: less than 500 ms with 10 groups at -O2.
//   budget_bench WORKSHOP BOOK [ON]
#include "engine/commission/options.h"
#include "subject.h"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <exception>
#include <stdexcept>
#include <utility>
#include <vector>

namespace {

using namespace endband;

constexpr int alternatives_a_group = 4;
constexpr double target_ms = 500;

// The dearest materials first, as places in the catalogue.
std::vector<std::size_t> dearest(Catalogue const& catalogue, Bill const& bill) {
  std::vector<std::pair<std::int64_t, std::size_t>> costs;
  for (BillLine const& line : bill.lines)
    for (std::size_t i = 0; i < catalogue.materials.size(); ++i)
      if (catalogue.materials[i].id == line.material && !line.customer_supplied)
        costs.emplace_back(-material_cost(line).minor, i);
  std::sort(costs.begin(), costs.end());
  std::vector<std::size_t> places;
  for (auto const& [cost, place] : costs) places.push_back(place);
  return places;
}

// The first group is fewer leaves, the second quicker work, each of the others a cheaper material: leaves and
// materials, and leaves and work, have a say together.
class Varied {
 public:
  explicit Varied(Commission const& commission)
      : commission_(commission), materials_(dearest(commission.catalogue, price(commission).value().bill)) {}

  std::size_t most_groups() const { return 2 + materials_.size(); }

  std::optional<Outcome> operator()(Choices const& choices) const {
    Commission of = commission_;
    for (std::size_t group = 0; group < choices.size(); ++group)
      if (choices[group] != 0) vary(of, group, choices[group]);
    Read<Priced> const priced = price(of);
    if (!priced) return std::nullopt;
    SellingRules any_price = of.selling;
    any_price.points = {};
    Read<Offer> const any = offer(priced->sheet, of.delivery, any_price, of.goal, of.shop);
    if (!any) return std::nullopt;
    return Outcome{priced->offer.total, priced->offer.left, any->total, any->left};
  }

 private:
  void vary(Commission& of, std::size_t group, int alternative) const {
    if (group == 0) return fewer_pages(of, alternative);
    if (group == 1) return quicker(of, alternative);
    Money& paid = of.catalogue.materials[materials_[group - 2]].price->price;
    paid = scale(paid, {100 - 15 * alternative, 100}, Rounding::half_away);
  }

  static void fewer_pages(Commission& of, int alternative) {
    Figures& given = of.book.given;
    if (given.has(FigureId::pages_wanted))
      given.set(FigureId::pages_wanted, given.value(FigureId::pages_wanted) * (1 - 0.08 * alternative),
                Origin::said);
  }

  static void quicker(Commission& of, int alternative) {
    for (Step& step : of.steps.steps)
      for (Duration* const time : {&step.each.low, &step.each.likely, &step.each.high})
        time->n = time->n * (100 - 3 * alternative) / 100;
  }

  Commission const& commission_;
  std::vector<std::size_t> materials_;
};

double ms_since(std::chrono::steady_clock::time_point begin) {
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count();
}

void print_row(Varied const& price, int groups, Money budget, int percent) {
  std::vector<int> const alternatives(static_cast<std::size_t>(groups), alternatives_a_group);
  double pricing = 0;
  auto const timed = [&](Choices const& choices) {
    auto const begin = std::chrono::steady_clock::now();
    auto outcome = price(choices);
    pricing += ms_since(begin);
    return outcome;
  };
  auto const begin = std::chrono::steady_clock::now();
  BudgetSearch const search = within_budget(alternatives, budget, timed);
  double const all = ms_since(begin);
  int const changes = search.found.empty() ? -1 : search.found.front().changes;
  std::printf(
      "%2d groups  to save %3d %%  %8lld sets  %5lld priced  changes %2d  %s  %7.1f ms, pricing %7.1f ms",
      groups, percent, static_cast<long long>(search.possible), static_cast<long long>(search.priced),
      changes,
      search.all_priced      ? "all priced  "
      : search.all_looked_at ? "all ranked  "
                             : "not all seen",
      all, pricing);
  std::printf("  / target %.2f\n", all / target_ms);
}

}  // namespace

int main(int argc, char** argv) try {
  if (argc < 3 || argc > 4) {
    std::fputs("usage: budget_bench WORKSHOP BOOK [ON]\n", stderr);
    return 2;
  }
  Date const on = read_date(argc == 4 ? argv[3] : "2026-11-25").value();
  bench::Subject const subject = bench::load_subject(argv[1], argv[2], on);
  Varied const price(subject.commission);
  for (int const groups : {4, 7, 10}) {
    if (static_cast<std::size_t>(groups) > price.most_groups())
      throw std::runtime_error("too few materials in the book");
    auto const total = [&](int alternative) {
      return price(Choices(static_cast<std::size_t>(groups), alternative)).value().total;
    };
    Money const most_saved = total(0) - total(alternatives_a_group);
    for (int const percent : {5, 30, 60, 80, 90, 97, 100, 110})
      print_row(price, groups, total(0) - scale(most_saved, {percent, 100}, Rounding::down), percent);
  }
  return 0;
} catch (std::exception const& error) {
  std::fprintf(stderr, "budget_bench: %s\n", error.what());
  return 1;
}
