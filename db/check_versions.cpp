// The versions that quotes are made from: each is still what was allowed to be written.
#include "db/check.h"
#include "db/material_rows.h"
#include "db/settings.h"
#include "db/statement.h"
#include "engine/book/operation.h"

namespace endband::db {
namespace {

void check_settings(Findings& findings) {
  Statement select(findings.connection(), "SELECT id, name, value FROM setting_version");
  while (select.step()) {
    std::int64_t id = 0;
    std::string name, value;
    select.read(id, name, value);
    Read<Setting> const setting = read_setting(findings.workshop, name, value);
    if (!setting)
      findings.add("setting_version", id, name + "=" + value, setting.error().front().expected);
    else if (setting->value != value)
      findings.add("setting_version", id, name + "=" + value, name + "=" + setting->value);
  }
}

void check_steps(Findings& findings) {
  Statement select(findings.connection(), "SELECT id, operation FROM step_version");
  while (select.step()) {
    std::int64_t id = 0;
    std::string operation;
    select.read(id, operation);
    if (!operation_named(operation)) findings.add("step_version", id, operation, "an operation");
  }
}

void add_faults(Findings& findings, std::string_view table, std::int64_t row,
                std::vector<Fault> const& faults) {
  for (Fault const& fault : faults)
    findings.add(table, row, fault.where.field + " " + fault.found, fault.expected);
}

void check_materials(Findings& findings) {
  static std::string const sql = "SELECT v.id, first.sold_by, " + material_columns +
                                 " FROM material_version v JOIN material m ON m.id = v.material "
                                 "JOIN material_version first ON first.id = "
                                 "(SELECT min(id) FROM material_version WHERE material = v.material) "
                                 "LEFT JOIN price_version p ON false";
  Statement select(findings.connection(), sql);
  while (select.step()) {
    std::int64_t id = 0;
    try {
      SoldBy first{};
      select.read(id, first);
      Material const material = read_material(select);
      add_faults(findings, "material_version", id, check_material(material, {}));
      if (dimension_of(first) != dimension_of(material.sold_by))
        findings.add("material_version", id, std::string(sold_by_name(material.sold_by)),
                     "sold as its first version is, by " + std::string(sold_by_name(first)));
    } catch (StoreError const& e) {
      findings.add("material_version", id, e.what(), "words that this program knows");
    }
  }
}

// The workshop's price of a pack is what was said at the rate that was said, rounded once.
Money at_rate(PackPrice const& price, Currency currency) {
  Ratio const digits(currency.minor_per_major(), price.said.currency.minor_per_major());
  return {round_product(Ratio(price.said.minor), price.rate * digits, Rounding::half_away), currency};
}

void check_prices(Findings& findings) {
  // Of the properties in force when the price began; of the first ones when it is older than they are.
  static std::string const sql =
      "SELECT p.id, " + material_columns +
      " FROM price_version p JOIN material m ON m.id = p.material JOIN material_version v ON v.id = ifnull("
      "(SELECT id FROM material_version WHERE material = p.material AND valid_from <= p.valid_from "
      "ORDER BY valid_from DESC, id DESC LIMIT 1), "
      "(SELECT id FROM material_version WHERE material = p.material ORDER BY valid_from, id DESC LIMIT 1))";
  Statement select(findings.connection(), sql);
  while (select.step()) {
    auto const id = select.value<std::int64_t>();
    findings.look_at("price_version", std::to_string(id), [&] {
      Material const material = read_material(select);
      add_faults(findings, "price_version", id, check_material(material, {}));
      Money const due = at_rate(*material.price, findings.workshop.currency());
      if (material.price->price != due)
        findings.add("price_version", id, money_text(material.price->price),
                     money_text(due) + ", as said at its rate");
    });
  }
}

}  // namespace

void check_versions(Findings& findings) {
  check_settings(findings);
  check_steps(findings);
  check_materials(findings);
  check_prices(findings);
}

}  // namespace endband::db
