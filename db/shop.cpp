// The settings in force on a day as the typed rules that the engine takes.
#include "db/setting_value.h"
#include "db/settings.h"
#include "engine/book/spec.h"

#include <algorithm>
#include <utility>

namespace endband::db {
namespace {

class InForce {
 public:
  InForce(Workshop& workshop, Date on) : currency_(workshop.currency()), all_(settings(workshop, on)) {}

  std::vector<Setting> const& all() const { return all_; }

  // The value set, or its fallback; empty when there is neither.
  std::string_view text(std::string_view name) const {
    for (Setting const& setting : all_)
      if (setting.name == name) return setting.value;
    return setting_row(name)->fallback;
  }

  // What is missing is kept for `faults`; the caller goes on with a value that nobody will see.
  std::string_view needed(std::string_view name) {
    std::string_view const value = text(name);
    if (!value.empty()) return value;
    std::string const example(setting_row(name)->example);
    std::string const word = example.find(' ') == std::string::npos ? example : '"' + example + '"';
    faults.push_back({FaultCode::missing_setting,
                      {"workshop", 0, 0, std::string(name)},
                      "",
                      "workshop set " + std::string(name) + "=" + word,
                      {}});
    return example.empty() ? std::string_view("0") : setting_row(name)->example;
  }

  Money money(std::string_view text) const { return stored(read_money(text, currency_)); }
  Ratio ratio(std::string_view text) const { return stored(read_ratio(text)); }
  Length length(std::string_view text) const { return stored(read_length(text)); }
  Duration duration(std::string_view text) const { return stored(read_duration(text)); }

  std::int64_t step(std::string_view name) const {
    std::string_view const value = text(name);
    return value.empty() ? 1 : std::max<std::int64_t>(1, money(value).minor);
  }

  std::vector<Fault> faults;

 private:
  // Values were checked when they were set; one that does not read was changed behind our back.
  template <class T>
  static T stored(Read<T> read) {
    if (!read) throw StoreError(FaultCode::not_a_workshop, "setting_version: " + read.error().front().found);
    return *std::move(read);
  }

  Currency currency_;
  std::vector<Setting> all_;
};

RateBasis rate_basis(InForce& in_force, Currency currency) {
  RateBasis basis;
  basis.pay_wanted = in_force.money(in_force.needed("year.pay"));
  basis.charges_on_pay = in_force.money(in_force.text("year.charges"));
  basis.hours_charged = in_force.duration(in_force.needed("year.hours"));
  basis.overhead = {0, currency};
  for (Setting const& setting : in_force.all())
    if (setting.name.starts_with("overhead.")) basis.overhead += in_force.money(setting.value);
  return basis;
}

// Components, and carriage, of another class than the goods at large.
std::vector<TaxOfLine> tax_of_lines(InForce& in_force) {
  constexpr std::string_view family = "tax-class.";
  std::vector<TaxOfLine> own;
  for (Setting const& setting : in_force.all()) {
    if (!setting.name.starts_with(family)) continue;
    std::string const line = setting.name.substr(family.size());
    std::string const rate = "tax-rate." + setting.value;
    std::string_view const text = in_force.text(rate);
    if (text.empty()) {
      in_force.faults.push_back({FaultCode::missing_setting,
                                 {"workshop", 0, 0, rate},
                                 "",
                                 "rates tax " + setting.value + " \"7 %\"",
                                 {}});
      continue;
    }
    std::optional<Component> component;
    for (std::size_t i = 0; i < component_count; ++i)
      if (component_name(static_cast<Component>(i)) == line) component = static_cast<Component>(i);
    own.push_back({component, setting.value, in_force.ratio(text)});
  }
  return own;
}

SellingRules selling_rules(InForce& in_force) {
  SellingRules selling;
  selling.points.step = in_force.step("price.step");
  selling.points.below = in_force.money(in_force.text("price.below")).minor;
  if (selling.points.below >= selling.points.step && selling.points.below > 0)
    in_force.faults.push_back({FaultCode::contradiction,
                               {"workshop", 0, 0, "price.below"},
                               std::string(in_force.text("price.below")),
                               "less than price.step",
                               {}});
  std::string_view const mode = in_force.text("tax.mode");
  selling.tax.mode = mode == "added"      ? TaxMode::added
                     : mode == "included" ? TaxMode::included
                                          : TaxMode::none;
  if (selling.tax.mode != TaxMode::none) {
    selling.tax.rate = in_force.ratio(in_force.needed("tax.rate"));
    selling.tax.name = in_force.text("tax.name");
    selling.tax.own = tax_of_lines(in_force);
  }
  selling.deposit.share = in_force.ratio(in_force.text("deposit.share"));
  selling.deposit.step = in_force.step("deposit.step");
  return selling;
}

LearningCurve learning_curve(InForce const& in_force) {
  bool const average = in_force.text("learning.model") == "cumulative-average";
  return {average ? LearningModel::wright : LearningModel::crawford,
          in_force.ratio(in_force.text("learning.rate")),
          in_force.ratio(in_force.text("learning.plateau")).num()};
}

// The default.* values as one layer of a description; each entry says which setting it is.
BookText defaults_layer(InForce& in_force) {
  BookText text{"workshop", {}};
  for (Setting const& setting : in_force.all()) {
    if (!setting.name.starts_with("default.")) continue;
    std::string const key = setting.name.substr(sizeof "default." - 1);
    Where const where{"workshop", 0, 0, setting.name};
    Read<Value> read = default_value(key, setting.value, where);
    if (read)
      text.entries.push_back({key, -1, *std::move(read), where});
    else  // it was read when it was set: the program's table of keys has changed since
      in_force.faults.insert(in_force.faults.end(), read.error().begin(), read.error().end());
  }
  return text;
}

}  // namespace

Read<Shop> load_shop(Workshop& workshop, Date on) {
  InForce in_force(workshop, on);
  Shop shop;
  shop.work.enquiries_an_order = in_force.ratio(in_force.text("enquiries.an-order"));
  shop.work.learning = learning_curve(in_force);
  shop.overtime_share = in_force.ratio(in_force.text("overtime.share"));
  shop.confidence = in_force.ratio(in_force.text("promise.confidence"));
  shop.buying.tax_recovered = in_force.ratio(in_force.text("tax.recovered"));
  shop.shop.currency = workshop.currency();
  shop.shop.basis = rate_basis(in_force, workshop.currency());
  shop.shop.contingency = in_force.ratio(in_force.text("contingency"));
  shop.shop.least_charge = in_force.money(in_force.text("least.charge"));
  shop.shop.least_hourly = in_force.money(in_force.text("least.hourly"));
  shop.selling = selling_rules(in_force);
  shop.cutting.least_kept = in_force.length(in_force.text("cut.least-kept"));
  shop.cutting.kerf = in_force.length(in_force.text("cut.kerf"));
  if (std::string_view const margin = in_force.text("goal.margin"); !margin.empty())
    shop.goal = MarginGoal{in_force.ratio(margin)};
  shop.valid_days = static_cast<int>(in_force.ratio(in_force.text("quote.valid-days")).num());
  shop.maker_name = in_force.text("maker.name");
  shop.maker_address = in_force.text("maker.address");
  shop.maker_email = in_force.text("maker.email");
  shop.maker_country = in_force.text("maker.country");
  shop.exempt_words = in_force.text("tax.exempt-words");
  shop.defaults = defaults_layer(in_force);
  if (!in_force.faults.empty()) return tl::unexpected(std::move(in_force.faults));
  return shop;
}

}  // namespace endband::db
