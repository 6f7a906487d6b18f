#include "db/known.h"

#include "db/connection.h"
#include "db/statement.h"

#include <array>

namespace endband::db {
namespace {

// (word, about); what of it begins as asked is chosen around it.
struct KnownRow {
  Known what;
  std::string_view select;
};
constexpr std::array known_table{
    KnownRow{Known::material,
             "SELECT m.code AS word, coalesce((SELECT v.name FROM material_version v WHERE v.material = m.id "
             "ORDER BY v.valid_from DESC, v.id DESC LIMIT 1), '') AS about FROM material m ORDER BY m.code"},
    KnownRow{Known::customer,
             "SELECT c.code AS word, coalesce(a.name, '') AS about FROM customer c "
             "LEFT JOIN customer_address a ON a.customer = c.id ORDER BY c.code"},
    KnownRow{
        Known::service,
        "SELECT DISTINCT code AS word, '' AS about FROM carriage_version WHERE text <> '' ORDER BY code"},
    KnownRow{Known::tax_class,
             "SELECT DISTINCT substr(name, 10) AS word, '' AS about FROM setting_version "
             "WHERE name GLOB 'tax-rate.*' ORDER BY name"},
    KnownRow{Known::quote,
             "SELECT printf('%02d-%03d%s', c.year % 100, c.count, q.issue) AS word, q.title AS about "
             "FROM quote q JOIN commission c ON c.id = q.commission ORDER BY q.id DESC"},
    KnownRow{
        Known::job,
        "SELECT printf('%02d-%03d', c.year % 100, c.count) AS word, coalesce((SELECT q.title "
        "FROM job_agreed a JOIN quote q ON q.id = a.quote WHERE a.job = j.id ORDER BY a.id DESC LIMIT 1), "
        "'') AS about FROM job j JOIN commission c ON c.id = j.commission ORDER BY j.id DESC"},
    KnownRow{
        Known::listing,
        "SELECT CAST(l.id AS TEXT) AS word, l.title || ', ' || l.outlet AS about FROM listing l "
        "WHERE NOT EXISTS (SELECT 1 FROM listing_event e WHERE e.listing = l.id AND e.undoes IS NULL AND "
        "NOT EXISTS (SELECT 1 FROM listing_event u WHERE u.undoes = e.id)) ORDER BY l.id DESC"},
    KnownRow{Known::lot,
             "SELECT l.mark || l.number AS word, m.code AS about FROM lot_state s JOIN lot l ON l.id = s.lot "
             "JOIN material m ON m.id = l.material WHERE s.quantity > 0 ORDER BY l.mark, l.number"},
    KnownRow{Known::outlet, "SELECT DISTINCT code AS word, '' AS about FROM outlet_version ORDER BY code"},
    KnownRow{Known::person,
             "SELECT p.code AS word, p.name AS about FROM person_version p WHERE p.gone = 0 AND p.id = "
             "(SELECT n.id FROM person_version n WHERE n.code = p.code ORDER BY n.valid_from DESC, n.id DESC "
             "LIMIT 1) ORDER BY p.code"},
    KnownRow{Known::place,
             "SELECT p.code AS word, p.name AS about FROM place_version p WHERE p.count > 0 AND p.id = "
             "(SELECT n.id FROM place_version n WHERE n.code = p.code ORDER BY n.valid_from DESC, n.id DESC "
             "LIMIT 1) ORDER BY p.code"},
    KnownRow{Known::gate,
             "SELECT DISTINCT gate AS word, '' AS about FROM job_event WHERE event = 'held' ORDER BY gate"},
    KnownRow{Known::outside, "SELECT DISTINCT words AS word, '' AS about FROM quote_outside ORDER BY words"},
    KnownRow{Known::lot_place,
             "SELECT DISTINCT value AS word, '' AS about FROM lot_fact WHERE fact = 'place' AND value <> '' "
             "ORDER BY value"},
    KnownRow{Known::supplier,
             "SELECT supplier AS word, '' AS about FROM (SELECT supplier FROM price_version UNION "
             "SELECT supplier FROM delivery) WHERE supplier <> '' ORDER BY supplier"},
    KnownRow{Known::setting, "SELECT DISTINCT name AS word, '' AS about FROM setting_version ORDER BY name"},
    KnownRow{Known::entry, "SELECT CAST(seq AS TEXT) AS word, command AS about FROM entry ORDER BY seq DESC"},
};
static_assert(known_table.size() == known_count);

std::string_view select_of(Known what) {
  for (KnownRow const& row : known_table)
    if (row.what == what) return row.select;
  return {};
}

}  // namespace

std::vector<KnownName> known_names(Workshop& workshop, Known what, std::string_view begins) {
  std::string const text = "SELECT word, about FROM (" + std::string(select_of(what)) +
                           ") WHERE substr(word, 1, length(?1)) = ?1 LIMIT 400";
  Statement select(workshop.connection(), text);
  select.bind(begins);
  std::vector<KnownName> names;
  while (select.step()) {
    KnownName& name = names.emplace_back();
    select.read(name.word, name.about);
  }
  return names;
}

}  // namespace endband::db
