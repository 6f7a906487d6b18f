#include "cli/commands/job_seen.h"

#include "cli/words/book_words.h"
#include "cli/words/values.h"
#include "db/job_shelf.h"
#include "db/materials.h"
#include "db/past.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

BillLine const* line_of(FrozenQuote const& quote, MaterialId material) {
  auto const found = std::ranges::find(quote.bill.lines, material, &BillLine::material);
  return found == quote.bill.lines.end() ? nullptr : &*found;
}

// The material as the quote has it; of one that was not quoted, as it is now.
Read<Material> material_of_job(db::Workshop& workshop, JobSeen const& seen, MaterialId id) {
  if (Material const* const known = material_of(seen.agreed.materials, id)) return *known;
  for (Material const& material : db::list_materials(workshop, seen.on, std::nullopt))
    if (material.id == id) return material;
  return refuse({FaultCode::unknown_material, {}, fmt::format("material {}", id.value), "", {}});
}

void set_to_take(db::Workshop& workshop, JobSeen const& seen, MaterialSeen& row) {
  Dimension const dimension = row.beside.taken.dimension;
  row.to_take = row.set_aside = row.short_of = {dimension, 0};
  BillLine const* const line = line_of(seen.agreed, row.beside.material);
  if (line == nullptr || row.customers || row.without || seen.ended()) return;
  // A skin is taken whole where it is charged whole, whatever its size: what is needed is what is cut from
  // it.
  Amount const wanted = row.material.sold_by == SoldBy::skin ? line->consumed() : needed(*line);
  row.to_take.n = std::max<std::int64_t>(0, wanted.n - row.beside.taken.n);
  std::int64_t const units = std::max<std::int64_t>(1, line->units_opened);
  db::ForJob const shelf = db::shelf_for_job(workshop, seen.job.id, row.beside.material,
                                             mul_div(row.to_take.n, 1, units, Rounding::up), seen.on);
  row.set_aside.n = shelf.set_aside;
  row.short_of.n = std::max<std::int64_t>(0, row.to_take.n - shelf.most);
}

Read<void> see_materials(db::Workshop& workshop, JobSeen& seen) {
  for (MaterialBeside const& beside : materials_beside(seen.agreed, seen.record)) {
    auto material = material_of_job(workshop, seen, beside.material);
    if (!material) return tl::unexpected(material.error());
    MaterialSeen row{.material = std::move(*material), .beside = beside};
    BillLine const* const line = line_of(seen.agreed, beside.material);
    row.customers = line != nullptr && line->customer_supplied;
    row.without = std::ranges::find(seen.record.without, beside.material) != seen.record.without.end();
    set_to_take(workshop, seen, row);
    seen.materials.push_back(std::move(row));
  }
  return {};
}

Money sale_now(db::Workshop& workshop, JobSeen const& seen) {
  return sale_cost(sale_quoted(seen.agreed, seen.job.kept), db::load_sale(workshop, seen.job));
}

}  // namespace

Read<db::JobHeader> job_meant(db::Workshop& workshop, Args const& args) {
  return located(db::find_job(workshop, args.word(0)), args.where("NUMBER"));
}

Read<JobSeen> see_job(db::Workshop& workshop, Args const& args, Date on) {
  auto job = job_meant(workshop, args);
  if (!job) return tl::unexpected(std::move(job.error()));
  JobSeen seen;
  seen.on = on;
  seen.agreed = db::load_quote(workshop, job->quote.id);
  seen.record = db::load_record(workshop, *job);
  seen.job = std::move(*job);
  seen.cost = actual_cost(seen.agreed, seen.record);
  seen.sale = sale_now(workshop, seen);
  seen.work = work_beside(seen.agreed, seen.record);
  if (!seen.ended()) seen.open = still_open(seen.agreed, seen.record);
  if (auto const done = see_materials(workshop, seen); !done) return tl::unexpected(done.error());
  return seen;
}

std::string job_title(db::JobHeader const& job) {
  std::string const customer =
      job.quote.customer_name.empty() ? "for the shelf" : "for " + job.quote.customer_name;
  return fmt::format("Job {}, {}, {}", job.number, job.quote.title.empty() ? "a book" : job.quote.title,
                     customer);
}

std::string work_words(WorkBeside const& work) {
  if (work.operation) return std::string(operation_row(*work.operation).what);
  return std::string(part_name(*work.part)) + ", all of it";
}

std::string open_words(StillOpen const& open) {
  switch (open.what) {
    case OpenPoint::gate: return open.name + ": waits for the customer's word";
    case OpenPoint::material: return open.name + ": neither taken nor said to be without";
    case OpenPoint::no_time: return "no hours were told";
    case OpenPoint::outside: return open.name + ": no bill came yet";
    case OpenPoint::custody: return "the customer's own goods are still here";
  }
  return {};
}

std::string due_words(Money due) {
  if (due.minor > 0) return money_words(due) + " still due";
  return due.minor == 0 ? "paid in full" : money_words(-due) + " paid too much";
}

Money hourly(Money left, Money labour, Ratio seconds) {
  if (seconds <= Ratio(0)) return {0, left.currency};
  return scale(left + labour, Ratio(3600) / seconds, Rounding::half_away);
}

}  // namespace endband::cli
