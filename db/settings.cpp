// Settings as dated versions of named values.
#include "db/settings.h"

#include "db/setting_value.h"
#include "db/statement.h"
#include "db/stock.h"
#include "engine/money/numeral.h"

#include <utility>

namespace endband::db {

Read<Setting> read_setting(Workshop& workshop, std::string_view name, std::string_view value) {
  Where const where{"workshop set", 0, 0, std::string(name)};
  SettingRow const* row = setting_row(name);
  if (row == nullptr) {
    std::vector<std::string_view> known;
    for (SettingRow const& each : setting_table()) known.push_back(each.name);
    return refuse({FaultCode::unknown_code, where, std::string(name), "a setting", nearest(name, known)});
  }
  if (auto fault = fault_of_member(*row, name, where)) return refuse(*std::move(fault));
  value = trimmed(value);
  Setting setting{std::string(name), std::string(value), {}, 0};
  if (row->name == "default.*") {
    Read<Value> const read = default_value(name.substr(name.find('.') + 1), value, where);
    // An empty value takes a default back, whatever its type; the key must be one that there is.
    if (!read && (!value.empty() || read.error().front().code == FaultCode::unknown_key))
      return tl::unexpected(read.error());
    return setting;
  }
  if (value.empty()) return setting;
  Read<std::string> canonical = canonical_value(*row, value, workshop.currency(), where);
  if (!canonical) return tl::unexpected(canonical.error());
  setting.value = *std::move(canonical);
  return setting;
}

Read<Setting> check_setting(Workshop& workshop, std::string_view name, std::string_view value) {
  Read<Setting> setting = read_setting(workshop, name, value);
  if (!setting || name != "stock.formula") return setting;
  std::optional<CostFormula> const used = formula_in_use(workshop);
  std::string_view const wanted = setting->value.empty() ? setting_row(name)->fallback : setting->value;
  if (used && formula_name(*used) != wanted)
    return refuse({FaultCode::rule_refused,
                   {"workshop set", 0, 0, std::string(name)},
                   std::string(wanted),
                   std::string(formula_name(*used)) + ", which holds since the first movement",
                   {}});
  return setting;
}

void set(Writing& writing, Setting const& setting) {
  Statement insert(writing.workshop().connection(),
                   "INSERT INTO setting_version (name, value, valid_from, entry) VALUES (?, ?, ?, ?)");
  insert.bind(setting.name, setting.value, setting.valid_from, writing.entry()).run();
}

std::vector<Setting> settings(Workshop& workshop, Date on) {
  Statement select(workshop.connection(),
                   "SELECT name, value, valid_from, id FROM setting_version WHERE valid_from <= ? "
                   "ORDER BY name, valid_from, id");
  select.bind(on);
  std::vector<Setting> in_force;
  while (select.step()) {
    Setting setting;
    select.read(setting.name, setting.value, setting.valid_from, setting.version);
    if (!in_force.empty() && in_force.back().name == setting.name) in_force.pop_back();
    in_force.push_back(std::move(setting));
  }
  std::erase_if(in_force, [](Setting const& setting) { return setting.value.empty(); });
  return in_force;
}

}  // namespace endband::db
