// What a quote asks beside the book: flags, then the [quote] table, then the workshop's settings.
#include "cli/commands/described.h"
#include "cli/words/values.h"
#include "db/customers.h"
#include "engine/book/spec.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

class Asking {
 public:
  Asking(Context const& context, db::Workshop& workshop, Args const& args, Described const& described)
      : context_(context), workshop_(workshop), args_(args), described_(described) {}

  Read<Asked> read() {
    read_customer();
    read_goal();
    read_delivery();
    read_validity();
    if (!faults_.empty()) return tl::unexpected(std::move(faults_));
    return std::move(asked_);
  }

 private:
  // A value and where it was said.
  template <class T>
  struct Said {
    T value;
    Where where;
  };

  template <class T>
  std::optional<Said<T>> said(std::string_view flag, std::string_view key) const {
    if (auto value = args_.get<T>(flag)) return Said<T>{std::move(*value), args_.where(flag)};
    Entry const* const entry = described_.said.find(key);
    if (entry == nullptr) return std::nullopt;
    return Said<T>{std::get<T>(entry->value), entry->where};
  }

  template <class T>
  bool take(Read<T> const& read) {
    if (!read) faults_.insert(faults_.end(), read.error().begin(), read.error().end());
    return read.has_value();
  }

  void read_customer() {
    auto const code = said<std::string>("--customer", "quote.customer");
    if (!code) return;
    auto const customer = located(db::find_customer(workshop_, code->value), code->where);
    if (!take(customer)) return;
    asked_.customer = customer->code;
    asked_.customer_name = customer->name;
  }

  // A flag has the range of its key. Both are few hundredths, which a double tells apart.
  bool in_range(std::optional<Said<Ratio>> const& said, std::string_view key) {
    if (!said) return true;
    KeyRow const& row = *key_named(description_keys(), key);
    double const value = static_cast<double>(said->value.num()) / static_cast<double>(said->value.den());
    if (value >= row.least && value <= row.most) return true;
    faults_.push_back({value >= 1 && key == "quote.margin" ? FaultCode::bad_goal : FaultCode::out_of_range,
                       said->where,
                       percent(said->value),
                       fmt::format("{:.0f} % to {:.0f} %", row.least * 100, row.most * 100),
                       {}});
    return false;
  }

  // A goal on the command line stands for both that a description may have.
  void read_goal() {
    bool const flags = args_.has("--margin") || args_.has("--markup");
    auto const margin =
        flags && !args_.has("--margin") ? std::nullopt : said<Ratio>("--margin", "quote.margin");
    auto const markup =
        flags && !args_.has("--markup") ? std::nullopt : said<Ratio>("--markup", "quote.markup");
    if (!in_range(margin, "quote.margin") || !in_range(markup, "quote.markup")) return;
    if (margin && markup)
      faults_.push_back(
          {FaultCode::contradiction, markup->where, "a margin and a markup", "one of the two", {}});
    else if (margin)
      asked_.goal = MarginGoal{margin->value};
    else if (markup)
      asked_.goal = MarkupGoal{markup->value};
    else if (described_.shop.goal)
      asked_.goal = *described_.shop.goal;
    else
      faults_.push_back({FaultCode::missing_setting,
                         {"workshop", 0, 0, "goal.margin"},
                         "",
                         "workshop set goal.margin=\"35 %\"",
                         {}});
  }

  void read_delivery() {
    Currency const currency = described_.shop.shop.currency;
    asked_.delivery.carriage = {0, currency};
    auto const carriage = said<std::string>("--carriage", "quote.carriage");
    if (carriage) {
      bool const names_currency =
          carriage->value.find_first_of("ABCDEFGHIJKLMNOPQRSTUVWXYZ") != std::string::npos;
      auto const money = located(
          names_currency ? read_money_with_currency(carriage->value) : read_money(carriage->value, currency),
          carriage->where);
      if (take(money)) asked_.delivery.carriage = *money;
      if (money && money->currency != currency)
        faults_.push_back({FaultCode::currency_mismatch,
                           carriage->where,
                           carriage->value,
                           "an amount in " + std::string(currency.code()),
                           {}});
    }
    if (auto const words = said<std::string>("--delivery", "quote.delivery"))
      asked_.delivery.words = words->value;
  }

  void read_validity() {
    auto const until = said<Date>("--valid-until", "quote.valid_until");
    asked_.valid_until = until ? until->value : context_.on + std::chrono::days{described_.shop.valid_days};
    if (asked_.valid_until < context_.on)
      faults_.push_back({FaultCode::out_of_range,
                         until ? until->where : args_.where("--valid-until"),
                         date_text(asked_.valid_until),
                         date_text(context_.on) + " or later",
                         {}});
  }

  Context const& context_;
  db::Workshop& workshop_;
  Args const& args_;
  Described const& described_;
  Asked asked_;
  std::vector<Fault> faults_;
};

}  // namespace

Read<Asked> asked_of(Context& context, db::Workshop& workshop, Args const& args, Described const& described) {
  return Asking(context, workshop, args, described).read();
}

}  // namespace endband::cli
