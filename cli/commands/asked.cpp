// What a quote asks beside the book: flags, then the [quote] table, then the workshop's settings.
#include "cli/commands/described.h"
#include "cli/commands/money_said.h"
#include "cli/commands/text_read.h"
#include "cli/words/values.h"
#include "db/customers.h"
#include "db/materials.h"
#include "db/stock.h"
#include "engine/book/spec.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace endband::cli {
namespace {

constexpr std::int64_t one_piece = 1000;  // thousandths

// With their prices, as the engine chooses among them.
Read<std::vector<Material>> cartons_on_shelf(db::Workshop& workshop, Date on, BuyingRules const& buying) {
  std::vector<std::string> codes;
  for (Material const& carton : db::list_materials(workshop, on, MaterialKind::carton))
    if (auto const stock = db::on_hand(workshop, carton.code); stock && stock->quantity.n >= one_piece)
      codes.push_back(carton.code);
  auto catalogue = db::load_catalogue(workshop, codes, on, buying);
  if (!catalogue) return tl::unexpected(std::move(catalogue.error()));
  return std::move(catalogue->materials);
}

constexpr std::array<std::string_view, 5> goal_flags{"--margin", "--markup", "--profit", "--hourly",
                                                     "--leave"};

class Asking {
 public:
  Asking(Context const& context, db::Workshop& workshop, Args const& args, Described const& described)
      : context_(context), workshop_(workshop), args_(args), described_(described) {}

  Read<Asked> read() {
    read_customer();
    read_goal();
    read_delivery();
    read_sending();
    read_outlet();
    read_discount();
    read_made_to();
    read_validity();
    asked_.budget = budget_said();
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
    customer_country_ = customer->country;
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

  // A sum of the workshop's money.
  std::optional<Money> sum_of(std::optional<Said<std::string>> const& said) {
    if (!said) return std::nullopt;
    auto const money = read_workshop_money(said->value, described_.shop.shop.currency, said->where);
    return take(money) ? std::optional(*money) : std::nullopt;
  }

  // Of several goals the first with its place, and the place of the second.
  struct GoalSaid {
    Goal goal;
    Where where;
  };
  std::vector<GoalSaid> goals_said(bool flags) {
    std::vector<GoalSaid> goals;
    auto const share = [&](std::string_view flag, std::string_view key) -> std::optional<Said<Ratio>> {
      if (flags && !args_.has(flag)) return std::nullopt;
      auto value = said<Ratio>(flag, key);
      return in_range(value, key) ? value : std::nullopt;
    };
    auto const money = [&](std::string_view flag, std::string_view key, auto&& goal) {
      if (flags && !args_.has(flag)) return;
      auto const value = said<std::string>(flag, key);
      if (auto const sum = sum_of(value)) goals.push_back({goal(*sum), value->where});
    };
    if (auto const value = share("--margin", "quote.margin"))
      goals.push_back({MarginGoal{value->value}, value->where});
    if (auto const value = share("--markup", "quote.markup"))
      goals.push_back({MarkupGoal{value->value}, value->where});
    money("--profit", "quote.profit", [](Money sum) { return ProfitGoal{sum}; });
    money("--hourly", "quote.hourly", [](Money sum) { return HourlyGoal{sum}; });
    money("--leave", "quote.leave", [](Money sum) { return LeaveGoal{sum}; });
    return goals;
  }

  // A goal on the command line stands for all that a description may have.
  void read_goal() {
    bool flags = false;
    for (std::string_view const flag : goal_flags) flags |= args_.has(flag);
    if (args_.has("--at-price")) return read_price(flags);
    std::size_t const before = faults_.size();
    std::vector<GoalSaid> const goals = goals_said(flags);
    if (faults_.size() > before) return;
    if (goals.size() > 1)
      faults_.push_back({FaultCode::contradiction, goals[1].where, "two goals", "one of the two", {}});
    else if (!goals.empty())
      asked_.goal = goals.front().goal;
    else if (described_.shop.goal)
      asked_.goal = *described_.shop.goal;
    else
      faults_.push_back({FaultCode::missing_setting,
                         {"workshop", 0, 0, "goal.margin"},
                         "",
                         "workshop set goal.margin=\"35 %\"",
                         {}});
  }

  // A price on the command line stands for any goal.
  void read_price(bool goal_too) {
    Where const where = args_.where("--at-price");
    if (goal_too)
      faults_.push_back({FaultCode::contradiction, where, "a price and a goal", "one of the two", {}});
    auto const price = sum_of(Said<std::string>{args_.text("--at-price").value_or(""), where});
    if (price && price->minor <= 0)
      faults_.push_back({FaultCode::out_of_range, where, money_text(*price), "more than 0", {}});
    asked_.at_price = price;
  }

  void read_delivery() {
    asked_.delivery.carriage = {0, described_.shop.shop.currency};
    if (auto const carriage = sum_of(said<std::string>("--carriage", "quote.carriage")))
      asked_.delivery.carriage = *carriage;
    if (auto const words = said<std::string>("--delivery", "quote.delivery"))
      asked_.delivery.words = words->value;
  }

  void read_sending() {
    auto const service = said<std::string>("--service", "quote.service");
    auto const country = said<std::string>("--to", "quote.to");
    if (!service) {
      if (country)
        faults_.push_back({FaultCode::bad_command,
                           args_.where("--service"),
                           "",
                           "the service it is sent by, with --to",
                           {}});
      return;
    }
    if (args_.has("--carriage"))
      faults_.push_back({FaultCode::contradiction,
                         args_.where("--carriage"),
                         "carriage and a service",
                         "one of the two: the service's table says what it takes",
                         {}});
    auto found = located(db::load_carriage(workshop_, service->value, context_.on), service->where);
    std::string to = country ? country->value : customer_country_;
    if (to.empty())
      faults_.push_back({FaultCode::bad_command,
                         args_.where("--to"),
                         "",
                         "the country it is sent to, two letters, or a customer who has one",
                         {}});
    if (!take(found) || to.empty()) return;
    asked_.sending = Sending{std::move(found->service), found->version, std::move(to), {}};
    auto cartons = cartons_on_shelf(workshop_, context_.on, described_.shop.buying);
    if (take(cartons)) asked_.sending->cartons = std::move(*cartons);
  }

  void read_outlet() {
    auto const code = said<std::string>("--through", "quote.outlet");
    if (!code) return;
    auto outlet = outlet_at(workshop_, code->value, context_.on, code->where);
    if (!take(outlet)) return;
    asked_.outlet = std::move(*outlet);
  }

  void read_discount() {
    auto const share = said<Ratio>("--discount", "quote.discount");
    if (!share || !in_range(share, "quote.discount")) return;
    auto const reason = said<std::string>("--discount-because", "quote.discount_because");
    if (!reason || reason->value.empty()) {
      faults_.push_back({FaultCode::bad_command,
                         args_.where("--discount-because"),
                         "",
                         "why it is given away, in words",
                         {}});
      return;
    }
    if (share->value > Ratio(0)) asked_.discount = Discount{share->value, reason->value};
  }

  void read_made_to() {
    auto const made_to = said<std::string>("--made-to", "quote.made_to");
    if (!made_to) return;
    MadeToOrder read;
    std::vector<std::string_view> known;
    for (auto const each :
         {MadeTo::spec, MadeTo::personal, MadeTo::options, MadeTo::stock, MadeTo::business}) {
      known.push_back(made_to_name(each));
      if (known.back() == made_to->value) read.what = each;
    }
    if (std::find(known.begin(), known.end(), made_to->value) == known.end()) {
      faults_.push_back({FaultCode::bad_value, made_to->where, made_to->value,
                         "spec, personal, options, stock or business", nearest(made_to->value, known)});
      return;
    }
    if (auto const because = said<std::string>("--because", "quote.because")) read.because = because->value;
    bool const wants_reason = read.what == MadeTo::spec || read.what == MadeTo::personal;
    if (wants_reason && read.because.empty())
      faults_.push_back({FaultCode::bad_command,
                         args_.where("--because"),
                         "",
                         "the reason, in words: \"own dimensions and drawing\", \"initials tooled\"",
                         {}});
    asked_.made_to = std::move(read);
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

  std::optional<Money> budget_said() {
    auto const text = args_.text("--budget");
    if (!text) return std::nullopt;
    return sum_of(Said<std::string>{*text, args_.where("--budget")});
  }

  Context const& context_;
  db::Workshop& workshop_;
  Args const& args_;
  Described const& described_;
  Asked asked_;
  std::string customer_country_;
  std::vector<Fault> faults_;
};

}  // namespace

Read<Asked> asked_of(Context& context, db::Workshop& workshop, Args const& args, Described const& described) {
  return Asking(context, workshop, args, described).read();
}

}  // namespace endband::cli
