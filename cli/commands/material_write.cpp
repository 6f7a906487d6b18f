// Materials: add, change, price. Each writes a new dated version; none is ever altered.
#include "cli/commands/commands.h"
#include "cli/commands/material_record.h"
#include "db/materials.h"

#include <algorithm>

namespace endband::cli {
namespace {

void append(Fields& to, Fields const& more) { to.insert(to.end(), more.begin(), more.end()); }

Changed changed(Context const& context, Deed deed, Material const& material, Date from,
                std::vector<Change> changes) {
  return {.deed = deed,
          .noun = "material",
          .code = material.code,
          .changes = std::move(changes),
          .from = from,
          .dry_run = context.dry_run,
          .next = "endband material show " + material.code};
}

Read<Answer> run_add(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  Date const from = args.get<Date>("--from").value_or(context.on);
  std::vector<Fault> faults;
  auto const need = [&](std::string_view flag, std::string what) {
    if (!args.has(flag))
      faults.push_back({FaultCode::bad_command, args.where(flag), "", std::move(what), {}});
  };
  need("--kind", "what it is: paper, leather, thread ...");
  need("--sold-by", "sheet, skin, length, weight ...");
  need("--name", "what you call it");
  auto price = price_said(args, (*workshop)->currency(), from, std::nullopt);
  if (!price) faults.insert(faults.end(), price.error().begin(), price.error().end());
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  Material material;
  material.code = args.word(0);
  material.kind = *args.get<MaterialKind>("--kind");
  material.sold_by = *args.get<SoldBy>("--sold-by");
  material.least_spoil.dimension = dimension_of(material.sold_by);
  apply_properties(args, material);
  material.price = *price;
  if (auto found = check_material(material, args.where("")); !found.empty())
    return tl::unexpected(std::move(found));
  auto const added = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<MaterialId> {
    auto id = db::add_material(writing, material, from);
    if (!id || !material.price) return id;
    auto const priced = db::add_price(writing, material.code, *material.price);
    if (!priced) return tl::unexpected(priced.error());
    return id;
  });
  if (!added) return tl::unexpected(added.error());
  Fields fields = fields_of(material);
  if (material.price) append(fields, fields_of(*material.price, material.sold_by));
  return Answer(changed(context, Deed::added, material, from, changes_between({}, fields)));
}

Read<Answer> run_change(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  Date const from = args.get<Date>("--from").value_or(context.on);
  auto const before = db::find_material(**workshop, args.word(0), from);
  if (!before) return tl::unexpected(before.error());
  Material after = *before;
  after.price.reset();  // a version of properties has none; that its prices still fit is the store's rule
  if (auto const sold_by = args.get<SoldBy>("--sold-by")) after.sold_by = *sold_by;
  apply_properties(args, after);
  Changed view =
      changed(context, Deed::changed, after, from, changes_between(fields_of(*before), fields_of(after)));
  if (view.changes.empty()) return Answer(std::move(view));
  if (auto found = check_material(after, args.where("")); !found.empty())
    return tl::unexpected(std::move(found));
  auto const done = in_one_writing(
      context, **workshop, [&](db::Writing& writing) { return db::change_material(writing, after, from); });
  if (!done) return tl::unexpected(done.error());
  return Answer(std::move(view));
}

Read<Answer> run_price(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  Date const from = args.get<Date>("--from").value_or(context.on);
  auto const before = db::find_material(**workshop, args.word(0), from);
  if (!before) return tl::unexpected(before.error());
  auto const price = price_said(args, (*workshop)->currency(), from, before->price);
  if (!price) return tl::unexpected(price.error());
  if (!*price)
    return refuse({FaultCode::bad_command, args.where("--pack"), "", "a pack and its --price", {}});
  Material after = *before;
  after.price = *price;
  if (auto found = check_material(after, args.where("")); !found.empty())
    return tl::unexpected(std::move(found));
  auto const done = in_one_writing(
      context, **workshop, [&](db::Writing& writing) { return db::add_price(writing, after.code, **price); });
  if (!done) return tl::unexpected(done.error());
  Fields const old = before->price ? fields_of(*before->price, before->sold_by) : Fields{};
  return Answer(
      changed(context, Deed::priced, after, from, changes_between(old, fields_of(**price, after.sold_by))));
}

constexpr Word code_word{"CODE", FlagType::material, "the material's code, such as goat-green"};
constexpr Word new_code{"CODE", FlagType::code, code_word.help};

// What a material is sold by may change within its dimension: single sheets to pads.
std::vector<Flag> change_flags() {
  std::vector<Flag> flags = property_flags();
  flags.insert(flags.begin(), {"--sold-by", FlagType::sold_by, "how it is sold"});
  return flags;
}

std::vector<Flag> all_flags() {
  std::vector<Flag> flags{{"--kind", FlagType::kind, "what it is"},
                          {"--sold-by", FlagType::sold_by, "how it is sold"}};
  auto const properties = property_flags();
  auto const price = price_flags();
  flags.insert(flags.end(), properties.begin(), properties.end());
  flags.insert(flags.end(), price.begin(), price.end());
  return flags;
}

}  // namespace

Command material_add() {
  return {
      .noun = "material",
      .verb = "add",
      .summary = "Add a material to the catalogue",
      .about =
          "With --pack and --price it has its first price at once. What its kind needs is said when missing.",
      .words = {new_code},
      .flags = all_flags(),
      .examples = {"material add goat-black --kind leather --sold-by skin --name \"Goat, black, 0.9\" "
                   "--buyer \"black goatskin\" --caliper \"0.9 mm\" --density \"750 kg/m3\" --usable \"700 x "
                   "500 mm\" "
                   "--usable-share \"65 %\" --spoil \"3 %\" --pack \"0.55 m2\" --price 48.00 --tax \"19 %\"",
                   "material add linen-30-3 --kind thread --sold-by length --name \"Linen thread 30/3\" "
                   "--thread 30/3 "
                   "--density \"900 kg/m3\" --pack \"100 m\" --price 6.20 --dry-run"},
      .refused_when = "the code is taken",
      .writes = true,
      .lists = false,
      .run = run_add};
}

Command material_change() {
  return {.noun = "material",
          .verb = "change",
          .summary = "Change what is known of a material, from a day on",
          .about = "A new version; quotes that are made keep the old one. Only what is named changes.",
          .words = {code_word},
          .flags = change_flags(),
          .examples = {"material change goat-moss-08 --spoil \"4 %\"",
                       "material change linen-18-3 --name \"Linen thread 18/3\" --from 2026-12-01 --dry-run"},
          .refused_when = "a figure that its kind needs is missing, or its prices are by another measure",
          .writes = true,
          .lists = false,
          .run = run_change};
}

Command material_price() {
  std::vector<Flag> flags = price_flags();
  flags.push_back({"--from", FlagType::date, "in force from this day; else from today"});
  return {.noun = "material",
          .verb = "price",
          .summary = "Give a material a price, from a day on",
          .about = "The old price stays for the days before it, and in the quotes that used it.",
          .words = {code_word},
          .flags = std::move(flags),
          .examples =
              {"material price goat-moss-08 --pack \"0.60 m2\" --price 66.00 --carriage 3.20 --tax \"19 %\"",
               "material price calf-natural-08 --pack \"12 sq ft\" --price \"91.00 GBP\" --rate 1.16 "
               "--tax \"19 %\" --from 2026-12-01 --dry-run"},
          .refused_when = "another currency comes without its rate",
          .writes = true,
          .lists = false,
          .run = run_price};
}

}  // namespace endband::cli
