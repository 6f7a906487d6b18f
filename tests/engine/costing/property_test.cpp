// The cost sheet against rationals of any size, and what must never fall when something grows.
#include "bills.h"

#include <boost/multiprecision/cpp_int.hpp>
#include <doctest/doctest.h>
#include <rapidcheck.h>

using namespace endband::testing;
using boost::multiprecision::cpp_int;
using boost::multiprecision::cpp_rational;
using endband::Bill;
using endband::CostKind;
using endband::CostSheet;
using endband::Money;
using endband::OperationKind;
using endband::Outside;
using endband::Part;
using endband::Ratio;
using endband::ShopRules;
using endband::Work;

namespace {

struct Case {
  Bill bill;
  Work work;
  std::vector<Outside> outside;
  ShopRules rules;
  CostSheet sheet() const { return endband::cost(bill, work, outside, rules); }
};

Part any_part() { return static_cast<Part>(*rc::gen::inRange(0, static_cast<int>(endband::part_count))); }

Bill any_bill() {
  Bill bill;
  for (int i = *rc::gen::inRange(0, 12); i > 0; --i) {
    auto line = bill_line(i, *rc::gen::inRange<std::int64_t>(0, 90'000),
                          *rc::gen::inRange<std::int64_t>(0, 90'000), any_part());
    if (*rc::gen::arbitrary<bool>()) line.uses.push_back({endband::Item::extra, any_part(), pieces(777)});
    if (*rc::gen::arbitrary<bool>()) line.ruin_chance = Ratio(*rc::gen::inRange<std::int64_t>(0, 90), 100);
    line.customer_supplied = *rc::gen::inRange(0, 5) == 0;
    bill.lines.push_back(line);
  }
  return bill;
}

Work any_work() {
  Work work;
  for (int i = *rc::gen::inRange(0, 20); i > 0; --i)
    work.lines.push_back(work_line(
        static_cast<OperationKind>(*rc::gen::inRange(0, static_cast<int>(endband::operation_count))),
        Ratio(*rc::gen::inRange<std::int64_t>(0, 1'000'000'000), 6000), any_part()));
  return work;
}

Case any_case() {
  Case any{any_bill(), any_work(), {}, year_of(*rc::gen::inRange<std::int64_t>(1, 2000), 0, 0)};
  for (int i = *rc::gen::inRange(0, 3); i > 0; --i)
    any.outside.push_back({"by another", eur(*rc::gen::inRange<std::int64_t>(0, 90'000)),
                           *rc::gen::arbitrary<bool>(), Ratio(*rc::gen::inRange<std::int64_t>(0, 90), 100)});
  any.rules.basis.pay_wanted = eur(*rc::gen::inRange<std::int64_t>(0, 9'000'000));
  any.rules.basis.overhead = eur(*rc::gen::inRange<std::int64_t>(0, 9'000'000));
  any.rules.contingency = Ratio(*rc::gen::inRange<std::int64_t>(0, 50), 100);
  if (*rc::gen::arbitrary<bool>())
    any.rules.simulated_contingency = eur(*rc::gen::inRange<std::int64_t>(0, 90'000));
  any.rules.overtime_seconds = Ratio(*rc::gen::inRange<std::int64_t>(0, 900'000), 7);
  any.rules.overtime_share = Ratio(*rc::gen::inRange<std::int64_t>(0, 150), 100);
  for (endband::WorkLine& line : any.work.lines)
    if (*rc::gen::arbitrary<bool>()) line.rate = eur(*rc::gen::inRange<std::int64_t>(0, 9'000));
  return any;
}

cpp_rational exact(Ratio value) { return {cpp_int(value.num()), cpp_int(value.den())}; }

std::int64_t half_away(cpp_rational const& value) {  // of a value that is not negative
  return ((2 * numerator(value) + denominator(value)) / (2 * denominator(value))).convert_to<std::int64_t>();
}

// The formula of each line, once more, in rationals.
std::int64_t expected(Case const& any, endband::CostLine const& line, std::int64_t earning_before) {
  cpp_int const year = any.rules.basis.hours_charged.n;
  cpp_rational const labour(any.rules.basis.pay_wanted.minor, year);
  cpp_rational const overhead(any.rules.basis.overhead.minor, year);
  auto const at = [&](auto const& rows) -> auto const& {
    return rows[static_cast<std::size_t>(line.source)];
  };
  auto const material = [](endband::BillLine const& of) {
    return of.customer_supplied ? 0 : half_away(cpp_rational(of.charged.n * of.unit.minor, 1000));
  };
  // Labour and overhead of a time.
  auto const rate = [&](endband::WorkLine const& of) {
    return of.rate ? cpp_rational(of.rate->minor, 3600) : labour;
  };
  cpp_rational seconds = 0;
  cpp_rational again = 0;
  switch (line.kind) {
    case CostKind::material: return material(at(any.bill.lines));
    case CostKind::labour:
      return half_away(exact(at(any.work.lines).mean_seconds) * rate(at(any.work.lines)));
    case CostKind::overhead:
      for (auto const& work : any.work.lines) seconds += exact(work.mean_seconds);
      return half_away(seconds * overhead);
    case CostKind::outside: return at(any.outside).price.minor;
    case CostKind::ruin: {
      endband::BillLine const& piece = at(any.bill.lines);
      for (auto const& work : any.work.lines)
        for (auto const& use : piece.uses)
          if (use.part == work.part && endband::operation_row(work.kind).repeated_if_ruined) {
            again += exact(work.mean_seconds) * (rate(work) + overhead);
            break;
          }
      cpp_rational const p = exact(piece.ruin_chance);
      return half_away(p / (1 - p) * (material(piece) + again));
    }
    case CostKind::redo: {
      cpp_rational const p = exact(at(any.outside).redo);
      return half_away(p / (1 - p) * at(any.outside).price.minor);
    }
    case CostKind::overtime:
      return half_away(labour * exact(any.rules.overtime_seconds) * exact(any.rules.overtime_share));
    case CostKind::contingency:
      if (any.rules.simulated_contingency) return any.rules.simulated_contingency->minor;
      return half_away(exact(any.rules.contingency) * earning_before);
  }
  return -1;
}

}  // namespace

TEST_CASE("every line is its formula, rounded once") {
  CHECK(rc::check([] {
    Case const any = any_case();
    std::int64_t earning = 0;
    for (auto const& line : any.sheet().lines) {
      RC_ASSERT(line.amount.minor == expected(any, line, earning));
      if (!line.at_cost) earning += line.amount.minor;
    }
  }));
}

TEST_CASE("the totals are sums of the lines, and the parts share what earns") {
  CHECK(rc::check([] {
    Case const any = any_case();
    CostSheet const sheet = any.sheet();
    Money by_kind[8];
    for (Money& total : by_kind) total = eur(0);
    Money earning = eur(0);
    Money standing = eur(0);
    for (auto const& line : sheet.lines) {
      by_kind[static_cast<int>(line.kind)] += line.amount;
      (line.at_cost ? standing : earning) += line.amount;
    }
    RC_ASSERT(sheet.materials == by_kind[static_cast<int>(CostKind::material)]);
    RC_ASSERT(sheet.labour ==
              by_kind[static_cast<int>(CostKind::labour)] + by_kind[static_cast<int>(CostKind::overtime)]);
    RC_ASSERT(sheet.overhead == by_kind[static_cast<int>(CostKind::overhead)]);
    RC_ASSERT(sheet.outside == by_kind[static_cast<int>(CostKind::outside)]);
    RC_ASSERT(sheet.allowances == by_kind[static_cast<int>(CostKind::redo)] +
                                      by_kind[static_cast<int>(CostKind::ruin)] +
                                      by_kind[static_cast<int>(CostKind::contingency)]);
    RC_ASSERT(sheet.earning == earning);
    RC_ASSERT(sheet.standing == standing);
    RC_ASSERT(sheet.total == earning + standing);
    RC_ASSERT(endband::sum(sheet.part_shares, euro()) == earning);
    RC_ASSERT(sheet.part_shares.size() == endband::part_count);
  }));
}

TEST_CASE(
    "a dearer material, more of a need, a slower step or more overhead never lowers a line or the sheet") {
  CHECK(rc::check([] {
    Case any = any_case();
    CostSheet const before = any.sheet();
    std::int64_t const more = *rc::gen::inRange<std::int64_t>(0, 5000);
    switch (*rc::gen::inRange(0, 6)) {
      case 0:
        RC_PRE(!any.bill.lines.empty());
        any.bill.lines[0].unit.minor += more;
        break;
      case 1:
        RC_PRE(!any.bill.lines.empty());
        for (auto* amount : {&any.bill.lines[0].net, &any.bill.lines[0].opened, &any.bill.lines[0].charged})
          amount->n += more;
        break;
      case 2:
        RC_PRE(!any.work.lines.empty());
        any.work.lines[0].mean_seconds = any.work.lines[0].mean_seconds + Ratio(more);
        break;
      case 3:
        RC_PRE(!any.work.lines.empty());
        RC_PRE(any.work.lines[0].rate.has_value());
        any.work.lines[0].rate->minor += more;
        break;
      case 4:
        RC_PRE(any.rules.basis.pay_wanted.minor > 0);
        any.rules.overtime_share = any.rules.overtime_share + Ratio(more);
        break;
      default: any.rules.basis.overhead.minor += more;
    }
    CostSheet const after = any.sheet();
    if (after.lines.size() == before.lines.size())  // else there was too little overtime for a line
      for (std::size_t i = 0; i < after.lines.size(); ++i)
        RC_ASSERT(after.lines[i].amount >= before.lines[i].amount);
    RC_ASSERT(after.total >= before.total);
    RC_ASSERT(after.outlay >= before.outlay);
  }));
}

TEST_CASE("the same bill and work cost the same") {
  CHECK(rc::check([] {
    Case const any = any_case();
    CostSheet const once = any.sheet();
    CostSheet const twice = any.sheet();
    RC_ASSERT(once.part_shares == twice.part_shares);
    RC_ASSERT(once.total == twice.total);
  }));
}
