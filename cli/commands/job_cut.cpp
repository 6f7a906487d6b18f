// Plans how the pieces of jobs are cut, several together; with --take the job takes from the shelf what its
// plan takes, and what is worth keeping goes back.
#include "cli/commands/commands.h"
#include "cli/commands/cut_jobs.h"
#include "cli/commands/cut_words.h"
#include "cli/commands/stock_parts.h"
#include "cli/words/values.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

std::string title_of(JobsCut const& view) {
  if (view.jobs.size() == 1) return job_title(view.jobs.front());
  std::vector<std::string> numbers;
  for (db::JobHeader const& job : view.jobs) numbers.push_back(job.number);
  return fmt::format("Jobs {}, cut together", listed(numbers));
}

// Equal offcuts of a material as one row.
void add_kept(Document& document, JobsCut const& view) {
  struct Alike {
    std::string code, size, first, last;
    int count = 0;
    Money worth;
  };
  std::vector<Alike> rows;
  for (db::LotRow const& lot : view.kept) {
    std::string const size = left_words(lot);
    auto row = std::ranges::find_if(
        rows, [&](Alike const& each) { return each.code == lot.code && each.size == size; });
    if (row == rows.end())
      row = rows.insert(rows.end(), Alike{lot.code, size, lot_text(lot), "", 0, {0, lot.value.currency}});
    ++row->count;
    row->last = lot_text(lot);
    row->worth += lot.value;
  }
  std::string const currency(view.shown.currency.code());
  Table table{{{"Kept"}, {"Size"}, {"Count", Align::right}, {"Worth " + currency, Align::decimal}, {"As"}},
              {}};
  for (Alike const& row : rows)
    table.add({row.code, row.size, std::to_string(row.count), money_text(row.worth),
               row.count == 1 ? row.first : fmt::format("{} to {}", row.first, row.last)});
  if (!table.rows.empty()) document.add(std::move(table));
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
  add_kept(document, view);
  if (view.cost)
    document.paragraph(fmt::format("Cost so far {}.{}", money_words(view.cost->total),
                                   view.shown.dry_run ? " Nothing is saved." : ""));
}

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

  // A measured skin keeps its outline, with what was cut out of it as flaws; of a guess only the rectangle is
  // known to be there.
  Read<void> keep(CutMaterial const& cut, CutUse const& use, CutStock const& stock) {
    if (use.goods == CutGoods::skin && !stock.guess && !stock.offcut && !use.left.empty())
      return keep_skin(cut, use, stock);
    for (std::int64_t i = 0; i < use.times; ++i)
      for (CutLeft const& left : use.left) {
        auto lot = db::keep_offcut(writing_, job(), cut.material.code, stock.mark, Length{left.height},
                                   Length{left.width}, on_, "");
        if (!lot) return tl::unexpected(lot.error());
        view_.kept.push_back(std::move(*lot));
      }
    return {};
  }

  Read<void> keep_skin(CutMaterial const& cut, CutUse const& use, CutStock const& stock) {
    auto const& skins = std::get<cutting::SkinRequest>(cut.request.asked).skins;
    cutting::Skin const& skin = skins.at(static_cast<std::size_t>(use.stock));
    cutting::Box const box = cutting::box_of(skin.outline);
    endband::Shape rest{skin.outline, skin.flaws, skin.zones};
    for (CutLaid const& laid : use.laid) {
      cutting::Polygon hole = laid.shape;  // y runs up again
      for (cutting::Point& corner : hole) corner = {corner.x + box.left, box.top - corner.y};
      rest.flaws.push_back(std::move(hole));
    }
    std::int64_t const left =
        std::min(use.whole - use.taken, stock.quantity - std::min(use.taken, stock.quantity));
    auto lot = db::keep_rest_of_skin(writing_, job(), stock.mark, rest, Area{left}, on_, "");
    if (!lot) return tl::unexpected(lot.error());
    view_.kept.push_back(std::move(*lot));
    return {};
  }

  db::Writing& writing_;
  JobsCut& view_;
  Date on_;
};

// All that the plans follow from: the same question on the same shelf has the same plan.
std::vector<PlanKey> question_of(CutShown const& shown) {
  std::vector<PlanKey> question;
  for (CutMaterial const& cut : shown.materials) {
    PlanKey key = plan_key(cut.request, shown.work);
    key.push_back(cut.material.id.value);
    for (CutFrom const& from : cut.request.stock) key.push_back(from.lot);
    question.push_back(std::move(key));
  }
  return question;
}

Read<JobsCut> taken(Context& context, db::Workshop& workshop, Args const& args, JobsCut view,
                    std::vector<PlanKey> const& question) {
  view.missing = missing_of(view.shown);
  if (!view.missing.empty() && context.dry_run) return view;
  std::vector<Fault> faults;
  for (std::string const& words : view.missing)
    faults.push_back(
        {FaultCode::rule_refused, args.where("--take"), words, "it has to lie on the shelf first", {}});
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return in_one_writing(context, workshop, [&](db::Writing& writing) -> Read<JobsCut> {
    auto const now = jobs_to_cut(context, workshop, args);
    if (!now) return tl::unexpected(now.error());
    if (question_of(now->shown) != question)
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
  return jobs_to_cut(context, workshop, args);
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
  auto const question = question_of(view->shown);
  plan_all(view->shown.materials, view->shown.work);
  std::string const of = view->jobs.size() == 1 ? view->jobs.front().quote.title : title_of(*view);
  view->shown.drawings = cut_drawings(view->shown, of);
  if (auto const may = may_write_cut_drawings(context, args, view->shown); !may)
    return tl::unexpected(may.error());
  if (view->take) view = taken(context, **workshop, args, *std::move(view), question);
  if (!view) return tl::unexpected(std::move(view.error()));
  if (auto const done = write_cut_drawings(context, view->shown); !done) return tl::unexpected(done.error());
  int const exit = view->shown.all_planned() ? 0 : 1;
  return Answer(*std::move(view)).ending_with(exit);
}

}  // namespace

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

Command job_cut() {
  return {
      .noun = "job",
      .verb = "cut",
      .summary = "Plan how the pieces of jobs are cut, and take what the plan takes",
      .about =
          "From the shelf first, as book cut does. What a job took already is not cut again, and lengths are "
          "not in it: "
          "a quote keeps pieces, not lengths. Of several jobs, what was bought for one of them alone is left "
          "where it "
          "lies. --take records what the plan takes from the shelf: whole sheets, the whole of a skin; and "
          "puts back what is "
          "left over in a piece worth keeping. It plans from the shelf alone, also where new goods would "
          "cost less.",
      .words = {{"NUMBER", FlagType::job, "the job's number: 26-014, or 14 while one year only has it", true,
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
      .writes_with = {"--take"},
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
