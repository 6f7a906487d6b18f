// Where a stored quote is not what follows from its own rows: the identities of the bill, then the cost sheet
// and the offer against a replay, in the order of the data flow, so that the first stage that differs is the
// one named.
#include "engine/commission/commission.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>

namespace endband {
namespace {

// Keeps the name of the first figure that differs.
class Difference {
 public:
  template <class T>
  void compare(std::string_view name, T const& stored, T const& replayed) {
    if (found_.empty() && !(stored == replayed)) found_ = path_ + std::string(name);
  }
  // A whole that a replay does not give.
  void none(std::string name) {
    if (found_.empty()) found_ = std::move(name);
  }
  void enter(std::string path) { path_ = std::move(path); }
  std::string found() && { return std::move(found_); }

 private:
  std::string path_;
  std::string found_;
};

// What a line is charged by its rule, as engine/bill states it.
Amount charged_by_rule(BillLine const& line) {
  if (line.charging == Charging::as_used) return line.consumed();
  if (line.charging == Charging::whole) return line.opened;
  std::int64_t const worth = round_product(line.kept.n, line.kept_worth, Rounding::down);
  return {line.opened.dimension, std::max(checked_sub(line.opened.n, worth), line.consumed().n)};
}

bool one_dimension(BillLine const& line) {
  auto const same = [&](Amount amount) { return amount.dimension == line.net.dimension; };
  return same(line.spoil) && same(line.cutting_loss) && same(line.kept) && same(line.pack_remainder) &&
         same(line.opened) && same(line.charged);
}

void check_bill(Difference& difference, Bill const& bill) {
  for (std::size_t i = 0; i < bill.lines.size(); ++i) {
    BillLine const& line = bill.lines[i];
    difference.enter(fmt::format("bill.lines[{}].", i));
    if (!one_dimension(line)) return difference.none(fmt::format("bill.lines[{}].net", i));
    difference.compare("opened", line.opened, line.consumed() + line.kept + line.pack_remainder);
    difference.compare("charged", line.charged, charged_by_rule(line));
  }
}

void compare_cost_line(Difference& difference, CostLine const& stored, CostLine const& replayed) {
  difference.compare("kind", stored.kind, replayed.kind);
  difference.compare("part", stored.part, replayed.part);
  difference.compare("source", stored.source, replayed.source);
  difference.compare("at_cost", stored.at_cost, replayed.at_cost);
  difference.compare("amount", stored.amount, replayed.amount);
}

// Parts are added at the end of their list: one that a quote does not name cost nothing when it was made.
std::vector<Money> with_later_parts(std::vector<Money> shares, std::vector<Money> const& replayed) {
  if (!replayed.empty() && shares.size() < replayed.size())
    shares.resize(replayed.size(), Money{0, replayed.front().currency});
  return shares;
}

void compare_sheet(Difference& difference, CostSheet const& stored, CostSheet const& replayed) {
  for (std::size_t i = 0; i < std::min(stored.lines.size(), replayed.lines.size()); ++i) {
    difference.enter(fmt::format("sheet.lines[{}].", i));
    compare_cost_line(difference, stored.lines[i], replayed.lines[i]);
  }
  difference.enter("sheet.");
  difference.compare("lines", stored.lines.size(), replayed.lines.size());
  difference.compare("materials", stored.materials, replayed.materials);
  difference.compare("labour", stored.labour, replayed.labour);
  difference.compare("overhead", stored.overhead, replayed.overhead);
  difference.compare("outside", stored.outside, replayed.outside);
  difference.compare("allowances", stored.allowances, replayed.allowances);
  difference.compare("earning", stored.earning, replayed.earning);
  difference.compare("standing", stored.standing, replayed.standing);
  difference.compare("total", stored.total, replayed.total);
  difference.compare("outlay", stored.outlay, replayed.outlay);
  difference.compare("seconds", stored.seconds, replayed.seconds);
  difference.compare("part_shares", with_later_parts(stored.part_shares, replayed.part_shares),
                     replayed.part_shares);
}

void compare_rung(Difference& difference, std::string_view name, Rung const& stored, Rung const& replayed) {
  difference.enter(fmt::format("offer.ladder.{}.", name));
  difference.compare("price", stored.price, replayed.price);
  difference.compare("left", stored.left, replayed.left);
  difference.compare("hourly", stored.hourly, replayed.hourly);
}

void compare_offer_lines(Difference& difference, std::vector<OfferLine> const& stored,
                         std::vector<OfferLine> const& replayed) {
  for (std::size_t i = 0; i < std::min(stored.size(), replayed.size()); ++i) {
    difference.enter(fmt::format("offer.lines[{}].", i));
    difference.compare("component", stored[i].component, replayed[i].component);
    difference.compare("net", stored[i].net, replayed[i].net);
    difference.compare("shown", stored[i].shown, replayed[i].shown);
  }
}

void compare_offer(Difference& difference, Offer const& stored, Offer const& replayed) {
  compare_rung(difference, "cash_floor", stored.ladder.cash_floor, replayed.ladder.cash_floor);
  compare_rung(difference, "walk_away", stored.ladder.walk_away, replayed.ladder.walk_away);
  compare_rung(difference, "full_cost", stored.ladder.full_cost, replayed.ladder.full_cost);
  compare_rung(difference, "target", stored.ladder.target, replayed.ladder.target);
  compare_rung(difference, "asked", stored.ladder.asked, replayed.ladder.asked);
  compare_offer_lines(difference, stored.lines, replayed.lines);
  difference.enter("offer.");
  difference.compare("lines", stored.lines.size(), replayed.lines.size());
  difference.compare("goods", stored.goods, replayed.goods);
  difference.compare("goods_shown", stored.goods_shown, replayed.goods_shown);
  difference.compare("carriage", stored.carriage, replayed.carriage);
  difference.compare("carriage_shown", stored.carriage_shown, replayed.carriage_shown);
  difference.compare("tax", stored.tax, replayed.tax);
  difference.compare("total", stored.total, replayed.total);
  difference.compare("deposit", stored.deposit, replayed.deposit);
  difference.compare("balance", stored.balance, replayed.balance);
  difference.compare("left", stored.left, replayed.left);
  difference.compare("margin", stored.margin, replayed.margin);
}

// Without an outlet or a discount the walk was not kept: the offer says all of it.
void compare_walk(Difference& difference, FrozenQuote const& quote, Walk const& replayed) {
  if (!quote.selling.outlet && !quote.selling.discount) return;
  Walk const& stored = quote.offer.walk;
  difference.enter("offer.walk.");
  difference.compare("ticket", stored.ticket, replayed.ticket);
  difference.compare("discount", stored.discount, replayed.discount);
  difference.compare("goods_shown", stored.goods_shown, replayed.goods_shown);
  difference.compare("carriage_shown", stored.carriage_shown, replayed.carriage_shown);
  difference.compare("tax", stored.tax, replayed.tax);
  difference.compare("cash_rounding", stored.cash_rounding, replayed.cash_rounding);
  difference.compare("paid", stored.paid, replayed.paid);
  difference.compare("goods", stored.goods, replayed.goods);
  difference.compare("fees", stored.fees == replayed.fees, true);
  difference.compare("all_fees", stored.all_fees, replayed.all_fees);
  difference.compare("payout", stored.payout, replayed.payout);
  difference.compare("exchange_cost", stored.exchange_cost, replayed.exchange_cost);
  difference.compare("received", stored.received, replayed.received);
  difference.compare("tax_due", stored.tax_due, replayed.tax_due);
  difference.compare("carriage", stored.carriage, replayed.carriage);
  difference.compare("yours", stored.yours, replayed.yours);
  difference.compare("returns", stored.returns, replayed.returns);
  difference.compare("cost", stored.cost, replayed.cost);
  difference.compare("left", stored.left, replayed.left);
  difference.compare("price", stored.price, replayed.price);
}

void check_outside(Difference& difference, FrozenQuote const& quote) {
  if (quote.rules < first_rules_of_orders) return;  // what a price was made of was not kept
  for (std::size_t i = 0; i < quote.outside.size(); ++i) {
    difference.enter(fmt::format("outside[{}].", i));
    difference.compare("price", quote.outside[i].price, price_of(quote.outside[i]));
  }
}

// The copies asked for cost what is offered, and one more never costs less.
void check_copies(Difference& difference, FrozenQuote const& quote) {
  for (std::size_t i = 0; i < quote.copy_prices.size(); ++i) {
    CopyPrice const& price = quote.copy_prices[i];
    difference.enter(fmt::format("copies[{}].", i));
    if (price.copies == quote.copies) {
      difference.compare("shown", price.shown, quote.offer.goods_shown);
      difference.compare("cost", price.cost, quote.sheet.total);
      difference.compare("seconds", price.seconds, quote.sheet.seconds);
    }
    if (i > 0) difference.compare("copies", quote.copy_prices[i - 1].copies < price.copies, true);
  }
}

void check_repairs(Difference& difference, FrozenQuote const& quote) {
  if (quote.rules < first_rules_of_orders) return;
  RepairTerms const terms{quote.bill,     quote.work,    quote.outside, quote.shop,
                          quote.delivery, quote.selling, quote.goal};
  Ratio const share = quote.repairs ? quote.repairs->ceiling_share : Ratio(0);
  Read<std::optional<RepairRange>> const replayed = repair_range(terms, quote.offer, share);
  if (!replayed) return difference.none("repairs");
  if (quote.repairs.has_value() != replayed->has_value()) {
    if (quote.repairs || !quote.copy_prices.empty()) difference.none("repairs");
    return;  // a price alone was frozen
  }
  if (!quote.repairs) return;
  difference.enter("repairs.");
  difference.compare("low", quote.repairs->low, (*replayed)->low);
  difference.compare("likely", quote.repairs->likely, (*replayed)->likely);
  difference.compare("high", quote.repairs->high, (*replayed)->high);
  difference.compare("ceiling", quote.repairs->ceiling, (*replayed)->ceiling);
}

}  // namespace

std::string differs(FrozenQuote const& quote) try {
  Difference difference;
  check_bill(difference, quote.bill);
  check_outside(difference, quote);
  CostSheet const sheet = cost(quote.bill, quote.work, quote.outside, quote.shop);
  compare_sheet(difference, quote.sheet, sheet);
  Read<Offer> const replayed = offer(sheet, quote.delivery, quote.selling, quote.goal, quote.shop);
  if (replayed) {
    compare_offer(difference, quote.offer, *replayed);
    compare_walk(difference, quote, replayed->walk);
  } else {
    difference.none("offer");
  }
  check_copies(difference, quote);
  check_repairs(difference, quote);
  return std::move(difference).found();
} catch (Overflow const&) {
  return "sheet.total";
}

}  // namespace endband
