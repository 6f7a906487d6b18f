#include "cli/commands/job_taking.h"
#include "db/job_shelf.h"

#include <algorithm>
#include <array>

namespace endband::cli {
namespace {

struct Rest {
  MovementKind kind;
  std::int64_t quantity;
};
// What of the line is still to take, by kind.
using Rests = std::array<Rest, 3>;

Holding const* holding_of(JobRecord const& record, MaterialId material) {
  auto const found = std::ranges::find(record.taken, material, &Holding::material);
  return found == record.taken.end() ? nullptr : &*found;
}

// Taken more of one kind than was quoted counts against the others: a job takes no more than was quoted as a
// whole.
Rests rests_of(BillLine const& line, std::int64_t beyond, Holding const* held) {
  std::int64_t const used = held == nullptr ? 0 : held->used;
  std::int64_t const cut = held == nullptr ? 0 : held->cut_away - held->kept;
  std::int64_t const spoiled = held == nullptr ? 0 : held->spoiled;
  auto const left = [](std::int64_t wanted, std::int64_t is) {
    return std::max<std::int64_t>(0, wanted - is);
  };
  Rests rests{Rest{MovementKind::used, left(line.net.n, used)},
              Rest{MovementKind::spoiled, left(line.spoil.n, spoiled)},
              Rest{MovementKind::cut_away, left(line.cutting_loss.n + beyond, cut)}};
  std::int64_t const whole = line.consumed().n + beyond - (held == nullptr ? 0 : held->quantity());
  std::int64_t too_much =
      rests[0].quantity + rests[1].quantity + rests[2].quantity - std::max<std::int64_t>(0, whole);
  for (std::size_t i = rests.size(); i-- > 0 && too_much > 0;) {
    std::int64_t const less = std::min(too_much, rests.at(i).quantity);
    rests.at(i).quantity -= less;
    too_much -= less;
  }
  return rests;
}

std::int64_t sum_of(Rests const& rests) { return rests[0].quantity + rests[1].quantity + rests[2].quantity; }

class Gatherer {
 public:
  Gatherer(db::Workshop& workshop, JobSeen const& seen) : workshop_(workshop), seen_(seen) {}

  TakingAll all() {
    for (BillLine const& line : seen_.agreed.bill.lines) {
      auto const row = std::ranges::find_if(
          seen_.materials, [&](MaterialSeen const& each) { return each.beside.material == line.material; });
      if (row == seen_.materials.end() || row->customers || row->without) continue;
      bool const whole = line.charging != Charging::as_used;
      if (whole && row->material.sold_by == SoldBy::skin)
        take_skins(line, row->material);
      else
        take_amounts(line, row->material);
    }
    return std::move(result_);
  }

 private:
  void add(Material const& material, std::string const& lot, MovementKind kind, std::int64_t quantity,
           Dimension dimension) {
    if (quantity > 0)
      result_.takings.push_back({material.code, lot, material.sold_by, {dimension, quantity}, kind});
  }

  void said_to_be_kept(BillLine const& line, Material const& material) {
    if (line.charging == Charging::whole_less_offcuts && line.kept.n > 0)
      result_.opened.push_back(material.code);
  }

  void take_amounts(BillLine const& line, Material const& material) {
    Dimension const dimension = line.net.dimension;
    std::int64_t const beyond = needed(line).n - line.consumed().n;
    Rests const rests = rests_of(line, beyond, holding_of(seen_.record, line.material));
    std::int64_t const wanted = sum_of(rests);
    if (wanted == 0) return;
    std::int64_t const units = std::max<std::int64_t>(1, line.units_opened);
    db::ForJob const shelf = db::shelf_for_job(workshop_, seen_.job.id, line.material,
                                               mul_div(wanted, 1, units, Rounding::up), seen_.on);
    if (shelf.most < wanted) {
      result_.lacks.push_back(
          {material.code, material.sold_by, {dimension, wanted}, {dimension, shelf.most}});
      return;
    }
    for (Rest const& rest : rests) add(material, "", rest.kind, rest.quantity, dimension);
    if (beyond > 0) said_to_be_kept(line, material);
  }

  // Whole items: what is not needed of the last is cut away until it is said to be kept. One that was begun
  // already counts as so much of the quoted ones.
  void take_skins(BillLine const& line, Material const& material) {
    Dimension const dimension = line.net.dimension;
    Rests rests = rests_of(line, 0, holding_of(seen_.record, line.material));
    std::int64_t const wanted = sum_of(rests);
    if (wanted == 0) return;
    std::int64_t const units =
        mul_div(std::max<std::int64_t>(1, line.units_opened), wanted, line.consumed().n, Rounding::up);
    db::ForJob const shelf = db::shelf_for_job(workshop_, seen_.job.id, line.material,
                                               mul_div(wanted, 1, units, Rounding::up), seen_.on);
    std::vector<db::ItemForJob> items;
    std::int64_t has = 0;
    for (db::ItemForJob const& item : shelf.items) {
      if (static_cast<std::int64_t>(items.size()) >= units && has >= wanted) break;
      items.push_back(item);
      has += item.quantity;
    }
    if (has < wanted || static_cast<std::int64_t>(items.size()) < units) {
      result_.lacks.push_back({material.code, material.sold_by, {dimension, wanted}, {dimension, has}});
      return;
    }
    for (db::ItemForJob const& item : items) take_item(rests, item, material, dimension);
    said_to_be_kept(line, material);
  }

  void take_item(Rests& rests, db::ItemForJob const& item, Material const& material, Dimension dimension) {
    std::int64_t left = item.quantity;
    std::int64_t cut = 0;
    for (Rest& rest : rests) {
      std::int64_t const part = std::min(left, rest.quantity);
      left -= part;
      rest.quantity -= part;
      if (rest.kind == MovementKind::cut_away)
        cut = part;
      else
        add(material, mark_text(item.mark), rest.kind, part, dimension);
    }
    add(material, mark_text(item.mark), MovementKind::cut_away, cut + left, dimension);
  }

  db::Workshop& workshop_;
  JobSeen const& seen_;
  TakingAll result_;
};

}  // namespace

TakingAll taking_as_quoted(db::Workshop& workshop, JobSeen const& seen) {
  return Gatherer(workshop, seen).all();
}

}  // namespace endband::cli
