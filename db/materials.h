// Materials and their dated prices: immutable versions, in force on a day is the latest valid_from, then the
// latest entry.
#pragma once

#include "db/workshop.h"
#include "engine/catalogue/catalogue.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace endband::db {

// `material.id`, `version` and `price` are ignored; the code must be free (already_exists otherwise).
Read<MaterialId> add_material(Writing& writing, Material const& material, Date valid_from);
// A new version of the properties of an existing code.
Read<MaterialId> change_material(Writing& writing, Material const& material, Date valid_from);
Read<std::int64_t> add_price(Writing& writing, std::string_view code, PackPrice const& price);

// Only the rows that are named, with properties and price in force on the day. A material whose first version
// is later than the day is unknown on it. Faults: unknown_material, all at once: with near codes, or with the
// day from which it is known.
Read<Catalogue> load_catalogue(Workshop& workshop, std::span<std::string const> codes, Date on,
                               BuyingRules const& buying);
std::vector<Material> list_materials(Workshop& workshop, Date on, std::optional<MaterialKind> kind);
Read<Material> find_material(Workshop& workshop, std::string_view code, Date on);
// The day of its first version; nothing: no material ever had the code.
std::optional<Date> known_from(Workshop& workshop, std::string_view code);
std::string known_from_text(Date first);  // what a fault expects on an earlier day
// In force on the day, or as it was first known where that is later. The id must be one of the workshop.
Material known_material(Workshop& workshop, MaterialId id, Date on);
std::vector<PackPrice> price_history(Workshop& workshop, std::string_view code);  // oldest first
std::vector<std::string> material_codes(Workshop& workshop);

}  // namespace endband::db
