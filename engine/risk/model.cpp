#include "engine/risk/model.h"

#include "engine/book/operation.h"
#include "engine/labour/hours.h"

#include <algorithm>
#include <bitset>
#include <utility>

namespace endband::risk {
namespace {

constexpr double most_pieces = 1e5;  // spoiled on average; of more the spread is nothing beside their cost

std::int64_t milliseconds(Ratio seconds) {
  return round_product(seconds, Ratio(thousandths), Rounding::half_away);
}

TimeModel time_of(WorkLine const& line) {
  TimeModel model;
  if (line.rate) model.rate = line.rate->minor;
  model.wait_low = line.wait_low.n;
  model.wait_high = std::max(line.wait_low.n, line.wait_high.n);
  model.fixed = milliseconds(line.mean_seconds);
  ThreePoints const seconds = points_of(line);
  if (seconds.low < seconds.high)
    model.draw.emplace(
        ThreePoints{seconds.low * thousandths, seconds.likely * thousandths, seconds.high * thousandths});
  return model;
}

// What is spoiled costs, of its price.
Ratio share_paid(BillLine const& line) {
  switch (line.charging) {
    case Charging::as_used: return 1;
    case Charging::whole_less_offcuts: return line.kept_worth;
    case Charging::whole: break;
  }
  return 0;
}

std::int64_t pieces_of(BillLine const& line, std::int64_t gross, std::span<Piece const> pieces) {
  std::int64_t count = 0;
  for (Piece const& piece : pieces)
    if (piece.material == line.material) count = checked_add(count, piece.count);
  if (count > 0) return count;
  if (line.net.dimension == Dimension::count) return gross / thousandths + (gross % thousandths != 0 ? 1 : 0);
  return std::max<std::int64_t>(1, static_cast<std::int64_t>(line.uses.size()));
}

SpoilModel spoil_model(std::uint32_t index, Lots const& lots) {
  SpoilModel model{index, PoissonDraw(lots.mean), {}};
  for (std::int64_t count = 0; count <= model.pieces.most(); ++count)
    model.cost.push_back(mul_div(count, lots.cost, lots.pieces, Rounding::half_away));
  return model;
}

void add_spoils(Model& model, RiskInput const& input) {
  for (std::size_t i = 0; i < input.bill.lines.size(); ++i) {
    BillLine const& line = input.bill.lines[i];
    Lots const lots = lots_of(line, input.pieces);
    if (lots.gross == 0) continue;
    model.spoils.push_back(spoil_model(static_cast<std::uint32_t>(i), lots));
    model.fixed_cost =
        checked_sub(model.fixed_cost, mul_div(line.spoil.n, lots.cost, lots.gross, Rounding::half_away));
  }
}

std::vector<std::uint32_t> repeated_by(BillLine const& line, Work const& work) {
  std::bitset<part_count> parts;
  for (Use const& use : line.uses) parts.set(static_cast<std::size_t>(use.part));
  std::vector<std::uint32_t> again;
  for (std::size_t i = 0; i < work.lines.size(); ++i)
    if (parts[static_cast<std::size_t>(work.lines[i].part)] &&
        operation_row(work.lines[i].kind).repeated_if_ruined)
      again.push_back(static_cast<std::uint32_t>(i));
  return again;
}

void add_ruins(Model& model, RiskInput const& input) {
  for (std::size_t i = 0; i < input.bill.lines.size(); ++i) {
    BillLine const& line = input.bill.lines[i];
    if (line.customer_supplied || line.ruin_chance == Ratio(0)) continue;
    model.ruins.push_back({static_cast<std::uint32_t>(i), value(line.ruin_chance),
                           checked_mul(material_cost(line).minor, thousandths),
                           repeated_by(line, input.work)});
  }
}

void add_redos(Model& model, std::vector<Outside> const& outside) {
  for (std::size_t i = 0; i < outside.size(); ++i)
    if (outside[i].redo != Ratio(0))
      model.redos.push_back({static_cast<std::uint32_t>(i), value(outside[i].redo),
                             checked_mul(outside[i].price.minor, thousandths)});
}

std::int64_t overtime_of(CostSheet const& sheet) {
  std::int64_t minor = 0;
  for (CostLine const& line : sheet.lines)
    if (line.kind == CostKind::overtime) minor = checked_add(minor, line.amount.minor);
  return minor;
}

// Throws Overflow where the highest times, or what they cost, leave their range; no run can then.
void check_range(Model const& model, Work const& work) {
  std::int64_t all = 0;
  std::int64_t paid = 0;
  for (std::size_t i = 0; i < work.lines.size(); ++i) {
    std::int64_t const high = std::max(milliseconds(work.lines[i].high_seconds), model.lines[i].fixed);
    all = checked_add(all, high);
    paid = checked_add(paid, checked_mul(high, model.lines[i].rate.value_or(0)));
    checked_mul(model.lines[i].wait_high, thousandths * static_cast<std::int64_t>(work.lines.size()));
  }
}

}  // namespace

double value(Ratio ratio) { return static_cast<double>(ratio.num()) / static_cast<double>(ratio.den()); }

Lots lots_of(BillLine const& line, std::span<Piece const> pieces) {
  Lots lots;
  std::int64_t const gross = checked_add(line.net.n, line.cutting_loss.n);
  Ratio const paid = share_paid(line);
  if (line.customer_supplied || line.spoil.n <= 0 || gross <= 0 || line.unit.pack.n <= 0 || paid == Ratio(0))
    return lots;
  lots.pieces = pieces_of(line, gross, pieces);
  lots.mean = value(Ratio(line.spoil.n, gross)) * static_cast<double>(lots.pieces);
  if (lots.mean > most_pieces) return lots;
  lots.gross = gross;
  lots.cost = round_product(Ratio(line.unit.minor, line.unit.pack.n) * paid,
                            Ratio(checked_mul(gross, thousandths)), Rounding::half_away);
  return lots;
}

Model model_of(Work const& work) {
  Model model;
  model.lines.reserve(work.lines.size());
  for (WorkLine const& line : work.lines) model.lines.push_back(time_of(line));
  check_range(model, work);
  return model;
}

Model model_of(RiskInput const& input, CostSheet const& sheet) {
  Model model = model_of(input.work);
  model.rates = rates_of(input.shop.basis);
  model.fixed_cost = checked_mul(
      checked_add(checked_add(sheet.materials.minor, sheet.outside.minor), overtime_of(sheet)), thousandths);
  add_spoils(model, input);
  add_ruins(model, input);
  add_redos(model, input.outside);
  return model;
}

}  // namespace endband::risk
