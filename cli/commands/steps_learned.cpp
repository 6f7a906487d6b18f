#include "cli/commands/steps_learned.h"

#include "cli/words/values.h"
#include "db/materials.h"
#include "db/settings.h"
#include "db/steps.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

namespace endband::cli {
namespace {

constexpr std::string_view enquiries_name = "enquiries";

std::vector<LearnedSpoil> learned_materials(db::Workshop& workshop, std::vector<PastJob> const& jobs,
                                            Date on) {
  std::map<std::int64_t, Material> materials;
  for (Material& material : db::list_materials(workshop, on, std::nullopt))
    materials.emplace(material.id.value, std::move(material));
  std::vector<LearnedSpoil> all;
  for (SpoilSeen const& seen : db::load_spoil_seen(workshop, jobs)) {
    auto const found = materials.find(seen.material.value);
    if (found == materials.end()) continue;
    if (auto spoil = learned_spoil(seen, found->second)) all.push_back(std::move(*spoil));
  }
  return all;
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
    db::set_step(writing_, as_learned(*learned_.library.find(step->operation), step->factor), from_);
    return true;
  }

  bool take_material(std::string const& name) {
    auto const spoil = std::ranges::find(learned_.materials, name, &LearnedSpoil::code);
    if (spoil == learned_.materials.end()) return false;
    auto material = db::find_material(writing_.workshop(), name, from_);
    if (!material) return note(material.error());
    if (auto const done = db::change_material(writing_, as_learned(std::move(*material), *spoil), from_);
        !done)
      return note(done.error());
    return true;
  }

  bool take_enquiries(std::string const& name) {
    if (name != enquiries_name || learned_.enquiries.seen.quoted == 0) return false;
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

Read<Learned> learn(db::Workshop& workshop, Args const& args, Date on) {
  db::Reading const reading(workshop);
  auto const filter = past_filter(workshop, args, on);
  if (!filter) return tl::unexpected(filter.error());
  auto const shop = db::load_shop(workshop, on);
  if (!shop) return tl::unexpected(shop.error());
  std::vector<PastJob> const jobs = db::load_past(workshop, *filter).jobs;
  Learned learned;
  learned.library = db::load_steps(workshop, on);
  StepsSeen const seen = db::load_steps_seen(workshop, jobs, learned.library);
  learned.jobs = jobs.size();
  learned.jobs_by_part = seen.jobs_by_part;
  learned.steps = learned_steps(seen.steps, jobs);
  learned.materials = learned_materials(workshop, jobs, on);
  learned.enquiries =
      learned_enquiries(db::load_enquiries_seen(workshop, filter->since, on), shop->work.enquiries_an_order);
  return learned;
}

Read<std::vector<std::string>> accept(db::Writing& writing, Learned const& learned, Args const& args,
                                      Date from) {
  std::vector<std::string> const names = args.codes("--accept").value_or(std::vector<std::string>{});
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
