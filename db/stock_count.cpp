// What lies there against what should; what is thrown away; what has lost its worth; what may change about a
// lot.
#include "db/materials.h"
#include "db/settings.h"
#include "db/stock_ledger.h"

#include <algorithm>
#include <array>
#include <utility>

namespace endband::db {
namespace {

constexpr std::size_t longest_words = 500;  // bytes

Where at(std::string_view command, std::string_view field) {
  return {std::string(command), 0, 0, std::string(field)};
}

std::optional<Fault> wrong_dimension(StockItem const& item, Amount quantity, Where where) {
  if (quantity.dimension == item.dimension()) return std::nullopt;
  return Fault{FaultCode::wrong_unit,
               std::move(where),
               amount_text(quantity),
               "a quantity of " + item.code + ", which is sold by " + std::string(sold_by_name(item.sold_by)),
               {}};
}

// The lots that are meant: the one named, or all whole goods of the material, what is free first. Offcuts are
// told by name.
std::vector<Lot> lots_meant(Connection& connection, Target const& target, Date on) {
  if (target.lot) return {*target.lot};
  std::vector<Lot> lots = open_lots(connection, target.item.id, on);
  std::erase_if(lots, [](Lot const& lot) { return !lot.whole_goods(); });
  std::vector<SetAside> const aside = set_aside(connection, target.item.id);
  std::stable_partition(lots.begin(), lots.end(), [&](Lot const& lot) {
    return lot.job == 0 &&
           std::ranges::none_of(aside, [&](SetAside const& s) { return s.lot == lot.id.value; });
  });
  return lots;
}

// Skins are items of their own: it must be said which one is gone.
std::optional<Fault> which_item(StockItem const& item, std::vector<Lot> const& lots, Where where) {
  if (!item.single() || lots.size() < 2) return std::nullopt;
  Fault fault{FaultCode::rule_refused, std::move(where), item.code, "one of them by its mark", {}};
  for (Lot const& lot : lots) fault.near.push_back(mark_text(lot.mark));
  return fault;
}

std::int64_t sum_of(std::vector<Lot> const& lots) {
  std::int64_t sum = 0;
  for (Lot const& lot : lots) sum = checked_add(sum, lot.quantity);
  return sum;
}

bool ever_moved(Connection& connection, MaterialId material) {
  Statement select(connection,
                   "SELECT 1 FROM lot l JOIN movement v ON v.lot = l.id WHERE l.material = ? AND l.source <> "
                   "'custody' LIMIT 1");
  return select.bind(material).step();
}

// What so much more is worth: what was said, else at the average of what lies there, else at the landed price
// in force.
Read<std::int64_t> found_value(Writing& writing, StockItem const& item, std::vector<Lot> const& lots,
                               std::int64_t found, std::optional<Money> worth, Date on, Where const& where) {
  Workshop& workshop = writing.workshop();
  if (worth) {
    if (worth->currency != workshop.currency())
      return refuse({FaultCode::currency_mismatch,
                     at(where.source, "worth"),
                     std::string(worth->currency.code()),
                     std::string(workshop.currency().code()),
                     {}});
    if (worth->minor < 0)
      return refuse(
          {FaultCode::out_of_range, at(where.source, "worth"), money_text(*worth), "0 or more", {}});
    return worth->minor;
  }
  std::int64_t quantity = 0, value = 0;
  for (Lot const& lot : lots) {
    if (lot.costed != Costed::own) continue;
    quantity = checked_add(quantity, lot.quantity);
    value = checked_add(value, lot.value);
  }
  if (std::ranges::any_of(lots, [](Lot const& lot) { return lot.costed == Costed::pool; })) {
    PoolBalance const pool = load_pool(workshop.connection(), item.id).balance;
    quantity = pool.quantity;
    value = pool.value;
  }
  if (quantity > 0) return mul_div(value, found, quantity, Rounding::half_away);
  Read<Material> const material = find_material(workshop, item.code, on);
  if (!material || !material->price)
    return refuse({FaultCode::no_price,
                   at(where.source, "worth"),
                   "",
                   "--worth, as " + item.code + " has no price on that day",
                   {}});
  Ratio recovered = 0;
  for (Setting const& setting : settings(workshop, on))
    if (setting.name == "tax.recovered") recovered = read_ratio(setting.value).value_or(Ratio(0));
  return cost_of(unit_cost(*material, {recovered}), item.amount(found)).minor;
}

// More than was known: into the lot named, or as a lot of its own.
Read<Counted> write_found(Writing& writing, Target const& target, std::vector<Lot> const& lots,
                          Counted counted, Date on, std::string_view reason, std::optional<Money> worth,
                          std::string_view place, Where const& where) {
  Connection& connection = writing.workshop().connection();
  StockItem const& item = target.item;
  std::int64_t const found = counted.counted - counted.known;
  bool const custody = target.lot && target.lot->source == LotSource::custody;
  std::int64_t value = 0;
  if (!custody) {
    Read<std::int64_t> const read = found_value(writing, item, lots, found, worth, on, where);
    if (!read) return tl::unexpected(read.error());
    value = *read;
  }
  if (!target.lot && !ever_moved(connection, item.id)) counted.kind = MovementKind::opening;
  Pool const pool = load_pool(connection, item.id);
  Lot lot;
  if (target.lot) {
    lot = *target.lot;
  } else {
    NewLot fresh;
    fresh.letter = item.single() ? 'K' : 'L';
    fresh.item = item;
    fresh.source = counted.kind == MovementKind::opening ? LotSource::opening : LotSource::found;
    fresh.costed = item.single() || formula_on(writing.workshop(), on) == CostFormula::first_in_first_out
                       ? Costed::own
                       : Costed::pool;
    fresh.on = on;
    fresh.said = amount_text(item.amount(found));
    fresh.said_price = fresh.landed.price.minor = value;
    lot = begin_lot(writing, fresh);
    if (!place.empty()) say_fact(writing, lot.id, "place", place);
  }
  if (std::optional<Fault> fault = too_early(lot, pool, on, where)) return refuse(*std::move(fault));
  post_in(writing, lot, found, value, {counted.kind, on, 0, reason});
  counted.lot = lot.id;
  counted.postings = {{lot.id, found, value}};
  return counted;
}

}  // namespace

Read<Counted> count(Writing& writing, std::string_view code_or_lot, Amount amount, Date on,
                    std::string_view reason, std::optional<Money> worth, std::string_view place) {
  Where const where = at("stock count", "quantity");
  Read<Target> const target = find_target(writing.workshop(), code_or_lot, on, at("stock count", "code"));
  if (!target) return tl::unexpected(target.error());
  if (auto fault = wrong_dimension(target->item, amount, where)) return refuse(*std::move(fault));
  if (amount.n < 0) return refuse({FaultCode::out_of_range, where, amount_text(amount), "0 or more", {}});
  std::vector<Lot> const lots = lots_meant(writing.workshop().connection(), *target, on);
  Counted counted;
  counted.known = sum_of(lots);
  counted.counted = amount.n;
  if (counted.counted == counted.known) return counted;
  if (counted.counted > counted.known)
    return write_found(writing, *target, lots, std::move(counted), on, reason, worth, place, where);
  if (auto fault = which_item(target->item, lots, at("stock count", "code")))
    return refuse(*std::move(fault));
  counted.kind = MovementKind::missing;
  Read<std::vector<Posting>> postings =
      take_out(writing, lots, counted.known - counted.counted, {counted.kind, on, 0, reason}, where);
  if (!postings) return tl::unexpected(postings.error());
  counted.postings = *std::move(postings);
  return counted;
}

Read<std::vector<Posting>> scrap(Writing& writing, std::string_view code_or_lot, Amount quantity, Date on,
                                 std::string_view reason) {
  Where const where = at("stock scrap", "quantity");
  Read<Target> const target = find_target(writing.workshop(), code_or_lot, on, at("stock scrap", "code"));
  if (!target) return tl::unexpected(target.error());
  if (auto fault = wrong_dimension(target->item, quantity, where)) return refuse(*std::move(fault));
  std::vector<Lot> lots = lots_meant(writing.workshop().connection(), *target, on);
  if (auto fault = which_item(target->item, lots, at("stock scrap", "code")))
    return refuse(*std::move(fault));
  // What is past its day goes first.
  std::stable_partition(lots.begin(), lots.end(), [on](Lot const& lot) { return !lot.good_on(on); });
  std::int64_t const there = sum_of(lots);
  if (quantity.n <= 0 || quantity.n > there)
    return refuse({FaultCode::rule_refused,
                   where,
                   amount_text(quantity),
                   there == 0 ? "nothing: none is there"
                              : "at most " + amount_text(target->item.amount(there)) + ", which is there",
                   {}});
  return take_out(writing, lots, quantity.n, {MovementKind::scrapped, on, 0, reason}, where);
}

Read<std::vector<Posting>> hand_back(Writing& writing, std::string_view mark, std::optional<Amount> quantity,
                                     Date on, std::string_view reason) {
  Where const where = at("stock hand-back", "lot");
  Read<Lot> const lot = lot_named(writing.workshop(), mark, on, where);
  if (!lot) return tl::unexpected(lot.error());
  if (lot->source != LotSource::custody)
    return refuse({FaultCode::rule_refused, where, std::string(mark), "goods that a customer left here", {}});
  StockItem const item = item_of(writing.workshop(), lot->material);
  Amount const back = quantity.value_or(item.amount(lot->quantity));
  if (auto fault = wrong_dimension(item, back, where)) return refuse(*std::move(fault));
  if (back.n <= 0 || back.n > lot->quantity)
    return refuse({FaultCode::rule_refused,
                   at(where.source, "quantity"),
                   amount_text(back),
                   "at most " + amount_text(item.amount(lot->quantity)) + ", which is there",
                   {}});
  return take_out(writing, {*lot}, back.n, {MovementKind::given_back, on, 0, reason}, where);
}

Read<Posting> write_down(Writing& writing, std::string_view mark, Money worth, Date on,
                         std::string_view reason) {
  Where const where = at("stock write-down", "worth");
  Workshop& workshop = writing.workshop();
  Read<Lot> const lot = lot_named(workshop, mark, on, at("stock write-down", "lot"));
  if (!lot) return tl::unexpected(lot.error());
  if (worth.currency != workshop.currency())
    return refuse({FaultCode::currency_mismatch,
                   where,
                   std::string(worth.currency.code()),
                   std::string(workshop.currency().code()),
                   {}});
  Pool const pool = load_pool(workshop.connection(), lot->material);
  std::int64_t const value = lot->costed == Costed::own ? lot->value
                             : lot->quantity == 0
                                 ? 0
                                 : value_of_part(pool.balance.value, pool.balance.quantity, lot->quantity);
  if (lot->source == LotSource::custody)
    return refuse({FaultCode::rule_refused,
                   where,
                   mark_text(lot->mark),
                   "goods of the workshop's own: a customer's have no value here",
                   {}});
  if (worth.minor < 0 || worth.minor >= value)
    return refuse({FaultCode::rule_refused,
                   where,
                   money_text(worth),
                   value == 0 ? "nothing: it is worth nothing already"
                              : "less than the " + money_text({value, worth.currency}) +
                                    " it stands at; it is never written up",
                   {}});
  if (auto fault = too_early(*lot, pool, on, where)) return refuse(*std::move(fault));
  post(writing, *lot, 0, worth.minor - value, {MovementKind::written_down, on, 0, reason});
  return Posting{lot->id, 0, value - worth.minor};
}

Read<LotRow> set_fact(Writing& writing, std::string_view mark, std::string_view fact,
                      std::string_view value) {
  static constexpr std::array<std::string_view, 4> facts{"place", "opened-on", "keeps-until", "note"};
  Where const where = at("stock change", fact);
  Read<Lot> const lot = lot_named(writing.workshop(), mark, Date(), at("stock change", "lot"));
  if (!lot) return tl::unexpected(lot.error());
  if (std::ranges::find(facts, fact) == facts.end())
    return refuse({FaultCode::unknown_code, where, std::string(fact), "place, opened-on, keeps-until or note",
                   nearest(fact, facts)});
  if (value.size() > longest_words)
    return refuse({FaultCode::out_of_range,
                   where,
                   std::string(value),
                   std::to_string(longest_words) + " bytes at most",
                   {}});
  if (!value.empty() && (fact == "opened-on" || fact == "keeps-until")) {
    Read<Date> const day = located(read_date(value), where);
    if (!day) return tl::unexpected(day.error());
  }
  say_fact(writing, lot->id, fact, value);
  return find_lot(writing.workshop(), mark_text(lot->mark));
}

}  // namespace endband::db
