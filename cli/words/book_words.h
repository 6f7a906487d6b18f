// The book, its work and its cost in the words of the bench: for the binder, never for a buyer.
#pragma once

#include "engine/book/structure.h"
#include "engine/commission/commission.h"

#include <span>
#include <string>
#include <string_view>

namespace endband::cli {

std::string_view unit_name(Unit unit);                // "mm", "share": stable, in JSON
std::string figure_words(FigureId id, double value);  // "38.2 mm", "50 %", "24", "yes"
std::string_view grain_words(Grain grain);

// The name of a material among those of a quote or catalogue, or its number where it is not among them.
std::string material_name(std::span<Material const> materials, MaterialId id);
Material const* material_of(std::span<Material const> materials, MaterialId id);

// "Creep of the sections is more than what is trimmed off the fore-edge: 4.2 mm, trimmed 4 mm."
std::string warning_words(Warning const& warning, std::span<Material const> materials);

std::string cost_line_words(FrozenQuote const& quote, CostLine const& line);
std::string work_line_words(WorkLine const& line);
std::string_view rung_words(std::size_t rung);  // of Ladder, from the cash floor up

}  // namespace endband::cli
