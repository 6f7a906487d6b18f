// Materials: add, change, price. Each writes a new dated version; none is ever altered.
#include "cli/commands/commands.h"
#include "cli/commands/material_record.h"
#include "db/materials.h"

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
  auto const material = material_said(args, args.word(0), (*workshop)->currency(), from);
  if (!material) return tl::unexpected(material.error());
  auto const added = in_one_writing(
      context, **workshop, [&](db::Writing& writing) { return keep_new_material(writing, *material, from); });
  if (!added) return tl::unexpected(added.error());
  Fields fields = fields_of(*material);
  if (material->price) append(fields, fields_of(*material->price, material->sold_by));
  return Answer(changed(context, Deed::added, *material, from, changes_between({}, fields)));
}

Read<Answer> run_change(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  Date const from = args.get<Date>("--from").value_or(context.on);
  auto const before = db::find_material(**workshop, args.word(0), from);
  if (!before) return tl::unexpected(before.error());
  Material const after = material_changed(args, *before);
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

}  // namespace

Command material_add() {
  return {
      .noun = "material",
      .verb = "add",
      .summary = "Add a material to the catalogue",
      .about =
          "With --pack and --price it has its first price at once. What its kind needs is said when missing.",
      .words = {new_code},
      .flags = material_flags(),
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
