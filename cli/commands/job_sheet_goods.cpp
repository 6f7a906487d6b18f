// What is to be fetched for a job, and where it lies.
#include "cli/commands/job_sheet_parts.h"
#include "cli/commands/stock_parts.h"
#include "cli/words/values.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

// Nobody fetches a third of a sheet.
Amount in_whole(Amount amount) {
  constexpr std::int64_t one = 1000;
  if (amount.dimension != Dimension::count) return amount;
  return {amount.dimension, (amount.n + one - 1) / one * one};
}

std::string said(Amount amount, SoldBy sold_by) {
  return amount.dimension == Dimension::count ? sold_words(in_whole(amount), sold_by) : amount_text(amount);
}

// The mark of a lot and where it lies: "L12, plan chest".
std::string lot_words(db::LotRow const& lot) {
  std::string words = lot_text(lot);
  if (!lot.place.empty()) words += ", " + lot.place;
  if (!lot.batch.empty()) words += ", batch " + lot.batch;
  return words;
}

// The plan's own lots, by their marks; of a material that is not cut by plan none.
std::vector<std::string> marks_cut(JobSheet const& sheet, MaterialId material) {
  std::vector<std::string> marks;
  for (CutMaterial const& cut : sheet.cuts.materials)
    if (cut.material.id == material)
      for (CutUse const& use : cut.uses)
        if (std::string const& mark = cut.stock.at(static_cast<std::size_t>(use.stock)).mark; !mark.empty())
          marks.push_back(mark);
  return marks;
}

bool may_serve(db::LotRow const& lot, JobSheet const& sheet, bool customers) {
  if (lot.quantity.n <= 0 || past_its_day(lot, sheet.seen.on)) return false;
  if (in_custody(lot) || customers)
    return customers && in_custody(lot) && lot.owner == sheet.seen.job.quote.customer;
  bool const others = !lot.job.empty() && lot.job != sheet.seen.job.number && lot.source != LotSource::kept;
  return !others;
}

// What the cutting plan takes; else the job's own, then the oldest, until there is enough.
std::vector<std::string> lots_of(JobSheet const& sheet, MaterialSeen const& row) {
  std::vector<std::string> words;
  std::vector<std::string> const marks = marks_cut(sheet, row.material.id);
  if (!marks.empty()) {
    for (db::LotRow const& lot : sheet.lots)
      if (std::ranges::find(marks, lot_text(lot)) != marks.end()) words.push_back(lot_words(lot));
    return words;
  }
  std::vector<db::LotRow const*> lots;
  for (db::LotRow const& lot : sheet.lots)
    if (lot.material == row.material.id && may_serve(lot, sheet, row.customers)) lots.push_back(&lot);
  std::ranges::stable_sort(lots, {}, [&](db::LotRow const* lot) {
    return std::tuple(lot->job != sheet.seen.job.number, lot->since, lot->mark.number);
  });
  std::int64_t still = row.to_take.n;
  for (db::LotRow const* lot : lots) {
    if (still <= 0 && !row.customers) break;
    words.push_back(lot_words(*lot));
    still -= lot->quantity.n;
  }
  return words;
}

std::string how_much(MaterialSeen const& row) {
  if (row.without) return "without";
  if (row.customers) return said(row.beside.quoted, row.material.sold_by);
  if (row.to_take.n == 0) return "taken";
  return said(row.to_take, row.material.sold_by);
}

std::string from_words(JobSheet const& sheet, MaterialSeen const& row) {
  std::vector<std::string> words;
  if (!row.without && (row.to_take.n > 0 || row.customers)) words = lots_of(sheet, row);
  if (row.customers) words.emplace_back("the customer brings it");
  if (row.short_of.n > 0)
    words.push_back(row.short_of == row.to_take ? "not on the shelf"
                                                : "short of " + said(row.short_of, row.material.sold_by));
  return fmt::format("{}", fmt::join(words, "\n"));
}

}  // namespace

void add_goods(Document& document, JobSheet const& sheet) {
  document.heading("Materials to fetch");
  bool const any_short =
      std::ranges::any_of(sheet.seen.materials, [](MaterialSeen const& row) { return row.short_of.n > 0; });
  if (any_short)
    document.notice(NoticeKind::warning, "What is short is not on the shelf yet: endband stock to-buy.");
  Table table{{{"Have", Align::left, 0, true}, {"Material"}, {"Quantity", Align::right}, {"Lot and place"}},
              {}};
  for (MaterialSeen const& row : sheet.seen.materials) {
    bool const nothing = row.without || (row.to_take.n == 0 && !row.customers);
    table.add({nothing ? " " : "", row.material.name + "\n" + row.material.code, how_much(row),
               from_words(sheet, row)});
  }
  document.add(std::move(table));
}

}  // namespace endband::cli
