// Outlets and carriage services whose texts read, and listings whose days and prices are in order.
#include "db/check.h"
#include "db/outlets.h"
#include "db/statement.h"
#include "engine/pricing/terms_text.h"

namespace endband::db {
namespace {

void check_texts(Findings& findings, std::string_view table, auto const& read_text) {
  Statement select(findings.connection(),
                   "SELECT id, code, text FROM " + std::string(table) + " WHERE text <> ''");
  while (select.step()) {
    std::int64_t id = 0;
    std::string code, text;
    select.read(id, code, text);
    auto const read = read_text(text, code);
    if (read) continue;
    for (Fault const& fault : read.error())
      findings.add(table, id, fault.where.field + " " + fault.found, fault.expected);
  }
}

// A quote's outlet is of the version that it names.
void check_quoted(Findings& findings) {
  Statement select(
      findings.connection(),
      "SELECT q.quote, q.code FROM quote_outlet q JOIN outlet_version v ON v.id = q.version "
      "WHERE v.code <> q.code OR v.text = '' UNION ALL "
      "SELECT p.quote, p.service FROM quote_parcel p JOIN carriage_version v ON v.id = p.version "
      "WHERE v.code <> p.service OR v.text = ''");
  while (select.step()) {
    std::int64_t quote = 0;
    std::string code;
    select.read(quote, code);
    findings.add("quote", std::to_string(quote), "names a version of another than " + code,
                 "a version of its own");
  }
}

void check_listings(Findings& findings) {
  Statement prices(
      findings.connection(),
      "SELECT l.id FROM listing l WHERE NOT EXISTS (SELECT 1 FROM listing_price p WHERE p.listing = l.id)");
  while (prices.step())
    findings.add("listing", prices.value<std::int64_t>(), "has no price", "the price it was posted at");
  Statement days(findings.connection(),
                 "SELECT 'listing_price', p.id FROM listing_price p JOIN listing l ON l.id = p.listing "
                 "WHERE p.on_date < l.on_date AND p.undoes IS NULL UNION ALL "
                 "SELECT 'listing_event', e.id FROM listing_event e JOIN listing l ON l.id = e.listing "
                 "WHERE e.on_date < l.on_date AND e.undoes IS NULL");
  while (days.step()) {
    std::string table;
    std::int64_t id = 0;
    days.read(table, id);
    findings.add(table, id, "is older than its listing", "the day of its posting or later");
  }
}

}  // namespace

void check_selling(Findings& findings) {
  Currency const currency = findings.workshop.currency();
  check_texts(findings, "outlet_version", [&](std::string const& text, std::string const& code) {
    return read_outlet(text, "outlet " + code, code, currency);
  });
  check_texts(findings, "carriage_version", [&](std::string const& text, std::string const& code) {
    return read_carriage(text, "carriage " + code, code, currency);
  });
  check_quoted(findings);
  check_listings(findings);
}

}  // namespace endband::db
