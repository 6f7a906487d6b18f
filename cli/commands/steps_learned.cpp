#include "cli/commands/steps_learned.h"

#include "cli/words/values.h"
#include "db/materials.h"
#include "db/settings.h"
#include "db/steps.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>

namespace endband::cli {
namespace {

constexpr double chances_worth = 20;    // jobs
constexpr double enquiries_worth = 10;  // enquiries
constexpr double spoil_spread = 1;      // of the share of an average job: spoil is far from even
Ratio const most_spoil(95, 100);
constexpr std::int64_t thousand = 1000;
constexpr std::string_view enquiries_name = "enquiries";

double sum_believed(std::vector<Seen> const& seen) {
  return std::accumulate(seen.begin(), seen.end(), 0.0,
                         [](double sum, Seen const& one) { return sum + one.believed; });
}
double sum_was(std::vector<Seen> const& seen) {
  return std::accumulate(seen.begin(), seen.end(), 0.0,
                         [](double sum, Seen const& one) { return sum + one.was; });
}

bool within(Ranged const& factor) { return factor.low <= 1 && factor.high >= 1; }

std::optional<OutletAlone> one_outlet_alone(StepSeen const& seen, std::vector<PastJob> const& jobs) {
  std::set<std::string> outlets;
  for (std::size_t const job : seen.jobs) outlets.insert(jobs[job].outlet);
  for (std::string const& outlet : outlets) {
    std::vector<Seen> through, rest;
    for (std::size_t i = 0; i < seen.jobs.size(); ++i)
      (jobs[seen.jobs[i]].outlet == outlet ? through : rest).push_back(seen.times[i]);
    if (outlet.empty() || static_cast<std::int64_t>(through.size()) < few ||
        static_cast<std::int64_t>(rest.size()) < few)
      continue;
    OutletAlone alone{outlet, learned_ratio(through, {}), learned_ratio(rest, {})};
    bool const elsewhere =
        within(alone.rest) || std::abs(alone.rest.value - 1) * 3 < std::abs(alone.through.value - 1);
    if (!within(alone.through) && elsewhere && std::abs(alone.through.value - 1) > 0.5) return alone;
  }
  return std::nullopt;
}

LearnedStep learned_step(StepSeen const& seen, Step const& now, std::vector<PastJob> const& jobs) {
  LearnedStep step{.operation = seen.operation,
                   .now = now,
                   .timed_s = 0,
                   .took_s = 0,
                   .factor = {},
                   .far = {},
                   .only = {}};
  auto const n = static_cast<double>(seen.times.size());
  step.timed_s = std::llround(sum_believed(seen.times) / n);
  step.took_s = std::llround(sum_was(seen.times) / n);
  step.factor = learned_ratio(seen.times, {});
  for (std::size_t const at : far_from_the_others(seen.times))
    step.far.push_back({jobs[seen.jobs[at]].number, seen.times[at].was / seen.times[at].believed});
  step.only = one_outlet_alone(seen, jobs);
  return step;
}

double out_by(LearnedStep const& step) {
  return std::abs(step.factor.value - 1) * static_cast<double>(step.timed_s) *
         static_cast<double>(step.factor.n);
}

std::vector<LearnedSpoil> learned_spoil(db::Workshop& workshop, std::vector<PastJob> const& jobs, Date on) {
  std::map<std::int64_t, Material> materials;
  for (Material& material : db::list_materials(workshop, on, std::nullopt))
    materials.emplace(material.id.value, std::move(material));
  std::vector<LearnedSpoil> all;
  for (db::SpoilSeen const& seen : db::load_spoil_seen(workshop, jobs)) {
    auto const found = materials.find(seen.material.value);
    if (found == materials.end()) continue;
    Material const& material = found->second;
    LearnedSpoil spoil{.code = material.code,
                       .now = material.spoil,
                       .ruin_now = material.ruin_chance,
                       .factor = {},
                       .ruin = {}};
    bool const spoils = !seen.times.empty();
    if (spoils)
      spoil.factor = learned_ratio(seen.times, {.prior = 1, .jobs_worth = 4, .spread = spoil_spread});
    if (material.ruin_chance > Ratio(0))
      spoil.ruin = learned_chance(seen.ruined, seen.taken, decimal(material.ruin_chance), chances_worth);
    if (spoils || spoil.ruin) all.push_back(std::move(spoil));
  }
  return all;
}

LearnedEnquiries learned_enquiries(db::EnquiriesSeen const& seen, Ratio now) {
  LearnedEnquiries result{.quoted = seen.quoted, .taken = seen.taken, .now = now, .an_order = {}};
  double const prior = std::clamp(1 / decimal(now), 0.01, 0.99);
  Ranged const won = learned_chance(seen.taken, seen.quoted, prior, enquiries_worth);
  result.an_order = {1 / won.value, 1 / won.high, 1 / won.low, seen.quoted};
  return result;
}

Duration scaled(Duration time, Ratio factor) { return {round_product(factor, time.n, Rounding::half_away)}; }
Spread3 scaled(Spread3 const& times, Ratio factor) {
  return {scaled(times.low, factor), scaled(times.likely, factor), scaled(times.high, factor)};
}
Ratio to_thousandth(double value) { return {std::llround(value * thousand), thousand}; }

std::vector<std::string> words_of(std::string const& text) {
  std::vector<std::string> words;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t const end = std::min(text.find(' ', at), text.size());
    if (end > at) words.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return words;
}

class Accepting {
 public:
  Accepting(db::Writing& writing, Learned const& learned, Date from)
      : writing_(writing), learned_(learned), from_(from) {}

  bool take(std::string const& name) {
    return take_step(name) || take_material(name) || take_enquiries(name);
  }
  Read<void> faults() const {
    if (faults_.empty()) return {};
    return tl::unexpected(faults_);
  }

 private:
  bool take_step(std::string const& name) {
    auto const step = std::ranges::find(learned_.steps, operation_named(name), [](LearnedStep const& each) {
      return std::optional(each.operation);
    });
    if (step == learned_.steps.end()) return false;
    Step changed = step->now;
    Ratio const factor = to_thousandth(step->factor.value);
    changed.set_up = scaled(changed.set_up, factor);
    changed.each = scaled(changed.each, factor);
    db::set_step(writing_, changed, from_);
    return true;
  }

  bool take_material(std::string const& name) {
    auto const spoil = std::ranges::find(learned_.materials, name, &LearnedSpoil::code);
    if (spoil == learned_.materials.end()) return false;
    auto material = db::find_material(writing_.workshop(), name, from_);
    if (!material) return note(material.error());
    if (spoil->factor.n > 0) {
      Ratio const factor = to_thousandth(spoil->factor.value);
      material->spoil = std::min(material->spoil * factor, most_spoil);
      material->least_spoil.n = round_product(factor, material->least_spoil.n, Rounding::half_away);
    }
    if (spoil->ruin) material->ruin_chance = to_thousandth(spoil->ruin->value);
    if (auto const done = db::change_material(writing_, *material, from_); !done) return note(done.error());
    return true;
  }

  bool take_enquiries(std::string const& name) {
    if (name != enquiries_name || learned_.enquiries.quoted == 0) return false;
    auto setting = db::check_setting(writing_.workshop(), "enquiries.an-order",
                                     fmt::format("{:.2f}", learned_.enquiries.an_order.value));
    if (!setting) return note(setting.error());
    setting->valid_from = from_;
    db::set(writing_, *setting);
    return true;
  }

  bool note(std::vector<Fault> const& faults) {
    faults_.insert(faults_.end(), faults.begin(), faults.end());
    return true;
  }

  db::Writing& writing_;
  Learned const& learned_;
  Date from_;
  std::vector<Fault> faults_;
};

Fault not_learned(Learned const& learned, Args const& args, std::string const& name) {
  std::vector<std::string_view> known{enquiries_name};
  for (LearnedStep const& step : learned.steps) known.push_back(operation_row(step.operation).name);
  for (LearnedSpoil const& spoil : learned.materials) known.push_back(spoil.code);
  return {FaultCode::unknown_code, args.where("--accept"), name,
          "a step or material that past jobs teach something of, or enquiries", nearest(name, known)};
}

}  // namespace

double LearnedSpoil::share(double times) const {
  return std::min(decimal(now) * times, decimal(most_spoil));
}

bool LearnedSpoil::worth_telling() const { return factor.n > 0 && (factor.low > 1 || factor.high < 1); }

Read<Learned> learn(db::Workshop& workshop, Args const& args, Date on) {
  db::Reading const reading(workshop);
  auto const filter = past_filter(workshop, args, on);
  if (!filter) return tl::unexpected(filter.error());
  auto const shop = db::load_shop(workshop, on);
  if (!shop) return tl::unexpected(shop.error());
  std::vector<PastJob> const jobs = db::load_past(workshop, *filter).jobs;
  StepLibrary const library = db::load_steps(workshop, on);
  db::StepsSeen const seen = db::load_steps_seen(workshop, jobs, library);
  Learned learned;
  learned.jobs = jobs.size();
  learned.jobs_by_part = seen.jobs_by_part;
  for (StepSeen const& step : seen.steps)
    learned.steps.push_back(learned_step(step, *library.find(step.operation), jobs));
  std::ranges::stable_sort(learned.steps, std::ranges::greater{}, out_by);
  learned.materials = learned_spoil(workshop, jobs, on);
  learned.enquiries =
      learned_enquiries(db::load_enquiries_seen(workshop, filter->since, on), shop->work.enquiries_an_order);
  return learned;
}

Read<std::vector<std::string>> accept(db::Writing& writing, Learned const& learned, Args const& args,
                                      Date from) {
  std::vector<std::string> const names = words_of(args.text("--accept").value_or(""));
  if (names.empty())
    return refuse({FaultCode::bad_command,
                   args.where("--accept"),
                   "",
                   "what is to be taken over, such as sew-sections",
                   {}});
  std::vector<Fault> faults;
  Accepting accepting(writing, learned, from);
  for (std::string const& name : names)
    if (!accepting.take(name)) faults.push_back(not_learned(learned, args, name));
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  if (auto const done = accepting.faults(); !done) return tl::unexpected(done.error());
  return names;
}

}  // namespace endband::cli
