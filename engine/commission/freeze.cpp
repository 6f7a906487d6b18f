#include "engine/commission/commission.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>

namespace endband {
namespace {

std::vector<FrozenFigure> freeze_figures(Figures const& figures) {
  std::vector<FrozenFigure> frozen;
  for (std::size_t i = 0; i < figure_count; ++i) {
    auto const id = static_cast<FigureId>(i);
    if (figures.has(id)) frozen.push_back({id, std::llround(figures.value(id) * 1e6), figures[id].origin});
  }
  return frozen;
}

std::vector<FrozenChoice> freeze_choices(BookSpec const& book) {
  std::vector<FrozenChoice> frozen;
  for (std::size_t i = 0; i < role_count; ++i) {
    Chosen const& chosen = book.materials[i];
    if (chosen.origin != Origin::none)
      frozen.push_back({static_cast<Role>(i), chosen.material, chosen.origin});
  }
  return frozen;
}

// The materials that a frozen row names, by id: a catalogue may hold more.
std::vector<Material> freeze_materials(Catalogue const& catalogue, FrozenQuote const& quote) {
  std::vector<MaterialId> named;
  for (FrozenChoice const& choice : quote.choices) named.push_back(choice.material);
  for (BillLine const& line : quote.bill.lines) named.push_back(line.material);
  std::sort(named.begin(), named.end());
  std::vector<Material> materials;
  for (Material const& material : catalogue.materials)
    if (std::binary_search(named.begin(), named.end(), material.id)) materials.push_back(material);
  std::sort(materials.begin(), materials.end(),
            [](Material const& a, Material const& b) { return a.id < b.id; });
  return materials;
}

}  // namespace

std::string_view made_to_name(MadeTo made_to) {
  static constexpr std::array<std::string_view, 5> names{"spec", "personal", "options", "stock", "business"};
  return names.at(static_cast<std::size_t>(made_to));
}

FrozenQuote freeze(Commission const& commission, Priced const& priced, std::string description,
                   std::string model_name) {
  FrozenQuote quote;
  quote.on = commission.catalogue.on;
  quote.title = commission.book.title;
  quote.binding = commission.book.binding;
  quote.ways = commission.book.ways;
  quote.description = std::move(description);
  quote.model_name = std::move(model_name);
  quote.figures = freeze_figures(priced.structure.figures);
  quote.choices = freeze_choices(commission.book);
  quote.pieces = priced.structure.pieces;
  quote.warnings = priced.structure.warnings;
  quote.mass_mg = priced.structure.mass.n;
  quote.bill = priced.bill;
  quote.work = priced.work;
  quote.outside = priced.outside;
  quote.shop = commission.shop;
  quote.selling = priced.selling;
  quote.goal = commission.goal;
  quote.delivery = priced.delivery;
  quote.sent_by = priced.sent_by;
  quote.sheet = priced.sheet;
  quote.offer = priced.offer;
  quote.copies = commission.book.copies;
  quote.set_shares = commission.book.set_shares;
  quote.volumes = priced.volumes;
  quote.copy_prices = priced.copies;
  quote.repairs = priced.repairs;
  quote.custody = commission.custody;
  quote.materials = freeze_materials(commission.catalogue, quote);
  return quote;
}

Read<Offer> replay(FrozenQuote const& quote) try {
  CostSheet const sheet = cost(quote.bill, quote.work, quote.outside, quote.shop);
  return offer(sheet, quote.delivery, quote.selling, quote.goal, quote.shop);
} catch (Overflow const&) {
  return refuse({FaultCode::too_large,
                 Where{{}, 0, 0, "quote"},
                 "",
                 "a quote whose costs fit in the range of money",
                 {}});
}

}  // namespace endband
