// What a job takes off the shelf, and what it gives back.
#include "db/stock_ledger.h"

#include <algorithm>
#include <array>
#include <map>
#include <utility>

namespace endband::db {
namespace {

Where at(std::string_view command, std::string_view field) {
  return {std::string(command), 0, 0, std::string(field)};
}

std::optional<Fault> not_a_quantity(StockItem const& item, Amount quantity, Where const& where) {
  if (quantity.dimension != item.dimension())
    return Fault{
        FaultCode::wrong_unit,
        where,
        amount_text(quantity),
        "a quantity of " + item.code + ", which is sold by " + std::string(sold_by_name(item.sold_by)),
        {}};
  if (quantity.n <= 0)
    return Fault{FaultCode::out_of_range, where, amount_text(quantity), "more than nothing", {}};
  return std::nullopt;
}

std::int64_t customer_of(Connection& connection, std::int64_t job) {
  Statement select(connection,
                   "SELECT q.customer FROM job j JOIN quote q ON q.commission = j.commission WHERE j.id = ? "
                   "ORDER BY q.id DESC LIMIT 1");
  std::int64_t customer = 0;
  if (select.bind(job).step()) select.read(ZeroIsNull{customer});
  return customer;
}

// "2 are set aside for 26-003, 1 for 26-004 (K2)"
std::string who_has_it(Connection& connection, StockItem const& item, std::vector<SetAside> const& aside,
                       std::int64_t job, Date on) {
  std::string text;
  for (SetAside const& each : aside) {
    if (each.job == job) continue;
    text += (text.empty() ? "" : ", ") + amount_text(item.amount(each.quantity)) + " set aside for " +
            job_number(connection, each.job);
    if (each.lot != 0) text += " (" + mark_text(load_lot(connection, LotId{each.lot}, on).mark) + ")";
  }
  return text;
}

// Who took of it last, when nothing is left that anybody could be waiting for.
std::string who_took_it(Connection& connection, StockItem const& item) {
  Statement last(
      connection,
      "SELECT l.mark, l.number, v.job, v.on_date FROM movement v JOIN lot l ON l.id = v.lot WHERE v.material "
      "= ? AND v.job IS NOT NULL AND v.quantity < 0 ORDER BY v.id DESC LIMIT 1");
  if (!last.bind(item.id).step()) return "";
  std::string letter;
  LotMark mark;
  std::int64_t job = 0;
  Date on;
  last.read(letter, mark.number, job, on);
  mark.letter = letter.front();
  return "the last of it, " + mark_text(mark) + ", went to " + job_number(connection, job) + " on " +
         date_text(on);
}

class Taking {
 public:
  Taking(Writing& writing, std::int64_t job, StockItem const& item, Date on)
      : connection_(writing.workshop().connection()),
        job_(job),
        item_(item),
        on_(on),
        open_(open_lots(connection_, item.id, on)),
        aside_(set_aside(connection_, item.id)) {}

  // The lots to take from, in order; together they hold that much and may give it to this job.
  Read<std::vector<Lot>> lots(std::int64_t wanted) {
    Serving found = serving(item_, open_, aside_, job_, wanted, on_);
    if (wanted > found.most) return refuse(too_much(wanted, found));
    return std::move(found.lots);
  }

  Read<std::vector<Lot>> from(Lot const& lot, std::int64_t wanted) {
    if (lot.material != item_.id)
      return refuse({FaultCode::rule_refused,
                     at("job use", "from"),
                     mark_text(lot.mark),
                     "a lot of " + item_.code,
                     {}});
    if (lot.source == LotSource::custody) {
      if (lot.owner != customer_of(connection_, job_))
        return refuse({FaultCode::rule_refused,
                       at("job use", "from"),
                       mark_text(lot.mark),
                       "goods that are not another customer's",
                       {}});
    } else if (lot.job != 0 && lot.job != job_) {
      return refuse({FaultCode::rule_refused,
                     at("job use", "from"),
                     mark_text(lot.mark),
                     "a lot that was not bought for " + job_number(connection_, lot.job),
                     {}});
    }
    Serving found = serving(item_, open_, aside_, job_, wanted, on_);
    std::int64_t of_lot = lot.quantity;
    for (SetAside const& each : aside_)
      if (each.lot == lot.id.value && each.job != job_) of_lot -= each.quantity;
    bool const serves = std::ranges::any_of(found.lots, [&](Lot const& each) { return each.id == lot.id; });
    found.there = lot.quantity;
    found.most = serves ? std::min(found.most, of_lot) : of_lot;
    if (wanted > found.most) return refuse(too_much(wanted, found));
    return std::vector<Lot>{lot};
  }

  // The job's own reservation goes down by what it took: of those lots first, then of the material.
  void lower_reservation(Writing& writing, std::vector<Posting> const& postings) {
    for (Posting const& posting : postings) {
      std::int64_t left = posting.quantity;
      for (std::int64_t const lot : {posting.lot.value, std::int64_t{0}}) left -= lower(writing, lot, left);
    }
  }

 private:
  std::int64_t lower(Writing& writing, std::int64_t lot, std::int64_t by) {
    for (SetAside& each : aside_) {
      if (each.job != job_ || each.lot != lot) continue;
      std::int64_t const down = std::min(each.quantity, by);
      if (down > 0) change_reservation(writing, job_, item_.id, lot, -down);
      each.quantity -= down;
      return down;
    }
    return 0;
  }

  Fault too_much(std::int64_t wanted, Serving const& found) const {
    std::string expected =
        found.most <= 0 ? "nothing is free" : "at most " + amount_text(item_.amount(found.most));
    expected += ": " + amount_text(item_.amount(found.there)) + " there";
    if (std::string const who = who_has_it(connection_, item_, aside_, job_, on_); !who.empty())
      expected += ", " + who;
    for (Lot const& lot : open_)
      if (lot.whole_goods() && lot.job != 0 && lot.job != job_ && !is_set_aside(lot))
        expected += ", " + mark_text(lot.mark) + " bought for " + job_number(connection_, lot.job);
    if (found.there == 0)
      if (std::string const who = who_took_it(connection_, item_); !who.empty()) expected += "; " + who;
    return {FaultCode::rule_refused, at("job use", "quantity"), amount_text(item_.amount(wanted)),
            std::move(expected), named_only()};
  }

  bool is_set_aside(Lot const& lot) const {
    return std::ranges::any_of(aside_, [&](SetAside const& each) { return each.lot == lot.id.value; });
  }

  // What may be taken when it is named: offcuts, and goods past their day.
  std::vector<std::string> named_only() const {
    std::vector<std::string> marks;
    for (Lot const& lot : open_)
      if (lot.source == LotSource::kept || (lot.whole_goods() && !lot.good_on(on_)))
        marks.push_back(mark_text(lot.mark));
    return marks;
  }

  Connection& connection_;
  std::int64_t job_;
  StockItem const& item_;
  Date on_;
  std::vector<Lot> open_;
  std::vector<SetAside> aside_;
};

// What a job holds, newest first; used goods before what was cut away or spoiled.
struct HeldOf {
  MovementKind kind = MovementKind::used;
  std::vector<Held> held;
};
std::array<HeldOf, 3> held_by(Connection& connection, std::int64_t job, MaterialId material,
                              std::int64_t lot) {
  std::array<HeldOf, 3> all{HeldOf{MovementKind::used, {}}, HeldOf{MovementKind::cut_away, {}},
                            HeldOf{MovementKind::spoiled, {}}};
  constexpr std::string_view sql =
      "SELECT lot, -sum(quantity), -sum(value) FROM movement WHERE job = ?1 AND material = ?2 AND kind = ?3 "
      "AND (?4 IS NULL OR lot = ?4) GROUP BY lot HAVING sum(quantity) < 0 ORDER BY max(id) DESC";
  for (HeldOf& each : all) {
    Statement select(connection, sql);
    select.bind(job, material, each.kind, ZeroIsNull{lot});
    while (select.step()) {
      Held& held = each.held.emplace_back();
      select.read(held.lot.value, held.quantity, held.value);
    }
  }
  return all;
}

}  // namespace

Read<std::vector<Posting>> take_for_job(Writing& writing, std::int64_t job, std::string_view code,
                                        std::string_view mark, Amount quantity, MovementKind kind, Date on,
                                        std::string_view reason) {
  Workshop& workshop = writing.workshop();
  Where const where = at("job use", "quantity");
  Read<StockItem> const item = find_item(workshop, code, at("job use", "code"));
  if (!item) return tl::unexpected(item.error());
  if (auto fault = not_a_quantity(*item, quantity, where)) return refuse(*std::move(fault));
  if (job_ended(workshop.connection(), job))
    return refuse({FaultCode::rule_refused,
                   at("job use", "job"),
                   job_number(workshop.connection(), job),
                   "a job that has not ended",
                   {}});
  Taking taking(writing, job, *item, on);
  Read<std::vector<Lot>> lots = std::vector<Lot>{};
  if (mark.empty()) {
    lots = taking.lots(quantity.n);
  } else {
    Read<Lot> const lot = lot_named(workshop, mark, on, at("job use", "from"));
    if (!lot) return tl::unexpected(lot.error());
    lots = taking.from(*lot, quantity.n);
  }
  if (!lots) return tl::unexpected(lots.error());
  Read<std::vector<Posting>> postings = take_out(writing, *lots, quantity.n, {kind, on, job, reason}, where);
  if (postings) taking.lower_reservation(writing, *postings);
  return postings;
}

Read<std::vector<Posting>> give_back_from_job(Writing& writing, std::int64_t job, std::string_view code,
                                              std::string_view mark, Amount quantity, Date on) {
  Workshop& workshop = writing.workshop();
  Connection& connection = workshop.connection();
  Where const where = at("job return", "quantity");
  Read<StockItem> const item = find_item(workshop, code, at("job return", "code"));
  if (!item) return tl::unexpected(item.error());
  if (auto fault = not_a_quantity(*item, quantity, where)) return refuse(*std::move(fault));
  if (job_ended(connection, job))
    return refuse({FaultCode::rule_refused,
                   at("job return", "job"),
                   job_number(connection, job),
                   "a job that has not ended",
                   {}});
  LotId named;
  if (!mark.empty()) {
    Read<Lot> const lot = lot_named(workshop, mark, on, at("job return", "from"));
    if (!lot) return tl::unexpected(lot.error());
    named = lot->id;
  }
  std::array<HeldOf, 3> const all = held_by(connection, job, item->id, named.value);
  std::map<LotId, std::int64_t> kept = kept_from(connection, job, item->id);
  std::int64_t left = quantity.n, most = 0;
  std::vector<std::pair<MovementKind, Posting>> back;
  for (HeldOf const& of : all) {
    for (Held held : of.held) {
      // What was kept as an offcut is on the shelf already: it was cut from the rest of what the job holds of
      // the lot.
      std::int64_t& gone = kept[held.lot];
      std::int64_t const free = std::max<std::int64_t>(0, held.quantity - gone);
      gone = std::max<std::int64_t>(0, gone - held.quantity);
      most += free;
      std::int64_t const given = std::min(free, left);
      for (Posting const& posting : give_back({&held, 1}, given)) back.emplace_back(of.kind, posting);
      left -= given;
    }
  }
  if (left > 0)
    return refuse({FaultCode::rule_refused,
                   where,
                   amount_text(quantity),
                   most == 0 ? "nothing: the job holds none"
                             : "at most " + amount_text(item->amount(most)) + ", which the job holds",
                   {}});
  Pool const pool = load_pool(connection, item->id);
  std::vector<Posting> postings;
  for (auto const& [kind, posting] : back) {
    Lot const lot = load_lot(connection, posting.lot, on);
    if (auto fault = too_early(lot, pool, on, where)) return refuse(*std::move(fault));
    post_in(writing, lot, posting.quantity, posting.value, {kind, on, job, ""});
    postings.push_back(posting);
  }
  return postings;
}

}  // namespace endband::db
