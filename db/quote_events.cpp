#include "db/frozen.h"
#include "db/job_rows.h"
#include "db/statement.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <utility>

namespace endband::db {
namespace {

constexpr std::array<std::string_view, 7> state_names{"open",   "sent",    "accepted", "declined",
                                                      "lapsed", "revised", "withdrawn"};

QuoteState state_after(std::string_view event) {
  for (QuoteState const state : {QuoteState::sent, QuoteState::accepted, QuoteState::declined,
                                 QuoteState::revised, QuoteState::withdrawn})
    if (quote_state_name(state) == event) return state;
  throw StoreError(FaultCode::not_a_workshop, "unknown word: " + std::string(event));
}

// What stands by the events alone.
struct Standing {
  QuoteState state = QuoteState::open;
  std::optional<Date> on;
};
Standing standing_of(Connection& connection, std::int64_t quote) {
  static std::string const sql = "SELECT event, on_date FROM quote_event e WHERE quote = ? AND " +
                                 standing("quote_event", "e") + " ORDER BY id DESC LIMIT 1";
  Statement select(connection, sql);
  if (!select.bind(quote).step()) return {};
  std::string event;
  Date on;
  select.read(event, on);
  return {state_after(event), on};
}

bool waits(QuoteState state) { return state == QuoteState::open || state == QuoteState::sent; }

Fault refused(std::string_view verb, QuoteHeader const& quote, std::string reason) {
  return {FaultCode::rule_refused,
          {"quote " + std::string(verb), 0, 0, "quote"},
          number_text(quote.number),
          std::move(reason),
          {}};
}

std::string latest_issue(Connection& connection, QuoteHeader const& quote) {
  static std::string const sql =
      "SELECT max(issue) FROM quote q WHERE commission = (SELECT commission FROM quote WHERE id = ?) AND " +
      std::string(not_withdrawn);
  Statement select(connection, sql);
  select.bind(quote.id).step();
  QuoteNumber number = quote.number;
  number.issue = select.value<std::string>().at(0);
  return number_text(number);
}

// Why a quote in this state stays in it; empty: it may move on.
std::string reason_to_stay(Connection& connection, QuoteHeader const& quote, Standing const& is) {
  std::string const day = is.on ? date_text(*is.on) : "";
  switch (is.state) {
    case QuoteState::accepted: return "it was accepted on " + day + " and is job " + job_number(quote.number);
    case QuoteState::declined: return "it was declined on " + day;
    case QuoteState::revised:
      return "it was revised on " + day + "; what holds is " + latest_issue(connection, quote);
    case QuoteState::withdrawn: return "it was taken back on " + day;
    default: return "";
  }
}

std::string lapsed_reason(QuoteHeader const& quote) {
  return "it held until " + date_text(quote.valid_until) + "; endband quote revise " +
         number_text(quote.number) + " FILE prices it anew";
}

std::optional<Fault> before_its_day(std::string_view verb, QuoteHeader const& quote, Date on) {
  if (on >= quote.on) return std::nullopt;
  return refused(verb, quote, "it is of " + date_text(quote.on) + ", after " + date_text(on));
}

std::optional<Fault> not_acceptable(Connection& connection, QuoteHeader const& quote, Date on) {
  if (auto fault = before_its_day("accept", quote, on)) return fault;
  Standing const is = standing_of(connection, quote.id);
  if (is.state == QuoteState::accepted)
    return refused("accept", quote, reason_to_stay(connection, quote, is));
  if (standing_job(connection, commission_of(connection, quote.id))) {
    std::string const job = job_number(quote.number);
    return refused(
        "accept", quote,
        "another issue was accepted and is job " + job + "; endband job vary " + job + " FILE changes that");
  }
  if (is.state == QuoteState::revised || is.state == QuoteState::withdrawn)
    return refused("accept", quote, reason_to_stay(connection, quote, is));
  if (on > quote.valid_until) return refused("accept", quote, lapsed_reason(quote));
  return std::nullopt;
}

// The job of a commission whose acceptance was taken back is taken up again.
std::int64_t job_of(Writing& writing, std::int64_t commission, Date on) {
  Connection& connection = writing.workshop().connection();
  Statement select(connection, "SELECT id FROM job WHERE commission = ?");
  if (select.bind(commission).step()) return select.value<std::int64_t>();
  Statement insert(connection, "INSERT INTO job (commission, on_date, entry) VALUES (?, ?, ?)");
  return insert.bind(commission, on, writing.entry()).insert();
}

std::int64_t held_of(std::vector<Holding> const& held, MaterialId material) {
  auto const found =
      std::find_if(held.begin(), held.end(), [&](Holding const& each) { return each.material == material; });
  return found == held.end() ? 0 : found->quantity();
}

bool is_skin(FrozenQuote const& quote, MaterialId id) {
  return std::any_of(quote.materials.begin(), quote.materials.end(), [&](Material const& material) {
    return material.id == id && material.sold_by == SoldBy::skin;
  });
}

}  // namespace

std::string_view quote_state_name(QuoteState state) {
  return state_names.at(static_cast<std::size_t>(state));
}

QuoteState quote_state(Workshop& workshop, std::int64_t quote, Date valid_until, Date on) {
  QuoteState const state = standing_of(workshop.connection(), quote).state;
  return waits(state) && on > valid_until ? QuoteState::lapsed : state;
}

std::vector<QuoteEvent> quote_events(Workshop& workshop, std::int64_t quote) {
  static std::string const sql = "SELECT event, on_date, words FROM quote_event e WHERE quote = ? AND " +
                                 standing("quote_event", "e") + " ORDER BY id";
  Statement select(workshop.connection(), sql);
  select.bind(quote);
  std::vector<QuoteEvent> events;
  while (select.step()) {
    QuoteEvent& event = events.emplace_back();
    select.read(event.event, event.on, event.words);
  }
  return events;
}

std::int64_t add_quote_event(Writing& writing, std::int64_t quote, std::string_view event, Date on,
                             std::string_view words) {
  Statement insert(writing.workshop().connection(),
                   "INSERT INTO quote_event (quote, event, on_date, words, entry) VALUES (?, ?, ?, ?, ?)");
  return insert.bind(quote, event, on, words, writing.entry()).insert();
}

Read<std::int64_t> quote_send(Writing& writing, QuoteHeader const& quote, Date on, std::string_view words) {
  Connection& connection = writing.workshop().connection();
  if (auto fault = before_its_day("send", quote, on)) return refuse(*std::move(fault));
  Standing const is = standing_of(connection, quote.id);
  if (std::string reason = reason_to_stay(connection, quote, is); !reason.empty())
    return refuse(refused("send", quote, std::move(reason)));
  if (on > quote.valid_until) return refuse(refused("send", quote, lapsed_reason(quote)));
  return add_quote_event(writing, quote.id, "sent", on, words);
}

Read<std::int64_t> quote_decline(Writing& writing, QuoteHeader const& quote, Date on,
                                 std::string_view words) {
  Connection& connection = writing.workshop().connection();
  if (auto fault = before_its_day("decline", quote, on)) return refuse(*std::move(fault));
  Standing const is = standing_of(connection, quote.id);
  std::string reason = reason_to_stay(connection, quote, is);
  if (is.state == QuoteState::accepted)
    reason += "; endband job cancel " + job_number(quote.number) + " calls it off";
  if (!reason.empty()) return refuse(refused("decline", quote, std::move(reason)));
  return add_quote_event(writing, quote.id, "declined", on, words);
}

Read<std::vector<Reserved>> reserve_bill(Writing& writing, std::int64_t job, FrozenQuote const& quote,
                                         std::vector<Holding> const& held, Date on) {
  std::vector<Reserved> reserved;
  for (BillLine const& line : quote.bill.lines) {
    if (line.customer_supplied) continue;
    bool const skin = is_skin(quote, line.material);
    Amount const all = skin ? line.consumed() : needed(line);
    Amount const wanted = {all.dimension, all.n - held_of(held, line.material)};
    if (wanted.n <= 0) continue;
    // What the job has already taken of skins leaves so many of them to be taken.
    std::int64_t const items =
        skin ? mul_div(std::max<std::int64_t>(line.units_opened, 1), wanted.n, all.n, Rounding::up) : 0;
    Read<Reserved> set_aside = reserve(writing, job, line.material, wanted, items, on);
    if (!set_aside) return tl::unexpected(std::move(set_aside.error()));
    reserved.push_back(std::move(*set_aside));
  }
  return reserved;
}

Read<AcceptedJob> quote_accept(Writing& writing, QuoteHeader const& quote, Date on,
                               std::optional<Date> needed_on) {
  Workshop& workshop = writing.workshop();
  if (auto fault = not_acceptable(workshop.connection(), quote, on)) return refuse(*std::move(fault));
  if (needed_on && *needed_on < on)
    return refuse({FaultCode::out_of_range,
                   {"quote accept", 0, 0, "--needed-on"},
                   date_text(*needed_on),
                   date_text(on) + ", the day of the acceptance, or later",
                   {}});
  FrozenQuote const frozen = load_quote(workshop, quote.id);
  AcceptedJob accepted;
  accepted.job = job_of(writing, commission_of(workshop.connection(), quote.id), on);
  accepted.number = job_number(quote.number);
  accepted.deposit = frozen.offer.deposit;
  add_quote_event(writing, quote.id, "accepted", on, "");
  add_agreed(writing, {.job = accepted.job,
                       .quote = quote.id,
                       .on = on,
                       .price = frozen.offer.goods,
                       .to_pay = frozen.offer.total,
                       .deposit = frozen.offer.deposit,
                       .thrown_away = {0, workshop.currency()},
                       .needed_on = needed_on,
                       .words = ""});
  auto reserved = reserve_bill(writing, accepted.job, frozen, {}, on);
  if (!reserved) return tl::unexpected(std::move(reserved.error()));
  accepted.reserved = std::move(*reserved);
  return accepted;
}

Read<QuoteHeader> save_issue(Writing& writing, QuoteHeader const& of, Date valid_until,
                             FrozenQuote const& quote) {
  Workshop& workshop = writing.workshop();
  Connection& connection = workshop.connection();
  std::int64_t const commission = commission_of(connection, of.id);
  Statement issues(connection, "SELECT id, issue FROM quote WHERE commission = ? ORDER BY issue");
  issues.bind(commission);
  std::vector<std::int64_t> earlier;
  std::string last;
  while (issues.step()) issues.read(earlier.emplace_back(), last);
  if (last == "z")
    return refuse(refused("revise", of, "the commission has issues a to z; make it a quote of its own"));
  QuoteIdentity identity = load_identity(connection, of.id);
  identity.issue = std::string(1, static_cast<char>(last.at(0) + 1));
  identity.valid_until = valid_until;
  identity.entry = writing.entry();
  std::int64_t const id = save_frozen(connection, commission, identity, quote);
  for (std::int64_t const issue : earlier) {
    QuoteState const state = standing_of(connection, issue).state;
    if (state != QuoteState::accepted && state != QuoteState::revised && state != QuoteState::withdrawn)
      add_quote_event(writing, issue, "revised", quote.on, "");
  }
  return load_header(workshop, id);
}

}  // namespace endband::db
