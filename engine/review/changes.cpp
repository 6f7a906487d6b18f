#include "engine/review/changes.h"

#include "engine/book/operation.h"

#include <algorithm>
#include <array>
#include <bitset>
#include <cmath>
#include <numeric>

namespace endband {
namespace {

double value(Ratio ratio) { return static_cast<double>(ratio.num()) / static_cast<double>(ratio.den()); }

// One thing changed: what it adds by a sum of unrounded lines, and by how much roundings may make it more.
struct Candidate {
  ChangeKind kind;
  std::optional<MaterialId> material;
  std::optional<OperationKind> operation;
  double about = 0, slack = 4;
};

// All single changes, each with an estimate; only those are costed that may be the largest.
class Candidates {
 public:
  Candidates(FrozenQuote const& quote, QuoteNow const& now)
      : quote_(quote), now_(now), then_rates_(rates_of(quote.shop.basis)), rates_(rates_of(now.shop.basis)) {
    find_odds();
    add_materials();
    add_steps();
    add_rates();
    add_rules();
    for (Candidate& each : found_)
      if (each.kind != ChangeKind::rules) {
        each.about *= 1 + contingency_share();
        each.slack *= 1 + contingency_share();
      }
  }
  std::vector<Candidate> const& found() const { return found_; }

 private:
  // A step that is repeated when a part is ruined costs its share of that too.
  void find_odds() {
    for (BillLine const& line : quote_.bill.lines) {
      if (line.customer_supplied || line.ruin_chance == Ratio(0)) continue;
      ++ruin_lines_;
      double const odds = value(line.ruin_chance / (Ratio(1) - line.ruin_chance));
      std::bitset<part_count> parts;
      for (Use const& use : line.uses) parts.set(static_cast<std::size_t>(use.part));
      for (std::size_t part = 0; part < part_count; ++part)
        if (parts[part]) odds_[part] += odds;
    }
  }
  double times(WorkLine const& line) const {
    bool const repeated = operation_row(line.kind).repeated_if_ruined;
    return repeated ? 1 + odds_[static_cast<std::size_t>(line.part)] : 1;
  }
  double contingency_share() const {
    if (!quote_.shop.simulated_contingency) return value(quote_.shop.contingency);
    auto const simulated = static_cast<double>(quote_.shop.simulated_contingency->minor);
    auto const earned = static_cast<double>(quote_.sheet.earning.minor) - simulated;
    return earned > 0 ? simulated / earned : 0;
  }

  void add_materials() {
    for (std::size_t const i : now_.lines) {
      BillLine const& line = now_.bill.lines[i];
      Candidate& candidate = of_material(line.material);
      double const odds = value(Ratio(1) / (Ratio(1) - line.ruin_chance));
      candidate.about +=
          static_cast<double>((material_cost(line) - material_cost(quote_.bill.lines[i])).minor) * odds;
      candidate.slack += 1;
    }
  }
  Candidate& of_material(MaterialId material) {
    if (found_.empty() || found_.back().material != material)
      found_.push_back({ChangeKind::material, material, {}});
    return found_.back();
  }

  void add_steps() {
    std::array<std::size_t, operation_count> place{};  // from 1
    for (std::size_t const i : now_.steps) {
      WorkLine const& line = now_.work.lines[i];
      std::size_t& at = place[static_cast<std::size_t>(line.kind)];
      if (at == 0) {
        found_.push_back({ChangeKind::step, {}, line.kind, 0, 5.0 + ruin_lines_});
        at = found_.size();
      }
      double const rate =
          line.rate ? static_cast<double>(line.rate->minor) / 3600 : value(then_rates_.labour);
      double const more = value(line.mean_seconds) - value(quote_.work.lines[i].mean_seconds);
      found_[at - 1].about += more * times(line) * (rate + value(then_rates_.overhead));
      found_[at - 1].slack += 1;
    }
  }

  void add_rates() {
    double paid = value(quote_.shop.overtime_seconds * quote_.shop.overtime_share), all = 0;
    for (WorkLine const& line : quote_.work.lines) {
      double const seconds = value(line.mean_seconds) * times(line);
      if (!line.rate) paid += seconds;
      all += seconds;
    }
    double const slack = 5.0 + ruin_lines_ + static_cast<double>(quote_.work.lines.size());
    if (!(rates_.labour == then_rates_.labour))
      found_.push_back(
          {ChangeKind::rate, {}, {}, paid * (value(rates_.labour) - value(then_rates_.labour)), slack});
    if (!(rates_.overhead == then_rates_.overhead))
      found_.push_back({ChangeKind::overhead,
                        {},
                        {},
                        all * (value(rates_.overhead) - value(then_rates_.overhead)),
                        slack});
  }

  void add_rules() {
    if (quote_.shop.simulated_contingency || now_.shop.contingency == quote_.shop.contingency) return;
    double const earned =
        static_cast<double>(quote_.sheet.earning.minor) / (1 + value(quote_.shop.contingency));
    found_.push_back({ChangeKind::rules,
                      {},
                      {},
                      earned * (value(now_.shop.contingency) - value(quote_.shop.contingency))});
  }

  FrozenQuote const& quote_;
  QuoteNow const& now_;
  Rates then_rates_, rates_;
  std::array<double, part_count> odds_{};
  int ruin_lines_ = 0;
  std::vector<Candidate> found_;
};

// The quote as it was, but for one thing.
class Alone {
 public:
  Alone(FrozenQuote const& quote, QuoteNow const& now)
      : quote_(quote), now_(now), bill_(quote.bill), work_(quote.work) {}

  Largest with(Candidate const& candidate) {
    ShopRules const shop = rules(candidate.kind);
    change(candidate, now_.bill, now_.work);
    Largest result{{candidate.kind, candidate.material, candidate.operation, {}},
                   cost_again(quote_, bill_, work_, shop),
                   shop};
    change(candidate, quote_.bill, quote_.work);
    result.change.dearer = result.sheet.total - quote_.sheet.total;
    return result;
  }

 private:
  ShopRules rules(ChangeKind kind) const {
    ShopRules shop = quote_.shop;
    Rates const then = rates_of(quote_.shop.basis), now = rates_of(now_.shop.basis);
    if (kind == ChangeKind::rate) shop.basis = basis_of({now.labour, then.overhead}, shop.currency);
    if (kind == ChangeKind::overhead) shop.basis = basis_of({then.labour, now.overhead}, shop.currency);
    if (kind == ChangeKind::rules) shop.contingency = now_.shop.contingency;
    return shop;
  }
  void change(Candidate const& candidate, Bill const& bill, Work const& work) {
    if (candidate.kind == ChangeKind::material)
      for (std::size_t const i : now_.lines)
        if (bill_.lines[i].material == *candidate.material) bill_.lines[i].unit = bill.lines[i].unit;
    if (candidate.kind == ChangeKind::step)
      for (std::size_t const i : now_.steps)
        if (work_.lines[i].kind == *candidate.operation)
          work_.lines[i].mean_seconds = work.lines[i].mean_seconds;
  }

  FrozenQuote const& quote_;
  QuoteNow const& now_;
  Bill bill_;
  Work work_;
};

}  // namespace

std::optional<Largest> largest_change(FrozenQuote const& quote, QuoteNow const& now) {
  std::vector<Candidate> const candidates = Candidates(quote, now).found();
  std::vector<std::size_t> order(candidates.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, std::ranges::greater{}, [&](std::size_t i) { return candidates[i].about; });
  double most = 0;
  for (Candidate const& each : candidates) most = std::max(most, each.about - each.slack);
  Alone alone(quote, now);
  std::optional<Largest> best;
  std::size_t best_at = 0;
  for (std::size_t const i : order) {
    if (candidates[i].about + candidates[i].slack < most) continue;
    Largest each = alone.with(candidates[i]);
    if (each.change.dearer.minor <= 0) continue;
    if (best && (each.change.dearer < best->change.dearer ||
                 (each.change.dearer == best->change.dearer && best_at < i)))
      continue;
    best = std::move(each);
    best_at = i;
  }
  return best;
}

}  // namespace endband
