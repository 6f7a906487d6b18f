#include "db/listings.h"

#include "db/job_rows.h"
#include "db/statement.h"

#include <algorithm>
#include <utility>

namespace endband::db {
namespace {

struct Ticket {
  Money price;
  Date since;
};

// The changes of a listing's ticket by day; of one day the last said.
std::vector<Ticket> tickets_of(Connection& connection, std::int64_t listing, Date until) {
  static std::string const sql =
      "SELECT currency, ticket, on_date FROM listing_price p WHERE listing = ? AND "
      "on_date <= ? AND " +
      standing("listing_price", "p") + " ORDER BY on_date, id";
  Statement select(connection, sql);
  select.bind(listing, until);
  std::vector<Ticket> tickets;
  while (select.step()) {
    Ticket ticket;
    select.read(ticket.price.currency, ticket.price.minor, ticket.since);
    if (!tickets.empty() && tickets.back().since == ticket.since) tickets.pop_back();
    tickets.push_back(ticket);
  }
  return tickets;
}

void load_end(Connection& connection, Listing& listing, Date on) {
  static std::string const sql =
      "SELECT event, on_date FROM listing_event e WHERE listing = ? AND on_date <= ? AND " +
      standing("listing_event", "e") + " ORDER BY id DESC LIMIT 1";
  Statement select(connection, sql);
  if (select.bind(listing.id, on).step()) select.read(listing.ended, listing.ended_on.emplace());
}

void add_ticket(Writing& writing, std::int64_t listing, Money ticket, Date on, std::string_view words) {
  Statement insert(writing.workshop().connection(),
                   "INSERT INTO listing_price (listing, on_date, currency, ticket, words, entry) VALUES "
                   "(?, ?, ?, ?, ?, ?)");
  insert.bind(listing, on, ticket.currency, ticket.minor, words, writing.entry()).run();
}

void save_shares(Connection& connection, std::int64_t listing, std::vector<Money> const& shares) {
  Statement insert(connection, "INSERT INTO listing_share (listing, part, amount) VALUES (?, ?, ?)");
  for (std::size_t part = 0; part < shares.size(); ++part)
    if (shares[part].minor != 0) insert.bind(listing, static_cast<Part>(part), shares[part]).run();
}

std::vector<Money> load_shares(Connection& connection, std::int64_t listing) {
  Statement select(connection, "SELECT part, amount FROM listing_share WHERE listing = ?");
  select.bind(listing);
  std::vector<Money> shares(part_count, Money{0, connection.currency});
  while (select.step()) {
    Part part{};
    Money amount;
    select.read(part, amount);
    shares.at(static_cast<std::size_t>(part)) = amount;
  }
  return shares;
}

Fault refused(Listing const& listing, std::string reason) {
  return {FaultCode::rule_refused,
          {"listing", 0, 0, "NUMBER"},
          std::to_string(listing.id),
          std::move(reason),
          {}};
}

std::optional<Fault> not_there(Listing const& listing, Date on) {
  if (listing.ended_on)
    return refused(listing, "one that stands; it ended on " + date_text(*listing.ended_on));
  if (on < listing.ticket_since)
    return refused(listing, "the day of its last change or later: " + date_text(listing.ticket_since));
  return std::nullopt;
}

}  // namespace

std::int64_t post_listing(Writing& writing, NewListing const& listing, Date on) {
  Statement insert(
      writing.workshop().connection(),
      "INSERT INTO listing (outlet, job, title, on_date, cost, labour, standing, outside, carriage, pieces, "
      "seconds_num, seconds_den, entry) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  ListedCost const& cost = listing.cost;
  std::int64_t const id =
      insert
          .bind(listing.outlet, listing.job, listing.title, on, cost.total, cost.labour, cost.standing,
                cost.outside, cost.carriage, cost.pieces, cost.seconds, writing.entry())
          .insert();
  save_shares(writing.workshop().connection(), id, cost.part_shares);
  add_ticket(writing, id, listing.ticket, on, "");
  return id;
}

Read<std::int64_t> set_ticket(Writing& writing, Listing const& listing, Money ticket, Date on,
                              std::string_view words) {
  if (auto fault = not_there(listing, on)) return refuse(*std::move(fault));
  add_ticket(writing, listing.id, ticket, on, words);
  return listing.id;
}

Read<std::int64_t> end_listing(Writing& writing, Listing const& listing, std::string_view how, Date on,
                               std::string_view words) {
  if (auto fault = not_there(listing, on)) return refuse(*std::move(fault));
  Statement insert(
      writing.workshop().connection(),
      "INSERT INTO listing_event (listing, event, on_date, words, entry) VALUES (?, ?, ?, ?, ?)");
  insert.bind(listing.id, how, on, words, writing.entry()).run();
  return listing.id;
}

std::vector<Listing> list_listings(Workshop& workshop, Date on, bool ended_too) {
  Connection& connection = workshop.connection();
  Statement select(
      connection,
      "SELECT l.id, l.outlet, iif(l.job IS NULL, '', printf('%02d-%03d', c.year % 100, c.count)), l.title, "
      "l.on_date, l.cost, l.labour, l.standing, l.outside, l.carriage, l.pieces, l.seconds_num, "
      "l.seconds_den "
      "FROM listing l LEFT JOIN job j ON j.id = l.job LEFT JOIN commission c ON c.id = j.commission "
      "WHERE l.on_date <= ? ORDER BY l.id");
  select.bind(on);
  std::vector<Listing> all;
  while (select.step()) {
    Listing listing;
    ListedCost& cost = listing.cost;
    select.read(listing.id, listing.outlet, listing.job, listing.title, listing.since, cost.total,
                cost.labour, cost.standing, cost.outside, cost.carriage, cost.pieces, cost.seconds);
    load_end(connection, listing, on);
    if (listing.ended == "withdrawn" || (listing.ended_on && !ended_too)) continue;
    std::vector<Ticket> const tickets = tickets_of(connection, listing.id, on);
    if (tickets.empty()) continue;
    cost.part_shares = load_shares(connection, listing.id);
    listing.ticket = tickets.back().price;
    listing.ticket_since = tickets.back().since;
    all.push_back(std::move(listing));
  }
  return all;
}

Read<Listing> find_listing(Workshop& workshop, std::int64_t number, Date on) {
  for (Listing& listing : list_listings(workshop, on, true))
    if (listing.id == number) return std::move(listing);
  return refuse({FaultCode::unknown_code,
                 {},
                 std::to_string(number),
                 "the number of a listing; endband listing list --ended shows them",
                 {}});
}

std::optional<Money> lowest_ticket(Workshop& workshop, Listing const& listing, Date from, Date until) {
  std::vector<Ticket> const tickets =
      tickets_of(workshop.connection(), listing.id, until - std::chrono::days{1});
  std::optional<Money> lowest;
  for (std::size_t i = 0; i < tickets.size(); ++i) {
    bool const over_by_then = i + 1 < tickets.size() && tickets[i + 1].since <= from;
    if (!over_by_then && (!lowest || tickets[i].price < *lowest)) lowest = tickets[i].price;
  }
  return lowest;
}

}  // namespace endband::db
