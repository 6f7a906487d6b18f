#include "cli/commands/quote_options.h"

#include "cli/commands/planned.h"
#include "cli/words/values.h"
#include "db/materials.h"
#include "engine/book/spec.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

namespace endband::cli {
namespace {

// What an option's own words lack is told at the option, which brought it about.
Read<Described> book_of(db::Workshop& workshop, Described const& base, Option const& option, Date on) {
  Option const* const taken = &option;
  auto book = described_with(workshop, base, with_options(base.said, {&taken, 1}), on);
  if (book) return book;
  std::vector<Fault> faults = std::move(book.error());
  for (Fault& fault : faults) {
    std::string const field = fault.where.field;
    fault.where = option.where;
    if (!field.empty()) fault.where.field += ", " + field;
  }
  return tl::unexpected(std::move(faults));
}

Read<Commission> commission_with(OptionBooks const& books, Commission const& base, Asked const& asked,
                                 std::span<Option const* const> taken) {
  Described changed = books.base;
  changed.said = with_options(books.base.said, taken);
  changed.catalogue = books.catalogue;
  auto book = book_with(books.base, changed.said, books.catalogue);
  if (!book) return tl::unexpected(std::move(book.error()));
  changed.book = std::move(*book);
  auto commission = commission_of(changed, asked, base.steps);
  if (!commission) return commission;
  commission->bench = base.bench;
  commission->shop = base.shop;  // a simulated contingency, and overtime
  commission->plans = base.plans;
  return commission;
}

std::vector<std::string> words_of(std::span<Option const* const> taken) {
  std::vector<std::string> words;
  for (Option const* const option : taken) words.push_back(option->words);
  return words;
}

// With what it would be at any price: points blur the differences by which larger sets are ranked.
Outcome outcome_of(Commission const& commission, Priced const& priced) {
  Outcome outcome{priced.offer.total, priced.offer.left, {}, {}};
  SellingRules any = priced.selling;
  any.points = PricePoints{};
  if (any.outlet) any.outlet->points = PricePoints{};
  auto const offered = offer(priced.sheet, priced.delivery, any, commission.goal, commission.shop);
  if (!offered) return outcome;
  outcome.any_total = offered->total;
  outcome.any_left = offered->left;
  return outcome;
}

// Found by the guess of yields where a set's own cuts are not planned yet: planned, priced and judged anew.
std::optional<BudgetSet> confirmed(OptionBooks const& books, Commission const& base, Asked const& asked,
                                   std::span<Option const* const> taken) {
  auto commission = commission_with(books, base, asked, taken);
  if (!commission) return std::nullopt;
  plan_the_rest(*commission);
  auto const priced = price(*commission);
  if (!priced) return std::nullopt;
  return BudgetSet{words_of(taken), priced->offer.total, priced->offer.left};
}

}  // namespace

Read<OptionBooks> option_books(db::Workshop& workshop, Described const& base, Date on) {
  OptionBooks books;
  books.base = base;
  auto options = options_of(base.said, description_keys());
  if (!options) return tl::unexpected(std::move(options.error()));
  books.options = std::move(*options);
  std::set<std::string> codes(base.codes.begin(), base.codes.end());
  std::vector<Fault> faults;
  for (Option const& option : books.options) {
    auto const book = book_of(workshop, base, option, on);
    if (book)
      codes.insert(book->codes.begin(), book->codes.end());
    else
      faults.insert(faults.end(), book.error().begin(), book.error().end());
  }
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  books.codes.assign(codes.begin(), codes.end());
  auto catalogue = db::load_catalogue(workshop, books.codes, on, base.shop.buying);
  if (!catalogue) return tl::unexpected(std::move(catalogue.error()));
  books.catalogue = std::move(*catalogue);
  return books;
}

Read<std::vector<OptionPrice>> price_options(OptionBooks const& books, Commission const& base,
                                             Asked const& asked, Priced const& asked_for, PlanTable& plans) {
  std::vector<OptionPrice> prices;
  for (Option const& option : books.options) {
    Option const* const taken = &option;
    auto commission = commission_with(books, base, asked, {&taken, 1});
    if (!commission) return tl::unexpected(std::move(commission.error()));
    PlanTable const solved = plan_the_rest(*commission);
    plans.insert(solved.begin(), solved.end());
    auto const priced = price(*commission);
    if (!priced) return tl::unexpected(at_flags(priced.error(), "quote make"));
    prices.push_back({option.words, option.either, priced->offer.total - asked_for.offer.total,
                      priced->sheet.total - asked_for.sheet.total, priced->offer.left - asked_for.offer.left,
                      priced->sheet.seconds - asked_for.sheet.seconds});
  }
  return prices;
}

BudgetAnswer within(Money budget, OptionBooks const& books, Commission const& base, Asked const& asked) {
  std::vector<OptionGroup> const groups = groups_of(books.options);
  std::vector<int> alternatives;
  alternatives.reserve(groups.size());
  for (OptionGroup const& group : groups) alternatives.push_back(static_cast<int>(group.size()));
  auto const outcome = [&](Choices const& choices) -> std::optional<Outcome> {
    auto const commission = commission_with(books, base, asked, taken_of(groups, choices));
    if (!commission) return std::nullopt;
    auto const priced = price(*commission);
    if (!priced) return std::nullopt;
    return outcome_of(*commission, *priced);
  };
  BudgetSearch const search = within_budget(alternatives, budget, outcome);
  BudgetAnswer answer{budget, search.as_it_is.total, search.as_it_is.left, {},
                      {},     search.priced,         search.possible,      search.all_priced};
  for (WithinBudget const& found : search.found)
    if (found.changes == 0)
      continue;  // as it is
    else if (auto set = confirmed(books, base, asked, taken_of(groups, found.choices));
             set && set->total <= budget)
      answer.sets.push_back(std::move(*set));
  if (search.nearest)
    answer.nearest = confirmed(books, base, asked, taken_of(groups, search.nearest->choices));
  return answer;
}

Json budget_json(std::optional<BudgetAnswer> const& answer) {
  if (!answer) return {};
  auto const set_json = [](BudgetSet const& set) {
    return Json(Json::Object{{"changes", json_words(set.words)},
                             {"total", money_json(set.total)},
                             {"left", money_json(set.left)}});
  };
  return Json::Object{{"budget", money_json(answer->budget)},
                      {"total", money_json(answer->total)},
                      {"sets", json_array(answer->sets, set_json)},
                      {"nearest", answer->nearest ? set_json(*answer->nearest) : Json()},
                      {"priced", answer->priced},
                      {"possible", answer->possible},
                      {"all_priced", answer->all_priced}};
}

void add_budget(Document& document, std::optional<BudgetAnswer> const& answer) {
  if (!answer) return;
  document.heading(fmt::format("For {}", money_words(answer->budget)), 2);
  std::string counted =
      fmt::format("{} of {} sets of changes were priced in full", answer->priced, answer->possible);
  if (answer->priced < answer->possible)
    counted += answer->all_priced ? "; the others hold more changes than are needed"
                                  : "; of the others the best were chosen by what they should come to";
  counted += ".";
  if (answer->total <= answer->budget) {
    document.paragraph("It is within that as it is.");
    return;
  }
  if (answer->sets.empty()) {
    std::string text = answer->possible <= 1 ? "The description has no [[options]] to choose from."
                                             : "None of the changes brings it under that.";
    if (answer->nearest && !answer->nearest->words.empty())
      text += fmt::format(" Nearest is {} to pay: {}.", money_words(answer->nearest->total),
                          listed(answer->nearest->words));
    document.paragraph(text + " " + counted);
    return;
  }
  Table table{{{"Change"},
               {"To pay " + std::string(answer->budget.currency.code()), Align::decimal},
               {"Left", Align::decimal},
               {"Left now", Align::decimal, 1}},
              {}};
  for (BudgetSet const& set : answer->sets)
    table.add({listed(set.words), money_text(set.total), money_text(set.left), money_text(answer->left)});
  document.add(std::move(table));
  document.paragraph(counted);
}

Json options_json(std::span<OptionPrice const> options) {
  return json_array(options, [](OptionPrice const& option) {
    return Json(Json::Object{{"words", option.words},
                             {"either", option.either},
                             {"shown", money_json(option.shown)},
                             {"cost", money_json(option.cost)},
                             {"left", money_json(option.left)},
                             {"work_s", round(option.seconds, Rounding::half_away)}});
  });
}

void add_options(Document& document, std::span<OptionPrice const> options) {
  if (options.empty()) return;
  Table table{{{"Option"},
               {"To pay " + std::string(options.front().shown.currency.code()), Align::decimal},
               {"Cost", Align::decimal, 1},
               {"Left", Align::decimal},
               {"Hours", Align::right}},
              {}};
  for (OptionPrice const& option : options) {
    bool const less = option.seconds < Ratio(0);
    Ratio const time = less ? Ratio(0) - option.seconds : option.seconds;
    table.add({option.words, signed_text(option.shown), signed_text(option.cost), signed_text(option.left),
               time == Ratio(0) ? "" : (less ? "-" : "+") + hours_words(time)});
  }
  document.heading("Options, not in the total: what each would change", 2).add(std::move(table));
}

}  // namespace endband::cli
