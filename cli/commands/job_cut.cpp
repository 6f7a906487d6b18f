// Plans how the pieces of jobs are cut, several together; with --take the job takes from the shelf what its
// plan takes, and what is worth keeping goes back.
#include "cli/commands/commands.h"
#include "cli/commands/cut_shown.h"
#include "cli/commands/cut_words.h"
#include "cli/commands/job_seen.h"
#include "cli/commands/stock_parts.h"
#include "cli/words/book_words.h"
#include "cli/words/values.h"
#include "db/materials.h"
#include "db/settings.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

struct LotTaken {
  std::string code, mark;
  SoldBy sold_by = SoldBy::piece;
  Amount used, cut_away;
};

struct JobsCut {
  std::vector<db::JobHeader> jobs;
  CutShown shown;
  bool take = false;
  std::vector<LotTaken> taken;
  std::vector<db::LotRow> kept;
  std::vector<std::string> missing;  // why nothing can be taken
  std::optional<ActualCost> cost;    // after it
};

Json to_json(JobsCut const& view) {
  Json::Object all{{"jobs", json_array(view.jobs, job_json)}};
  for (auto& member : cuts_json(view.shown)) all.push_back(std::move(member));
  auto const taken = [](LotTaken const& each) {
    return Json(Json::Object{{"code", each.code},
                             {"from", each.mark},
                             {"used", amount_json(each.used)},
                             {"cut_away", amount_json(each.cut_away)}});
  };
  all.emplace_back("take", view.take);
  all.emplace_back("taken", json_array(view.taken, taken));
  all.emplace_back("kept", json_array(view.kept, lot_json));
  all.emplace_back("missing", json_words(view.missing));
  all.emplace_back("cost", view.cost ? cost_now_json(*view.cost) : Json());
  return all;
}

std::string title_of(JobsCut const& view) {
  if (view.jobs.size() == 1) return job_title(view.jobs.front());
  std::vector<std::string> numbers;
  for (db::JobHeader const& job : view.jobs) numbers.push_back(job.number);
  return fmt::format("Jobs {}, cut together", listed(numbers));
}

void add_taken(Document& document, JobsCut const& view) {
  if (!view.take) return;
  document.heading(view.shown.dry_run ? "Would be taken" : "Taken", 2);
  for (std::string const& words : view.missing) document.notice(NoticeKind::warning, words);
  if (!view.missing.empty()) {
    document.notice(NoticeKind::warning,
                    "Without --dry-run this is refused whole: nothing is taken while any of it is missing.");
    return;
  }
  Table table{{{"Material"}, {"From"}, {"Used", Align::right}, {"Cut away", Align::right}}, {}};
  for (LotTaken const& each : view.taken)
    table.add({each.code, each.mark, each.used.n == 0 ? "" : sold_words(each.used, each.sold_by),
               each.cut_away.n == 0 ? "" : sold_words(each.cut_away, each.sold_by)});
  document.add(std::move(table));
  for (db::LotRow const& lot : view.kept)
    document.paragraph(fmt::format("{} of {} is kept as {}, worth {}.", left_words(lot), lot.code,
                                   lot_text(lot), money_words(lot.value)));
  if (view.cost)
    document.paragraph(fmt::format("Cost so far {}.{}", money_words(view.cost->total),
                                   view.shown.dry_run ? " Nothing is saved." : ""));
}

Document to_document(JobsCut const& view) {
  Document document;
  document.heading(title_of(view));
  add_cuts(document, view.shown);
  add_taken(document, view);
  add_cut_drawings(document, view.shown);
  if (view.jobs.size() == 1 && !view.take)
    document.next(fmt::format("endband job cut {} --take", view.jobs.front().number));
  return document;
}

// --- what is to be cut

// All that jobs cut of one material, and whose it is.
struct Wanted {
  MaterialId material;
  std::vector<Need> uses;
  std::vector<int> orders;
};

class Gatherer {
 public:
  Gatherer(db::Workshop& workshop, Args const& args, Context const& context)
      : workshop_(workshop), args_(args), context_(context) {}

  Read<JobsCut> gathered() {
    auto shop = db::load_shop(workshop_, context_.on);
    if (!shop) return tl::unexpected(std::move(shop.error()));
    if (auto const found = find_jobs(); !found) return tl::unexpected(found.error());
    view_.take = args_.has("--take");
    view_.shown.work = cut_work(args_);
    view_.shown.currency = workshop_.currency();
    view_.shown.folder = args_.text("--svg");
    view_.shown.dry_run = context_.dry_run;
    for (std::size_t i = 0; i < view_.jobs.size(); ++i) add_job(i);
    CutBasis basis;
    basis.rules = shop->cutting;
    basis.rules.work = view_.shown.work;
    basis.buying = shop->buying;
    basis.shelf =
        db::cuttable(workshop_, context_.on, view_.jobs.size() == 1 ? view_.jobs.front().number : "");
    for (Wanted const& wanted : wanted_)
      std::ranges::move(cut_of(wanted.uses, wanted.orders, material_of_today(wanted.material), basis),
                        std::back_inserter(view_.shown.materials));
    if (view_.shown.materials.empty() && view_.shown.left_out.empty())
      return refuse({FaultCode::rule_refused,
                     args_.where("NUMBER"),
                     args_.word(0),
                     "nothing in it is cut from sheets or skins",
                     {}});
    return std::move(view_);
  }

 private:
  Read<void> find_jobs() {
    std::vector<Fault> faults;
    for (std::size_t i = 0; i < args_.word_count(); ++i) {
      auto job = located(db::find_job(workshop_, args_.word(i)), args_.where("NUMBER"));
      if (!job) {
        faults.insert(faults.end(), job.error().begin(), job.error().end());
        continue;
      }
      if (job->ended)
        faults.push_back({FaultCode::rule_refused,
                          args_.where("NUMBER"),
                          job->number,
                          "it ended on " + date_text(*job->ended),
                          {}});
      if (std::ranges::any_of(view_.jobs, [&](db::JobHeader const& each) { return each.id == job->id; }))
        faults.push_back({FaultCode::contradiction, args_.where("NUMBER"), job->number, "each job once", {}});
      view_.jobs.push_back(std::move(*job));
    }
    if (!faults.empty()) return tl::unexpected(std::move(faults));
    if (view_.jobs.size() > 1)
      for (db::JobHeader const& job : view_.jobs) view_.shown.orders.push_back(job.number);
    return {};
  }

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
    if (materials_.empty()) materials_ = db::list_materials(workshop_, context_.on, std::nullopt);
    if (Material const* const known = material_of(materials_, id)) return *known;
    for (db::JobHeader const& job : view_.jobs) {
      FrozenQuote const agreed = db::load_quote(workshop_, job.quote.id);
      if (Material const* const quoted = material_of(agreed.materials, id)) return *quoted;
    }
    throw std::logic_error("a piece of no material");
  }

  db::Workshop& workshop_;
  Args const& args_;
  Context const& context_;
  JobsCut view_;
  std::vector<Wanted> wanted_;
  std::vector<Material> materials_;
  int groups_ = 0;
};

// --- taking it

std::vector<std::string> missing_of(CutShown const& shown) {
  std::vector<std::string> missing;
  for (CutMaterial const& cut : shown.materials) {
    if (!cut.planned()) missing.push_back(fmt::format("{} cannot be cut", cut.material.code));
    for (CutUse const& use : cut.uses)
      if (bought(cut, use))
        missing.push_back(use.times == 1 ? fmt::format("{}: {}", cut.material.code, cut_from_words(cut, use))
                                         : fmt::format("{}: {} x {}", cut.material.code, use.times,
                                                       cut_from_words(cut, use)));
  }
  return missing;
}

class Taker {
 public:
  Taker(db::Writing& writing, JobsCut& view, Date on) : writing_(writing), view_(view), on_(on) {}

  Read<void> take_all() {
    for (CutMaterial const& cut : view_.shown.materials)
      for (CutUse const& use : cut.uses)
        if (auto const done = take(cut, use); !done) return done;
    return {};
  }

 private:
  std::int64_t job() const { return view_.jobs.front().id; }

  // Whole sheets, the whole of a skin or an offcut, what is torn off a roll; of it what the pieces take is
  // used.
  Read<void> take(CutMaterial const& cut, CutUse const& use) {
    CutStock const& stock = cut.stock.at(static_cast<std::size_t>(use.stock));
    std::int64_t whole = stock.quantity;
    if (use.goods == CutGoods::roll) whole = checked_mul(use.height, use.times);
    if (use.goods == CutGoods::sheet && !stock.offcut) whole = checked_mul(1000, use.times);
    std::int64_t const used = use.goods == CutGoods::skin
                                  ? std::min(use.taken, whole)
                                  : mul_div(use.taken, whole, use.whole, Rounding::up);
    Dimension const dimension = dimension_of(cut.material.sold_by);
    LotTaken taken{
        cut.material.code, stock.mark, cut.material.sold_by, {dimension, used}, {dimension, whole - used}};
    for (auto const& [amount, kind] :
         {std::pair{taken.used, MovementKind::used}, std::pair{taken.cut_away, MovementKind::cut_away}}) {
      if (amount.n == 0) continue;
      auto const postings =
          db::take_for_job(writing_, job(), taken.code, taken.mark, amount, kind, on_, "cut by plan");
      if (!postings) return tl::unexpected(postings.error());
    }
    view_.taken.push_back(std::move(taken));
    return keep(cut, use, stock);
  }

  Read<void> keep(CutMaterial const& cut, CutUse const& use, CutStock const& stock) {
    for (std::int64_t i = 0; i < use.times; ++i)
      for (CutLeft const& left : use.left) {
        auto lot = db::keep_offcut(writing_, job(), cut.material.code, stock.mark, Length{left.height},
                                   Length{left.width}, on_, "");
        if (!lot) return tl::unexpected(lot.error());
        view_.kept.push_back(std::move(*lot));
      }
    return {};
  }

  db::Writing& writing_;
  JobsCut& view_;
  Date on_;
};

// The same question on the same shelf has the same plan.
bool same_question(CutShown const& then, CutShown const& now) {
  auto const same = [&](CutMaterial const& a, CutMaterial const& b) {
    auto const lot = [](CutFrom const& from) { return from.lot; };
    return a.material.id == b.material.id &&
           std::ranges::equal(a.request.stock, b.request.stock, {}, lot, lot) &&
           plan_key(a.request, then.work) == plan_key(b.request, now.work);
  };
  return std::ranges::equal(then.materials, now.materials, same);
}

Read<JobsCut> taken(Context& context, db::Workshop& workshop, Args const& args, JobsCut view) {
  view.missing = missing_of(view.shown);
  if (!view.missing.empty() && context.dry_run) return view;
  std::vector<Fault> faults;
  for (std::string const& words : view.missing)
    faults.push_back(
        {FaultCode::rule_refused, args.where("--take"), words, "it has to lie on the shelf first", {}});
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return in_one_writing(context, workshop, [&](db::Writing& writing) -> Read<JobsCut> {
    auto const now = Gatherer(workshop, args, context).gathered();
    if (!now) return tl::unexpected(now.error());
    if (!same_question(view.shown, now->shown))
      return refuse({FaultCode::changed_meanwhile, args.where("--take"), "the shelf or the job", "", {}});
    if (auto const done = Taker(writing, view, context.on).take_all(); !done)
      return tl::unexpected(done.error());
    db::JobHeader const& job = view.jobs.front();
    view.cost = actual_cost(db::load_quote(workshop, job.quote.id), db::load_record(workshop, job));
    return std::move(view);
  });
}

Read<JobsCut> planned(Context& context, db::Workshop& workshop, Args const& args) {
  db::Reading const reading(workshop);
  return Gatherer(workshop, args, context).gathered();
}

Read<Answer> run(Context& context, Args const& args) {
  if (args.has("--take") && args.word_count() > 1)
    return refuse({FaultCode::contradiction,
                   args.where("--take"),
                   "--take with several jobs",
                   "one job: what is cut together is taken job by job",
                   {}});
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto view = planned(context, **workshop, args);
  if (!view) return tl::unexpected(std::move(view.error()));
  plan_all(view->shown.materials, view->shown.work);
  std::string const of = view->jobs.size() == 1 ? view->jobs.front().quote.title : title_of(*view);
  view->shown.drawings = cut_drawings(view->shown, of);
  if (auto const may = may_write_cut_drawings(context, args, view->shown); !may)
    return tl::unexpected(may.error());
  if (view->take) view = taken(context, **workshop, args, *std::move(view));
  if (!view) return tl::unexpected(std::move(view.error()));
  if (auto const done = write_cut_drawings(context, view->shown); !done) return tl::unexpected(done.error());
  int const exit = view->shown.all_planned() && view->missing.empty() ? 0 : 1;
  return Answer(*std::move(view)).ending_with(exit);
}

}  // namespace

Command job_cut() {
  return {
      .noun = "job",
      .verb = "cut",
      .summary = "Plan how the pieces of jobs are cut, several together, and take what the plan takes",
      .about =
          "From the shelf first, as book cut does. What a job took already is not cut again, and lengths are "
          "not in it: "
          "a quote keeps pieces, not lengths. Of several jobs, what was bought for one of them alone is left "
          "where it "
          "lies. --take records what the plan takes from the shelf: whole sheets, the whole of a skin; and "
          "puts back "
          "what is left over in a piece worth keeping.",
      .words = {{"NUMBER", FlagType::code, "the job's number: 26-014, or 14 while one year only has it", true,
                 true}},
      .flags = {{"--work", FlagType::work, "how long to look for a better plan; else 300000"},
                {"--svg", FlagType::folder, "the folder to write the drawings to; made when it is not there"},
                {"--take", FlagType::on, "the job takes it from the shelf; of one job only"}},
      .examples = {"job cut 26-001", "job cut 26-001 --take --dry-run"},
      .refused_when =
          "a job has ended, something cannot be cut or, with --take, lies not on the shelf, or a drawing is "
          "there "
          "and --yes is not said",
      .writes = true,
      .writes_with = "--take",
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
