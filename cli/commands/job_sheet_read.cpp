// What the job sheet is made from: the job, the book that was agreed on, the shelf and the bench.
#include "cli/commands/cut_jobs.h"
#include "cli/commands/described.h"
#include "cli/commands/job_sheet_parts.h"
#include "db/bench.h"
#include "db/steps.h"
#include "engine/book/copies.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

// A quote becomes a job when it is accepted; until then there is nothing to work by.
Read<db::JobHeader> accepted_job(db::Workshop& workshop, Args const& args, Date on) {
  auto job = job_meant(workshop, args);
  if (!job) {
    auto const quote = db::find_quote(workshop, args.word(0));
    if (!quote) return job;
    std::string const number = db::number_text(quote->number);
    auto const state = db::quote_state(workshop, quote->id, quote->valid_until, on);
    return refuse(
        {FaultCode::rule_refused,
         args.where("NUMBER"),
         number,
         fmt::format("a quote that is not accepted, but {}: endband quote accept {} makes a job of it",
                     db::quote_state_name(state), number),
         {}});
  }
  if (job->ended)
    return refuse({FaultCode::rule_refused,
                   args.where("NUMBER"),
                   job->number,
                   fmt::format("it is {} since {}, and a sheet is for work that is still to do",
                               db::job_state_name(job->state), date_text(*job->ended)),
                   {}});
  return job;
}

bool same(std::vector<Piece> const& a, std::vector<Piece> const& b) {
  return std::ranges::equal(a, b, [](Piece const& one, Piece const& other) {
    return one.item == other.item && one.material == other.material && one.count == other.count &&
           one.height == other.height && one.width == other.width;
  });
}

// The description as it was agreed on, read with the habits of its day. What the quote keeps stands before
// what is computed anew.
Read<void> read_book(db::Workshop& workshop, JobSheet& sheet) {
  FrozenQuote const& agreed = sheet.seen.agreed;
  std::string const source = "quote " + db::number_text(sheet.seen.job.quote.number);
  auto described = describe_text(workshop, {source, agreed.description}, {agreed.on, agreed.on});
  if (!described) return tl::unexpected(std::move(described.error()));
  sheet.book = std::move(described->book);
  sheet.volumes = volumes_of(sheet.book, described->catalogue);
  Structure const whole = times(together(sheet.volumes, sheet.book.set_shares), sheet.book.copies);
  sheet.as_agreed = same(whole.pieces, agreed.pieces);
  for (FrozenFigure const& figure : agreed.figures)
    sheet.volumes.front().figures.set(figure.id, static_cast<double>(figure.value_e6) / 1e6, figure.origin);
  return {};
}

void read_bench(db::Workshop& workshop, JobSheet& sheet, Date on) {
  BenchSeen bench = see_bench(workshop, std::nullopt, on);
  if (!bench.anybody()) return;
  auto const found = std::ranges::find(bench.orders, sheet.seen.job.number, &BenchOrder::name);
  auto const order = static_cast<int>(found - bench.orders.begin());
  if (auto planned = plan_seen(std::move(bench), on)) sheet.planned = SheetBench{std::move(*planned), order};
}

}  // namespace

Paper JobSheet::room() const {
  constexpr Paper on_a4{177, 226};
  constexpr Paper on_letter{183, 208};
  return letter ? on_letter : on_a4;
}

Read<JobSheet> read_sheet(db::Workshop& workshop, Args const& args, Date on) {
  auto job = accepted_job(workshop, args, on);
  if (!job) return tl::unexpected(std::move(job.error()));
  auto seen = see_job(workshop, args, on);
  if (!seen) return tl::unexpected(std::move(seen.error()));
  JobSheet sheet;
  sheet.seen = std::move(*seen);
  sheet.letter = args.has("--letter");
  if (auto const read = read_book(workshop, sheet); !read) return tl::unexpected(read.error());
  auto cuts = job_to_cut(workshop, sheet.seen.job, on);
  if (!cuts) return tl::unexpected(std::move(cuts.error()));
  sheet.cuts = std::move(*cuts);
  sheet.due = due_of(workshop, sheet.seen.job, sheet.seen.agreed, on);
  sheet.steps = db::load_steps(workshop, on);
  sheet.bench = db::load_bench(workshop, on);
  for (MaterialSeen const& row : sheet.seen.materials)
    std::ranges::move(db::lots(workshop, row.material.code, false), std::back_inserter(sheet.lots));
  read_bench(workshop, sheet, on);
  return sheet;
}

void plan_sheet(JobSheet& sheet) {
  plan_all(sheet.cuts.materials, sheet.cuts.work);
  for (CutMaterial const& cut : sheet.cuts.materials)
    for (CutUse const& use : cut.uses)
      if (auto drawing = cut_drawing(sheet.cuts, cut, use, "", paper_beside(sheet, use.steps.size() + 2)))
        sheet.cuts.drawings.push_back(std::move(*drawing));
}

OnPaper paper_beside(JobSheet const& sheet, std::size_t rows) {
  constexpr double letters = 1.4;  // of 2.8 mm in a picture of its own: 11 pt
  constexpr double row = 8.5, least = 110;
  Paper room = sheet.room();
  room.height = std::max(least, room.height - row * static_cast<double>(rows));
  return {.room = room, .turned = false, .letters = letters};
}

}  // namespace endband::cli
