#include "cli/commands/shop_parts.h"

namespace endband::cli {

std::string setting_in_force(db::Workshop& workshop, std::string_view name, Date on) {
  for (db::Setting const& setting : db::settings(workshop, on))
    if (setting.name == name) return setting.value;
  for (db::SettingRow const& row : db::setting_table())
    if (row.name == name) return std::string(row.fallback);
  return {};
}

Ratio share_setting(db::Workshop& workshop, std::string_view name, Date on) {
  return read_ratio(setting_in_force(workshop, name, on)).value_or(Ratio(0));
}

BuyingRules buying_rules(db::Workshop& workshop, Date on) {
  return {share_setting(workshop, "tax.recovered", on)};
}

std::string owner_text(db::Workshop& workshop, MadeTo made_to, Date on) {
  if (made_to == MadeTo::business) return "";
  return setting_in_force(workshop, "text." + std::string(made_to_name(made_to)), on);
}

}  // namespace endband::cli
