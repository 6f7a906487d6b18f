#include "cli/commands/cut_jobs.h"

#include "cli/words/book_words.h"
#include "db/materials.h"
#include "db/settings.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace endband::cli {
namespace {

// All that jobs cut of one material, and whose it is.
struct Wanted {
  MaterialId material;
  std::vector<Need> uses;
  std::vector<int> orders;
};

class Gatherer {
 public:
  Gatherer(db::Workshop& workshop, Date on, JobsCut view)
      : workshop_(workshop), on_(on), view_(std::move(view)) {}

  Read<JobsCut> gathered() {
    auto shop = db::load_shop(workshop_, on_);
    if (!shop) return tl::unexpected(std::move(shop.error()));
    view_.shown.currency = workshop_.currency();
    for (std::size_t i = 0; i < view_.jobs.size(); ++i) add_job(i);
    CutBasis basis;
    basis.shelf_alone = view_.take;
    basis.rules = shop->cutting;
    basis.rules.work = view_.shown.work;
    basis.buying = shop->buying;
    basis.shelf = db::cuttable(workshop_, on_, view_.jobs.size() == 1 ? view_.jobs.front().number : "");
    for (Wanted const& wanted : wanted_)
      std::ranges::move(cut_of(wanted.uses, wanted.orders, material_of_today(wanted.material), basis),
                        std::back_inserter(view_.shown.materials));
    return std::move(view_);
  }

 private:
  void add_job(std::size_t index) {
    db::JobHeader const& job = view_.jobs[index];
    FrozenQuote const agreed = db::load_quote(workshop_, job.quote.id);
    JobRecord const record = db::load_record(workshop_, job);
    int const groups_before = groups_;
    for (Piece piece : agreed.pieces) {
      std::string const why = why_not(agreed, record, piece.material);
      if (!why.empty()) {
        leave_out(agreed, piece.material, job, why);
        continue;
      }
      // The groups of each job are its own.
      if (piece.skin_group > 0) piece.skin_group += groups_before;
      groups_ = std::max(groups_, piece.skin_group);
      want(piece, static_cast<int>(index));
    }
  }

  static std::string why_not(FrozenQuote const& agreed, JobRecord const& record, MaterialId material) {
    auto const line = std::ranges::find(agreed.bill.lines, material, &BillLine::material);
    if (line != agreed.bill.lines.end() && line->customer_supplied) return "the customer brings it";
    if (std::ranges::find(record.without, material) != record.without.end()) return "the job does without it";
    auto const held = std::ranges::find(record.taken, material, &Holding::material);
    if (held != record.taken.end() && held->quantity() > 0)
      return "the job took of it already, and what was taken is not cut again";
    return "";
  }

  void leave_out(FrozenQuote const& agreed, MaterialId id, db::JobHeader const& job, std::string why) {
    Material const* const material = material_of(agreed.materials, id);
    if (material == nullptr) return;
    if (view_.jobs.size() > 1) why = fmt::format("job {}: {}", job.number, why);
    auto& all = view_.shown.left_out;
    bool const told = std::ranges::any_of(
        all, [&](CutLeftOut const& each) { return each.code == material->code && each.why == why; });
    if (!told) all.push_back({material->code, material->name, std::move(why)});
  }

  void want(Piece const& piece, int order) {
    auto wanted = std::ranges::find(wanted_, piece.material, &Wanted::material);
    if (wanted == wanted_.end()) wanted = wanted_.insert(wanted_.end(), Wanted{piece.material, {}, {}});
    Need need;
    need.item = piece.item;
    need.part = piece.part;
    need.material = piece.material;
    need.pieces.push_back(piece);
    wanted->uses.push_back(std::move(need));
    wanted->orders.push_back(order);
  }

  // With the price of the day; as it was quoted, where it is not known any more.
  Material material_of_today(MaterialId id) {
    if (materials_.empty()) materials_ = db::list_materials(workshop_, on_, std::nullopt);
    if (Material const* const known = material_of(materials_, id)) return *known;
    for (db::JobHeader const& job : view_.jobs) {
      FrozenQuote const agreed = db::load_quote(workshop_, job.quote.id);
      if (Material const* const quoted = material_of(agreed.materials, id)) return *quoted;
    }
    throw std::logic_error("a piece of no material");
  }

  db::Workshop& workshop_;
  Date on_;
  JobsCut view_;
  std::vector<Wanted> wanted_;
  std::vector<Material> materials_;
  int groups_ = 0;
};

Read<std::vector<db::JobHeader>> open_jobs(db::Workshop& workshop, Args const& args) {
  std::vector<db::JobHeader> jobs;
  std::vector<Fault> faults;
  for (std::size_t i = 0; i < args.word_count(); ++i) {
    auto job = located(db::find_job(workshop, args.word(i)), args.where("NUMBER"));
    if (!job) {
      faults.insert(faults.end(), job.error().begin(), job.error().end());
      continue;
    }
    if (job->ended)
      faults.push_back({FaultCode::rule_refused,
                        args.where("NUMBER"),
                        job->number,
                        "it ended on " + date_text(*job->ended),
                        {}});
    if (std::ranges::any_of(jobs, [&](db::JobHeader const& each) { return each.id == job->id; }))
      faults.push_back({FaultCode::contradiction, args.where("NUMBER"), job->number, "each job once", {}});
    jobs.push_back(std::move(*job));
  }
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return jobs;
}

}  // namespace

Read<JobsCut> jobs_to_cut(Context const& context, db::Workshop& workshop, Args const& args) {
  auto jobs = open_jobs(workshop, args);
  if (!jobs) return tl::unexpected(std::move(jobs.error()));
  JobsCut view;
  view.jobs = std::move(*jobs);
  if (view.jobs.size() > 1)
    for (db::JobHeader const& job : view.jobs) view.shown.orders.push_back(job.number);
  view.take = args.has("--take");
  view.shown.work = cut_work(args);
  view.shown.folder = args.text("--svg");
  view.shown.dry_run = context.dry_run;
  auto gathered = Gatherer(workshop, context.on, std::move(view)).gathered();
  if (gathered && gathered->shown.materials.empty() && gathered->shown.left_out.empty())
    return refuse({FaultCode::rule_refused,
                   args.where("NUMBER"),
                   args.word(0),
                   "nothing in it is cut from sheets or skins",
                   {}});
  return gathered;
}

Read<CutShown> job_to_cut(db::Workshop& workshop, db::JobHeader const& job, Date on) {
  JobsCut view;
  view.jobs = {job};
  view.shown.work = CutRules{}.work;
  auto gathered = Gatherer(workshop, on, std::move(view)).gathered();
  if (!gathered) return tl::unexpected(std::move(gathered.error()));
  return std::move(gathered->shown);
}

}  // namespace endband::cli
