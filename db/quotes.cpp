#include "db/quotes.h"

#include "db/codes.h"
#include "db/customers.h"
#include "db/frozen.h"
#include "db/standing.h"
#include "db/statement.h"

#include <array>
#include <charconv>
#include <chrono>
#include <cstdio>
#include <stdexcept>
#include <utility>

namespace endband::db {
namespace {

constexpr std::string_view header_text =
    "SELECT q.id, c.year, c.count, q.issue, k.code, a.name, q.title, q.binding, q.on_date, q.valid_until, "
    "o.total, "
    "o.money_left, q.rules FROM quote q JOIN commission c ON c.id = q.commission JOIN quote_offer o ON "
    "o.quote = q.id "
    "LEFT JOIN customer k ON k.id = q.customer LEFT JOIN customer_address a ON a.customer = k.id ";

QuoteHeader read_header(Statement& select) {
  QuoteHeader header;
  std::string issue;
  select.read(header.id, header.number.year, header.number.count, issue, header.customer,
              header.customer_name, header.title, header.binding, header.on, header.valid_until, header.total,
              header.left, header.rules);
  header.number.issue = issue.front();
  return header;
}

// The latest issue of each commission that the number may mean; one that was taken back only when nothing
// else is there.
std::vector<QuoteHeader> candidates(Connection& connection, AskedNumber const& asked) {
  static std::string const sql = std::string(header_text) + "WHERE q.commission IN " +
                                 std::string(asked_commissions) +
                                 " AND (q.issue = ?3 "
                                 "OR ?3 IS NULL AND q.issue = (SELECT ifnull(max(issue) FILTER (WHERE " +
                                 std::string(not_withdrawn) +
                                 "), max(issue)) FROM quote q WHERE q.commission = c.id)) ORDER BY q.id DESC";
  std::optional<std::string> issue;
  if (asked.issue) issue = std::string(1, *asked.issue);
  Statement select(connection, sql);
  select.bind(asked.count, asked.year_of_century, issue);
  std::vector<QuoteHeader> found;
  while (select.step()) found.push_back(read_header(select));
  return found;
}

Fault not_found(Workshop& workshop, std::string_view number, std::vector<QuoteHeader> const& several) {
  Fault fault{FaultCode::unknown_code,
              {"", 0, 0, "quote"},
              std::string(number),
              "a quote's number, such as 26-014a",
              {}};
  if (!several.empty()) {
    fault.expected = "a number with its year";
    for (QuoteHeader const& header : several) fault.near.push_back(number_text(header.number));
    return fault;
  }
  constexpr int remembered = 200;
  std::vector<std::string> known;
  for (QuoteHeader const& header : list_quotes(workshop, std::nullopt, remembered))
    known.push_back(number_text(header.number));
  fault.near = near_codes(number, known);
  return fault;
}

std::int64_t new_commission(Writing& writing, int year) {
  Statement insert(writing.workshop().connection(),
                   "INSERT INTO commission (year, count, entry) "
                   "SELECT ?1, ifnull(max(count), 0) + 1, ?2 FROM commission WHERE year = ?1");
  return insert.bind(year, writing.entry()).insert();
}

Read<std::int64_t> customer_id(Workshop& workshop, std::string_view code) {  // 0: nobody
  if (code.empty()) return 0;
  Read<Customer> const customer = find_customer(workshop, code);
  if (!customer) return tl::unexpected(customer.error());
  return customer->id;
}

}  // namespace

std::string number_text(QuoteNumber number) {
  std::array<char, 32> text{};
  std::snprintf(text.data(), text.size(), "%02d-%03d%c", number.year % 100, number.count, number.issue);
  return text.data();
}

std::optional<AskedNumber> read_number(std::string_view text) {
  auto const whole = [](std::string_view digits) -> std::optional<int> {
    int value = 0;
    auto const [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (error != std::errc() || end != digits.data() + digits.size() || value < 0) return std::nullopt;
    return value;
  };
  AskedNumber asked;
  if (!text.empty() && text.back() >= 'a' && text.back() <= 'z') {
    asked.issue = text.back();
    text.remove_suffix(1);
  }
  if (std::size_t const dash = text.find('-'); dash != std::string_view::npos) {
    asked.year_of_century = whole(text.substr(0, dash));
    if (dash != 2 || !asked.year_of_century) return std::nullopt;
    text.remove_prefix(dash + 1);
  }
  std::optional<int> const count = whole(text);
  if (!count) return std::nullopt;
  asked.count = *count;
  return asked;
}

QuoteHeader load_header(Workshop& workshop, std::int64_t id) {
  static std::string const sql = std::string(header_text) + "WHERE q.id = ?";
  Statement select(workshop.connection(), sql);
  if (!select.bind(id).step()) throw std::out_of_range("no quote " + std::to_string(id));
  return read_header(select);
}

Read<QuoteHeader> save_quote(Writing& writing, std::string_view customer, Date valid_until,
                             FrozenQuote const& quote) {
  Workshop& workshop = writing.workshop();
  Read<std::int64_t> const buyer = customer_id(workshop, customer);
  if (!buyer) return tl::unexpected(buyer.error());
  std::chrono::year_month_day const day(quote.on);
  QuoteIdentity const identity{0, 0, "a", *buyer, valid_until, writing.entry()};
  std::int64_t const commission = new_commission(writing, int{day.year()});
  return load_header(workshop, save_frozen(workshop.connection(), commission, identity, quote));
}

std::vector<QuoteHeader> list_quotes(Workshop& workshop, std::optional<std::string> customer, int last) {
  static std::string const all = std::string(header_text) + "ORDER BY q.id DESC LIMIT ?";
  static std::string const of_one = std::string(header_text) +
                                    "WHERE q.customer = (SELECT id FROM customer WHERE code = ?) "
                                    "ORDER BY q.id DESC LIMIT ?";
  Statement select(workshop.connection(), customer ? of_one : all);
  if (customer) select.bind(*customer);
  select.bind(last);
  std::vector<QuoteHeader> quotes;
  while (select.step()) quotes.push_back(read_header(select));
  return quotes;
}

std::vector<QuoteHeader> quotes_valid_on(Workshop& workshop, Date on) {
  static std::string const sql = std::string(header_text) + "WHERE q.valid_until >= ?1 ORDER BY q.id DESC";
  Statement select(workshop.connection(), sql);
  select.bind(on);
  std::vector<QuoteHeader> found;
  while (select.step()) found.push_back(read_header(select));
  return found;
}

Read<QuoteHeader> find_quote(Workshop& workshop, std::string_view number) {
  std::vector<QuoteHeader> found;
  if (std::optional<AskedNumber> const asked = read_number(number))
    found = candidates(workshop.connection(), *asked);
  if (found.size() == 1) return std::move(found.front());
  return refuse(not_found(workshop, number, found));
}

std::optional<QuoteHeader> same_quote(Writing& writing, std::string_view customer, FrozenQuote const& quote) {
  static std::string const sql =
      "SELECT q.id FROM quote q LEFT JOIN customer c ON c.id = q.customer WHERE q.on_date = ?1 AND "
      "ifnull(c.code, '') = ?2 AND q.description = ?3 AND q.entry < ?4 AND " +
      std::string(not_withdrawn) + " ORDER BY q.id LIMIT 1";
  Statement select(writing.workshop().connection(), sql);
  if (!select.bind(quote.on, customer, quote.description, writing.entry()).step()) return std::nullopt;
  return load_header(writing.workshop(), select.value<std::int64_t>());
}

FrozenQuote load_quote(Workshop& workshop, std::int64_t id) { return load_frozen(workshop.connection(), id); }

}  // namespace endband::db
