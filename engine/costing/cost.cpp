// The cost sheet, kind by kind. Rounded by name: each line amount, half away from zero.
#include "engine/book/operation.h"
#include "engine/costing/costing.h"
#include "engine/labour/seconds.h"

#include <array>
#include <bitset>
#include <cstddef>
#include <stdexcept>
#include <utility>

namespace endband {
namespace {

using Parts = std::bitset<part_count>;

constexpr std::int64_t seconds_an_hour = 3600;

std::size_t index_of(Part part) { return static_cast<std::size_t>(part); }

Part first_part(BillLine const& line) {
  return line.uses.empty() ? Part::whole_book : line.uses.front().part;
}

Parts parts_of(BillLine const& line) {
  Parts parts;
  for (Use const& use : line.uses) parts.set(index_of(use.part));
  return parts;
}

class Sheet {
 public:
  Sheet(Bill const& bill, Work const& work, ShopRules const& rules)
      : bill_(bill), work_(work), rules_(rules), rates_(rates_of(rules.basis)) {
    Money const zero{0, rules.currency};
    for (Money* total :
         {&sheet_.materials, &sheet_.labour, &sheet_.overhead, &sheet_.outside, &sheet_.allowances,
          &sheet_.earning, &sheet_.standing, &sheet_.total, &sheet_.outlay})
      *total = zero;
    sheet_.part_shares.assign(part_count, zero);
    sheet_.lines.reserve(bill.lines.size() + work.lines.size() + 8);
    sheet_.seconds = work.mean_seconds();
  }

  void add_materials() {
    for (std::size_t i = 0; i < bill_.lines.size(); ++i) {
      BillLine const& line = bill_.lines[i];
      Money const amount = line.customer_supplied ? Money{0, rules_.currency} : material_cost(line);
      add({CostKind::material, first_part(line), static_cast<int>(i), false, amount});
      sheet_.materials += amount;
      share_over_uses(line, amount);
      if (!line.customer_supplied) sheet_.outlay += outlay(line);
    }
  }

  void add_labour() {
    for (std::size_t i = 0; i < work_.lines.size(); ++i) {
      WorkLine const& line = work_.lines[i];
      Money const amount = rounded_product(line.mean_seconds, rate_of(line));
      add({CostKind::labour, line.part, static_cast<int>(i), false, amount});
      sheet_.labour += amount;
      sheet_.part_shares[index_of(line.part)] += amount;
    }
  }

  void add_overhead() {
    sheet_.overhead = rounded_product(sheet_.seconds, rates_.overhead);
    add_to_whole({CostKind::overhead, Part::whole_book, -1, false, sheet_.overhead});
  }

  void add_overtime() {
    if (rules_.overtime_seconds < Ratio(0) || rules_.overtime_share < Ratio(0))
      throw std::logic_error("overtime of less than nothing");
    Money const amount = rounded_product(rates_.labour * rules_.overtime_share, rules_.overtime_seconds);
    if (amount.minor == 0) return;
    add_to_whole({CostKind::overtime, Part::whole_book, -1, false, amount});
    sheet_.labour += amount;
  }

  void add_outside(std::vector<Outside> const& outside) {
    for (std::size_t i = 0; i < outside.size(); ++i) {
      CostLine const line{CostKind::outside, Part::whole_book, static_cast<int>(i), outside[i].at_cost,
                          outside[i].price};
      if (line.at_cost)
        add(line);
      else
        add_to_whole(line);
      sheet_.outside += line.amount;
      sheet_.outlay += line.amount;
    }
  }

  // The odds p / (1 - p) are how often one expects to have it done again.
  void add_redo(std::vector<Outside> const& outside) {
    for (std::size_t i = 0; i < outside.size(); ++i) {
      if (outside[i].redo == Ratio(0)) continue;
      CostLine const line{CostKind::redo, Part::whole_book, static_cast<int>(i), outside[i].at_cost,
                          scale(outside[i].price, odds_of(outside[i].redo), Rounding::half_away)};
      if (line.at_cost)
        add(line);
      else
        add_to_whole(line);
      sheet_.allowances += line.amount;
    }
  }

  // What the customer supplies cannot be bought again: there is nothing to allow for.
  void add_ruin() {
    for (std::size_t i = 0; i < bill_.lines.size(); ++i) {
      BillLine const& line = bill_.lines[i];
      if (line.customer_supplied || line.ruin_chance == Ratio(0)) continue;
      Money const amount = ruin_allowance(line);
      add({CostKind::ruin, first_part(line), static_cast<int>(i), false, amount});
      sheet_.allowances += amount;
      sheet_.part_shares[index_of(first_part(line))] += amount;
    }
  }

  void add_contingency() {
    Money const amount = contingency();
    if (amount.minor < 0) throw std::logic_error("a contingency of less than nothing");
    if (!rules_.simulated_contingency && rules_.contingency == Ratio(0)) return;
    add_to_whole({CostKind::contingency, Part::whole_book, -1, false, amount});
    sheet_.allowances += amount;
  }

  CostSheet finish() && {
    sheet_.total = sheet_.earning + sheet_.standing;
    return std::move(sheet_);
  }

 private:
  // As simulated; else a share of what earns: what stands at cost has its price already.
  Money contingency() const {
    if (rules_.simulated_contingency) return *rules_.simulated_contingency;
    return scale(sheet_.earning, rules_.contingency, Rounding::half_away);
  }

  // Minor units a second.
  Ratio rate_of(WorkLine const& line) const {
    if (!line.rate) return rates_.labour;
    if (line.rate->currency != rules_.currency) throw std::logic_error("a rate in another currency");
    return {line.rate->minor, seconds_an_hour};
  }

  static Ratio odds_of(Ratio chance) { return chance / (Ratio(1) - chance); }

  Money rounded_product(Ratio a, Ratio b) const {
    return {round_product(a, b, Rounding::half_away), rules_.currency};
  }

  void add(CostLine const& line) {
    sheet_.lines.push_back(line);
    (line.at_cost ? sheet_.standing : sheet_.earning) += line.amount;
  }

  void add_to_whole(CostLine const& line) {
    add(line);
    sheet_.part_shares[index_of(Part::whole_book)] += line.amount;
  }

  void share_over_uses(BillLine const& line, Money amount) {
    Parts const parts = parts_of(line);
    if (parts.count() <= 1) {
      sheet_.part_shares[index_of(first_part(line))] += amount;
      return;
    }
    std::array<std::int64_t, part_count> weights{};
    std::int64_t all = 0;
    for (Use const& use : line.uses) {
      weights[index_of(use.part)] = checked_add(weights[index_of(use.part)], use.net.n);
      all = checked_add(all, use.net.n);
    }
    if (all == 0) weights[index_of(first_part(line))] = 1;
    std::vector<Money> const shares = share(amount, weights);
    for (std::size_t part = 0; part < part_count; ++part) sheet_.part_shares[part] += shares[part];
  }

  // p / (1 - p) x (piece + repeated time x (rate + overhead)); the odds p / (1 - p) are the pieces that one
  // expects to lose for each that succeeds.
  Money ruin_allowance(BillLine const& line) const {
    Parts const parts = parts_of(line);
    SecondsSum repeated;
    SecondsSum at_own_rates;  // x what an hour of them costs
    SecondsSum at_the_workshops;
    for (WorkLine const& work : work_.lines) {
      if (!parts[index_of(work.part)] || !operation_row(work.kind).repeated_if_ruined) continue;
      repeated.add(work.mean_seconds);
      if (work.rate)
        at_own_rates.add(work.mean_seconds * Ratio(work.rate->minor));
      else
        at_the_workshops.add(work.mean_seconds);
    }
    Ratio const labour =
        at_the_workshops.total() * rates_.labour + at_own_rates.total() / Ratio(seconds_an_hour);
    Ratio const again = Ratio(material_cost(line).minor) + labour + repeated.total() * rates_.overhead;
    return rounded_product(again, odds_of(line.ruin_chance));
  }

  Bill const& bill_;
  Work const& work_;
  ShopRules const& rules_;
  Rates const rates_;
  CostSheet sheet_;
};

}  // namespace

Money CostSheet::by_part(Part part) const { return part_shares.at(index_of(part)); }

CostSheet cost(Bill const& bill, Work const& work, std::vector<Outside> const& outside,
               ShopRules const& rules) {
  Sheet sheet(bill, work, rules);
  sheet.add_materials();
  sheet.add_labour();
  sheet.add_overhead();
  sheet.add_overtime();
  sheet.add_outside(outside);
  sheet.add_redo(outside);
  sheet.add_ruin();
  sheet.add_contingency();
  return std::move(sheet).finish();
}

}  // namespace endband
