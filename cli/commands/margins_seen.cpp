#include "cli/commands/margins_seen.h"

#include "cli/words/values.h"
#include "db/customers.h"
#include "db/outlets.h"
#include "engine/book/style.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace endband::cli {
namespace {

constexpr std::string_view own = "own";

Read<std::optional<std::string>> binding_said(Args const& args) {
  auto const code = args.text("--binding");
  if (!code || style_named(*code) != nullptr) return code;
  std::vector<std::string_view> names;
  for (Style const& style : styles()) names.push_back(style.name);
  return refuse({FaultCode::unknown_code, args.where("--binding"), *code, "a binding, such as raised-cords",
                 nearest(*code, names)});
}

// One that is there now, or that past jobs were sold through.
Read<void> check_outlet(db::Workshop& workshop, Args const& args, std::string const& code, Date on) {
  std::vector<std::string> const codes = db::outlet_codes(workshop, on);
  db::PastFilter sold;
  sold.outlet = code;
  if (std::ranges::find(codes, code) != codes.end() || !db::load_past(workshop, sold).jobs.empty()) return {};
  std::vector<std::string_view> names{own};
  names.insert(names.end(), codes.begin(), codes.end());
  return refuse({FaultCode::unknown_code, args.where("--outlet"), code, "an outlet's code, or own",
                 nearest(code, names)});
}

std::int64_t thousandths(double value) { return std::llround(value * 1000); }

}  // namespace

double decimal(Ratio value) { return static_cast<double>(value.num()) / static_cast<double>(value.den()); }

double major(Money money) {
  return static_cast<double>(money.minor) / static_cast<double>(money.currency.minor_per_major());
}

std::vector<Flag> past_flags() {
  return {{"--since", FlagType::date, "only jobs finished on that day or later"},
          {"--until", FlagType::date, "only jobs finished by that day"},
          {"--binding", FlagType::binding, "only of that binding"},
          {"--outlet", FlagType::outlet, "only sold through that outlet; own: by the workshop itself"},
          {"--customer", FlagType::customer, "only for that customer"}};
}

Read<db::PastFilter> past_filter(db::Workshop& workshop, Args const& args, Date on) {
  db::PastFilter filter;
  filter.since = args.get<Date>("--since");
  filter.until = args.get<Date>("--until");
  if (!filter.until) filter.until = on;
  auto binding = binding_said(args);
  if (!binding) return tl::unexpected(std::move(binding.error()));
  filter.binding = std::move(*binding);
  filter.outlet = args.text("--outlet");
  if (filter.outlet == own)
    filter.outlet = "";
  else if (filter.outlet)
    if (auto const done = check_outlet(workshop, args, *filter.outlet, on); !done)
      return tl::unexpected(done.error());
  filter.customer = args.text("--customer");
  if (filter.customer)
    if (auto const known = db::find_customer(workshop, *filter.customer); !known)
      return tl::unexpected(located(known, args.where("--customer")).error());
  if (filter.since && *filter.since > *filter.until)
    return refuse({FaultCode::contradiction,
                   args.where("--since"),
                   date_text(*filter.since),
                   date_text(*filter.until) + " or earlier",
                   {}});
  return filter;
}

Json past_job_json(PastJob const& job) {
  PastSum sum(job.price.currency);
  sum.add(job);
  auto const word = [](std::string const& code) { return code.empty() ? Json() : Json(code); };
  auto const share = [](std::optional<Ratio> ratio) { return ratio ? ratio_json(*ratio) : Json(); };
  return Json::Object{{"job", job.number},
                      {"title", job.title},
                      {"binding", job.binding},
                      {"outlet", word(job.outlet)},
                      {"customer", word(job.customer)},
                      {"quoted_on", date_text(job.quoted_on)},
                      {"ended_on", date_text(job.ended)},
                      {"full_price", money_json(job.full_price)},
                      {"price", money_json(job.price)},
                      {"given_away", money_json(job.given_away())},
                      {"left_given", money_json(job.left_given)},
                      {"left_quoted", money_json(job.left_quoted)},
                      {"left", money_json(job.left)},
                      {"margin_quoted", share(sum.margin_quoted())},
                      {"margin", share(sum.margin())},
                      {"quoted_s", job.seconds_quoted},
                      {"worked_s", job.seconds},
                      {"hourly", money_json(sum.hourly())}};
}

Json past_sum_json(PastSum const& sum) {
  auto const share = [](std::optional<Ratio> ratio) { return ratio ? ratio_json(*ratio) : Json(); };
  return Json::Object{{"jobs", sum.count},
                      {"full_price", money_json(sum.full_price)},
                      {"given_away", money_json(sum.given_away)},
                      {"left_given", money_json(sum.left_given)},
                      {"left_quoted", money_json(sum.left_quoted)},
                      {"left", money_json(sum.left)},
                      {"margin_quoted", share(sum.margin_quoted())},
                      {"margin", share(sum.margin())},
                      {"quoted_s", sum.seconds_quoted},
                      {"worked_s", sum.seconds},
                      {"hourly", money_json(sum.hourly())},
                      {"few", sum.count < few}};
}

Json ranged_json(Ranged const& ranged) {
  return Json::Object{{"n", ranged.n},
                      {"value_e3", thousandths(ranged.value)},
                      {"low_e3", thousandths(ranged.low)},
                      {"high_e3", thousandths(ranged.high)}};
}

std::string margin_words(std::optional<Ratio> share) {
  return share ? percent_text(*share, 1) + " %" : std::string();
}

std::string more_hours(std::int64_t seconds) {
  return (seconds < 0 ? "-" : "+") + hours_words(Ratio(std::abs(seconds)));
}

std::string outlet_words(std::string const& code) {
  return code.empty() ? "by the workshop itself" : "through " + code;
}

std::string period_words(std::vector<PastJob> const& jobs) {
  auto const [first, last] = std::ranges::minmax_element(jobs, {}, &PastJob::ended);
  if (first == jobs.end()) return {};
  return fmt::format("from {} to {}", date_text(first->ended), date_text(last->ended));
}

}  // namespace endband::cli
