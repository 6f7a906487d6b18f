// Materials: list and show.
#include "cli/commands/commands.h"
#include "cli/commands/material_record.h"
#include "cli/commands/shop_parts.h"
#include "cli/words/values.h"
#include "db/materials.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

struct MaterialList {
  std::vector<Material> materials;
  BuyingRules buying;
  Currency currency;
  Date on;
};

Json to_json(MaterialList const& view) {
  auto const row = [&](Material const& material) { return material_json(material, view.buying); };
  return Json::Object{{"on", date_text(view.on)}, {"materials", json_array(view.materials, row)}};
}

Document to_document(MaterialList const& view) {
  Document document;
  if (view.materials.empty()) {
    document.paragraph("No materials here yet.").next("endband help material add");
    return document;
  }
  std::string const currency(view.currency.code());
  Table table{{{"Code"},
               {"Name", Align::left, 1},
               {"Kind", Align::left, 3},
               {"Pack", Align::right, 2},
               {"Landed " + currency, Align::decimal},
               {"Since", Align::left, 4}},
              {}};
  for (Material const& material : view.materials) {
    auto const& price = material.price;
    table.add({material.code, material.name, std::string(kind_row(material.kind).name),
               price ? sold_words(price->pack, material.sold_by) : "no price",
               price ? money_text(landed_cost(*price, view.buying).total) : "",
               price ? date_text(price->valid_from) : ""});
  }
  document.add(std::move(table));
  document.next("endband material show " + view.materials.front().code);
  return document;
}

Read<Answer> run_list(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  db::Reading const reading(**workshop);
  return Answer(MaterialList{db::list_materials(**workshop, context.on, args.get<MaterialKind>("--kind")),
                             buying_rules(**workshop, context.on), (*workshop)->currency(), context.on});
}

struct MaterialCard {
  Material material;
  std::vector<PackPrice> history;
  BuyingRules buying;
  Currency currency;
};

Json to_json(MaterialCard const& view) {
  auto const row = [&](PackPrice const& price) { return price_json(price, view.buying); };
  return Json::Object{{"material", material_json(view.material, view.buying)},
                      {"prices", json_array(view.history, row)}};
}

Document to_document(MaterialCard const& view) {
  Material const& material = view.material;
  Document document;
  document.heading(fmt::format("{}: {}", material.code, material.name));
  KeyValues rows;
  for (auto const& [field, value] : fields_of(material))
    if (field != "name" && !value.empty()) rows.rows.emplace_back(field, value);
  document.add(std::move(rows));
  if (view.history.empty()) {
    document.paragraph("It has no price yet.")
        .next("endband material price " + material.code + " --pack ... --price ...");
    return document;
  }
  document.heading(fmt::format("Prices of a pack, {}", view.currency.code()), 2);
  Table table{{{"From"},
               {"Pack", Align::right},
               {"Price", Align::decimal},
               {"Carriage", Align::decimal, 2},
               {"Duty", Align::decimal, 3},
               {"Tax borne", Align::decimal, 2},
               {"Landed", Align::decimal},
               {"Supplier", Align::left, 4}},
              {}};
  for (PackPrice const& price : view.history) {
    Landed const landed = landed_cost(price, view.buying);
    table.add({date_text(price.valid_from), sold_words(price.pack, material.sold_by),
               money_text(landed.price), money_text(landed.carriage), money_text(landed.duty),
               money_text(landed.tax_borne), money_text(landed.total), price.supplier});
  }
  document.add(std::move(table));
  return document;
}

Read<Answer> run_show(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  db::Reading const reading(**workshop);
  auto material = db::find_material(**workshop, args.word(0), context.on);
  if (!material) return tl::unexpected(material.error());
  return Answer(MaterialCard{std::move(*material), db::price_history(**workshop, args.word(0)),
                             buying_rules(**workshop, context.on), (*workshop)->currency()});
}

}  // namespace

Command material_list() {
  return {
      .noun = "material",
      .verb = "list",
      .summary = "List the materials with their prices of the day",
      .about =
          "Landed is what a pack costs once it lies on the shelf: price, carriage, duty, and the tax that "
          "does not come back.",
      .words = {},
      .flags = {{"--kind", FlagType::kind, "only these"}},
      .examples = {"material list", "material list --kind leather --on 2026-10-01"},
      .refused_when = "",
      .writes = false,
      .lists = true,
      .run = run_list};
}

Command material_show() {
  return {.noun = "material",
          .verb = "show",
          .summary = "Show a material and all its prices",
          .about = "",
          .words = {{"CODE", FlagType::material, "the material's code"}},
          .flags = {},
          .examples = {"material show goat-moss-08", "material show leaf-gold-23 --json"},
          .refused_when = "",
          .writes = false,
          .lists = false,
          .run = run_show};
}

}  // namespace endband::cli
