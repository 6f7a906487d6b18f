#include "cli/commands/stock_wanted.h"

#include "cli/commands/stock_parts.h"
#include "db/materials.h"

#include <algorithm>
#include <set>

namespace endband::cli {
namespace {

bool covers(FrozenQuote const& quote, MaterialId material) {
  return std::ranges::any_of(quote.choices, [&](FrozenChoice const& choice) {
    return choice.material == material && (choice.role == Role::leather || choice.role == Role::sides ||
                                           choice.role == Role::corner_covering);
  });
}

SoldBy sold_by(FrozenQuote const& quote, MaterialId id) {
  return std::ranges::find(quote.materials, id, &Material::id)->sold_by;
}

// Skins of one batch, or the one skin, that the rest of this line asks for; 0: any will do.
std::int64_t skins_that_match(FrozenQuote const& quote, BillLine const& line, std::int64_t quoted,
                              std::int64_t rest) {
  bool const matches = quote.set_shares != SetShares::nothing &&
                       sold_by(quote, line.material) == SoldBy::skin && covers(quote, line.material);
  if (!matches || line.units_opened < 1) return 0;
  // Two skins of a batch are a wish; one skin of a batch is just a skin, unless all are to come out of it.
  if (quote.set_shares == SetShares::batch && line.units_opened == 1) return 0;
  return std::max<std::int64_t>(mul_div(line.units_opened, rest, quoted, Rounding::up), 1);
}

std::int64_t quoted_of(BillLine const& line) {
  return line.charging == Charging::whole ? line.opened.n : line.consumed().n;
}

}  // namespace

std::vector<Wanted> wanted_of(FrozenQuote const& quote, JobRecord const& record, std::string const& job,
                              Date needed_on) {
  std::vector<Wanted> wanted;
  for (BillLine const& line : quote.bill.lines) {
    bool const without = std::ranges::find(record.without, line.material) != record.without.end();
    if (line.customer_supplied || without) continue;
    auto const taken = std::ranges::find(record.taken, line.material, &Holding::material);
    std::int64_t const quoted = quoted_of(line);
    std::int64_t const rest = quoted - (taken == record.taken.end() ? 0 : taken->quantity());
    if (rest <= 0) continue;
    wanted.push_back({job, line.material, rest, needed_on, skins_that_match(quote, line, quoted, rest)});
  }
  return wanted;
}

Wants gather_wants(db::Workshop& workshop, std::vector<Wanted> also, Date by, Date on) {
  Wants wants;
  auto const add = [&](std::vector<Wanted> more) {
    std::ranges::move(more, std::back_inserter(wants.wanted));
  };
  std::set<std::string> open;
  for (db::JobHeader const& job : db::list_jobs(workshop, false)) {
    open.insert(job.number);
    add(wanted_of(db::load_quote(workshop, job.quote.id), db::load_record(workshop, job), job.number,
                  job.needed_on.value_or(by)));
  }
  wants.jobs = open.size();
  add(std::move(also));
  std::set<MaterialId> asked;
  for (Wanted const& want : wants.wanted) asked.insert(want.material);
  for (Material& material : db::list_materials(workshop, on, std::nullopt)) {
    Supply const supply = db::find_supply(workshop, material.id, on);
    if (asked.erase(material.id) > 0 || supply.reorder_at)
      wants.materials.push_back({std::move(material), supply});
  }
  for (MaterialId const& later : asked)  // a day before they were known was asked about
    wants.materials.push_back({db::known_material(workshop, later, on), {}});
  for (db::LotRow const& lot : db::lots(workshop, std::nullopt, false)) {
    if (in_custody(lot) || lot.quantity.n == 0) continue;
    // What was bought for a job that has ended, or an offcut of one, serves whoever needs it.
    bool const kept_apart = lot.source != LotSource::kept && open.contains(lot.job);
    wants.shelf.push_back(
        {lot.material, lot.id, lot.quantity.n, lot.batch, lot.keeps_until, kept_apart ? lot.job : ""});
  }
  return wants;
}

}  // namespace endband::cli
