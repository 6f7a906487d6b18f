#include "engine/money/numeral.h"
#include "engine/review/today.h"

#include <algorithm>
#include <utility>

namespace endband {
namespace {

constexpr std::int64_t seconds_an_hour = 3600;
constexpr std::string_view of_steps = "step.";

// More or less, by a share or by a sum.
struct Move {
  Ratio share;
  Money sum;
  bool by_share = false;
};

tl::unexpected<std::vector<Fault>> bad(std::string_view what, std::string expected) {
  return refuse({FaultCode::bad_value, {}, std::string(what), std::move(expected), {}});
}

tl::unexpected<std::vector<Fault>> less_than_nothing(std::string_view what) {
  return bad(what, "a change that leaves nothing or more of it");
}

Read<Move> read_move(std::string_view what, std::string_view text, Currency currency) {
  std::string_view const form = "a name and a change: goat-dark=+12%, rate=+2.00, step.sew-sections=-5%";
  std::string_view rest = text;
  bool const minus = take_minus(rest);
  if (!minus && !rest.starts_with('+')) return bad(what, std::string(form));
  if (!minus) rest.remove_prefix(1);
  if (rest.empty() || !is_digit(rest.front())) return bad(what, std::string(form));
  Move move;
  move.by_share = rest.ends_with('%');
  if (move.by_share) {
    Read<Ratio> const share = read_ratio(rest);
    if (!share) return bad(what, std::string(form));
    move.share = minus ? Ratio(0) - *share : *share;
    return move;
  }
  Read<Money> const sum = read_money(rest, currency);
  if (!sum) return bad(what, std::string(form));
  move.sum = minus ? -*sum : *sum;
  return move;
}

Ratio moved(Ratio an_hour_per_second, Move const& move) {
  if (move.by_share) return an_hour_per_second * (Ratio(1) + move.share);
  return an_hour_per_second + Ratio(move.sum.minor, seconds_an_hour);
}

Read<void> move_rate(Today::Held& held, std::string_view what, Ratio Rates::*which, Move const& move) {
  Rates rates = rates_of(held.shop.basis);
  rates.*which = moved(rates.*which, move);
  if (rates.*which < Ratio(0)) return less_than_nothing(what);
  held.shop.basis = basis_of(rates, held.shop.currency);
  return {};
}

Read<void> move_price(PriceNow& price, std::string_view what, Move const& move) {
  if (!price.unit)
    return refuse({FaultCode::no_price, {}, price.code, "a material that has a price today", {}});
  std::int64_t const minor = price.unit->minor;
  std::int64_t const now = move.by_share ? round_product(minor, Ratio(1) + move.share, Rounding::half_away)
                                         : checked_add(minor, move.sum.minor);
  if (now < 0) return less_than_nothing(what);
  price.unit->minor = now;
  return {};
}

Read<void> move_step(StepNow& step, std::string_view what, Move const& move) {
  if (!move.by_share) return bad(what, "a share of a step's times: step.sew-sections=+10%");
  Ratio const factor = Ratio(1) + move.share;
  if (factor < Ratio(0)) return less_than_nothing(what);
  step = {step.set_up * factor, step.each * factor};
  return {};
}

tl::unexpected<std::vector<Fault>> unknown(Today::Held const& held, std::string_view name) {
  std::vector<std::string> known{"rate", "overhead"};
  for (PriceNow const& price : held.prices) known.push_back(price.code);
  for (OperationRow const& row : operation_table())
    if (held.step_of(row.kind) != nullptr) known.push_back(std::string(of_steps) + std::string(row.name));
  std::vector<std::string_view> const views(known.begin(), known.end());
  return refuse({FaultCode::unknown_code,
                 {},
                 std::string(name),
                 "a material's code, rate, overhead, or step. and a step's name",
                 nearest(name, views)});
}

Read<void> supposed(Today::Held& held, std::string_view what) {
  std::size_t const equals = what.find('=');
  std::string_view const name = trimmed(what.substr(0, equals));
  Read<Move> const move = read_move(
      what, equals == std::string_view::npos ? "" : trimmed(what.substr(equals + 1)), held.shop.currency);
  if (!move) return tl::unexpected(move.error());
  if (name == "rate") return move_rate(held, what, &Rates::labour, *move);
  if (name == "overhead") return move_rate(held, what, &Rates::overhead, *move);
  if (name.starts_with(of_steps)) {
    auto const kind = operation_named(name.substr(of_steps.size()));
    if (kind && held.step_of(*kind) != nullptr) return move_step(*held.step(*kind), what, *move);
  }
  auto const price = std::ranges::find(held.prices, name, &PriceNow::code);
  return price == held.prices.end() ? unknown(held, name) : move_price(*price, what, *move);
}

}  // namespace

Read<void> Today::suppose(std::string_view what) try {
  return supposed(*held_, what);
} catch (Overflow const&) {
  return refuse(
      {FaultCode::too_large, {}, std::string(what), "a change that fits in the range of money", {}});
}

}  // namespace endband
