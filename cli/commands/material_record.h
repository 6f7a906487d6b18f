// A material as a record of the command line: which flags make it, its fields in words, its JSON.
#pragma once

#include "cli/command/args.h"
#include "cli/command/command.h"
#include "cli/commands/changed.h"
#include "cli/document/json.h"
#include "db/workshop.h"
#include "engine/catalogue/catalogue.h"

#include <optional>
#include <vector>

namespace endband::cli {

std::vector<Flag> property_flags();  // all but kind and how it is sold, which stand for ever
std::vector<Flag> price_flags();     // a pack and what it costs

std::vector<Flag> material_flags();  // all of these, and kind and how it is sold

// A new material as the flags say it, checked, with its first price where one is said.
Read<Material> material_said(Args const& args, std::string const& code, Currency currency, Date from);
Read<MaterialId> keep_new_material(db::Writing& writing, Material const& material, Date from);
// One that is kept with what the flags change; without its price, for a version of properties has none. That
// its prices still fit is the store's rule.
Material material_changed(Args const& args, Material const& before);

// Sets what the flags name; the rest stays.
void apply_properties(Args const& args, Material& material);

// The price that the flags say, in the workshop's currency: the supplier's price x the rate, rounded half
// away to a minor unit. This is the one place where a foreign price is converted. Absent: no price was said.
// Pack, carriage, duty, tax and supplier that are not said stay as in `before`.
Read<std::optional<PackPrice>> price_said(Args const& args, Currency currency, Date from,
                                          std::optional<PackPrice> const& before);

Fields fields_of(Material const& material);
Fields fields_of(PackPrice const& price, SoldBy sold_by);
Json material_json(Material const& material, BuyingRules const& buying);
Json price_json(PackPrice const& price, BuyingRules const& buying);

}  // namespace endband::cli
