// Materials and their prices out to a spreadsheet and in from one.
#include "cli/commands/commands.h"
#include "cli/commands/material_record.h"
#include "cli/commands/spreadsheet_columns.h"
#include "cli/commands/spreadsheets.h"
#include "cli/forms/exact.h"
#include "cli/words/values.h"
#include "db/materials.h"

#include <fmt/format.h>

#include <map>

namespace endband::cli {

std::vector<SpreadsheetColumn> material_columns() {
  std::vector<SpreadsheetColumn> columns = columns_of(material_flags());
  columns.insert(columns.begin(), {{"--code", FlagType::code, "the material's code"}, true});
  for (SpreadsheetColumn& column : columns)
    if (column.flag.name == "--from") column.written = false;
  return columns;
}

namespace {

template <class T, class F>
std::string if_known(std::optional<T> const& value, F&& words) {
  return value ? words(*value) : std::string();
}

std::string thousandths(std::int64_t n, std::string_view unit) {
  return fmt::format("{} {}", exact_decimal(n, 3), unit);
}

std::string yes(bool is) { return is ? "yes" : ""; }

std::string spread_words(Properties const& is) {
  return is.spread_mg_m2 ? thousandths(*is.spread_mg_m2, "g/m2")
                         : if_known(is.spread_ul_m2, [](std::int64_t n) { return thousandths(n, "ml/m2"); });
}

SheetFields properties_of(Material const& material) {
  Properties const& is = material.properties;
  auto const whole = [](std::int64_t n) { return std::to_string(n); };
  bool const usable = is.usable_height && is.usable_width;
  return {
      {"code", material.code},
      {"kind", std::string(kind_row(material.kind).name)},
      {"sold-by", std::string(sold_by_name(material.sold_by))},
      {"name", material.name},
      {"buyer", material.buyer_words},
      {"caliper", if_known(is.caliper, exact_thickness)},
      {"grammage", if_known(is.grammage_mg, [](std::int64_t n) { return thousandths(n, "g/m2"); })},
      {"density", if_known(is.density_kg_m3, [](std::int64_t n) { return fmt::format("{} kg/m3", n); })},
      {"sheet", if_known(is.sheet, sheet_words)},
      {"thread", if_known(is.thread, thread_words)},
      {"leaf-side", if_known(is.leaf_side, millimetres)},
      {"leaves-a-book", if_known(is.leaves_a_book, whole)},
      {"usable", usable ? sheet_words({*is.usable_height, *is.usable_width}) : ""},
      {"usable-share", if_known(is.usable_share, exact_share)},
      {"spread", spread_words(is)},
      {"solids", if_known(is.solids, exact_share)},
      {"piece-mass", if_known(is.piece_mass, [](Mass m) { return thousandths(m.n, "g"); })},
      {"width", if_known(is.width, millimetres)},
      {"height", if_known(is.height, millimetres)},
      {"depth", if_known(is.depth, millimetres)},
      {"spoil", exact_share(material.spoil)},
      {"least-spoil",
       material.least_spoil.n == 0 ? "" : exact_amount(material.least_spoil, material.sold_by)},
      {"ruin", exact_share(material.ruin_chance)},
      {"charging", std::string(charging_name(material.charging))},
      {"kept-worth", exact_share(material.kept_worth)},
      {"restricted", yes(material.flags.restricted)},
      {"not-for-copper-alloys", yes(material.flags.not_for_copper_alloys)},
      {"tarnishes", yes(material.flags.tarnishes)},
  };
}

// As the supplier says it; in the workshop's own money a bare number.
SheetFields price_of(PackPrice const& price, SoldBy sold_by) {
  bool const foreign = price.said.currency != price.price.currency;
  return {{"pack", exact_amount(price.pack, sold_by)},
          {"price", foreign ? money_words(price.said) : money_text(price.price)},
          {"rate", foreign ? exact_number(price.rate) : ""},
          {"carriage", money_text(price.carriage)},
          {"duty", exact_share(price.duty)},
          {"tax", exact_share(price.purchase_tax)},
          {"supplier", price.supplier}};
}

Read<Answer> run_export(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  db::Reading const reading(**workshop);
  std::vector<SheetFields> rows;
  for (Material const& material :
       db::list_materials(**workshop, context.on, args.get<MaterialKind>("--kind"))) {
    SheetFields& row = rows.emplace_back(properties_of(material));
    if (!material.price) continue;
    SheetFields const price = price_of(*material.price, material.sold_by);
    row.insert(row.end(), price.begin(), price.end());
  }
  return exported(context, args, {"material", "materials"}, material_columns(), rows);
}

// --- in

class MaterialKeeper {
 public:
  MaterialKeeper(Currency currency, Date from) : currency_(currency), from_(from) {}

  Read<ImportedRow> operator()(db::Writing& writing, SpreadsheetRow const& row) {
    Date const from = row.said.get<Date>("--from").value_or(from_);
    std::string const code = *row.said.text("--code");
    if (Material const* const before = kept(writing.workshop(), code, from))
      return change(writing, row.said, *before, from);
    return add(writing, row.said, code, from);
  }

 private:
  // All materials of a day are read once: a file has many rows.
  Material const* kept(db::Workshop& workshop, std::string const& code, Date from) {
    auto [day, first] = kept_.try_emplace(from);
    if (first)
      for (Material& material : db::list_materials(workshop, from, std::nullopt))
        day->second.emplace(material.code, std::move(material));
    auto const found = day->second.find(code);
    return found == day->second.end() ? nullptr : &found->second;
  }

  Read<ImportedRow> add(db::Writing& writing, Args const& said, std::string const& code, Date from) const {
    auto const material = material_said(said, code, currency_, from);
    if (!material) return tl::unexpected(material.error());
    auto const added = keep_new_material(writing, *material, from);
    if (!added) return tl::unexpected(added.error());
    Fields fields = properties_of(*material);
    if (material->price) append(fields, price_of(*material->price, material->sold_by));
    return ImportedRow{0, code, true, changes_between({}, fields)};
  }

  Read<ImportedRow> change(db::Writing& writing, Args const& said, Material const& before, Date from) const {
    Material const after = material_changed(said, before);
    auto const price = price_said(said, currency_, from, before.price);
    if (auto faults = check(said, before, after, price); !faults.empty())
      return tl::unexpected(std::move(faults));
    ImportedRow row{0, before.code, false, changes_between(properties_of(before), properties_of(after))};
    if (!row.changes.empty())
      if (auto const done = db::change_material(writing, after, from); !done)
        return tl::unexpected(done.error());
    Fields const old = before.price ? price_of(*before.price, before.sold_by) : Fields{};
    Fields const now = *price ? price_of(**price, after.sold_by) : old;
    if (auto const changes = changes_between(old, now); !changes.empty()) {
      if (auto const done = db::add_price(writing, before.code, **price); !done)
        return tl::unexpected(done.error());
      row.changes.insert(row.changes.end(), changes.begin(), changes.end());
    }
    return row;
  }

  static std::vector<Fault> check(Args const& said, Material const& before, Material after,
                                  Read<std::optional<PackPrice>> const& price) {
    std::vector<Fault> faults;
    if (auto const kind = said.get<MaterialKind>("--kind"); kind && *kind != before.kind)
      faults.push_back(
          {FaultCode::contradiction,
           said.where("--kind"),
           std::string(kind_row(*kind).name),
           fmt::format("{}, which {} is and stays, or another code", kind_row(before.kind).name, before.code),
           {}});
    if (!price) faults.insert(faults.end(), price.error().begin(), price.error().end());
    if (price) after.price = *price;
    auto const found = check_material(after, said.where(""));
    faults.insert(faults.end(), found.begin(), found.end());
    return faults;
  }

  static void append(Fields& to, Fields const& more) { to.insert(to.end(), more.begin(), more.end()); }

  Currency currency_;
  Date from_;
  std::map<Date, std::map<std::string, Material, std::less<>>> kept_;
};

Read<Answer> run_import(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto sheet = sheet_said(context, args, "material import", material_columns());
  if (!sheet) return tl::unexpected(sheet.error());
  refuse_repeated(*sheet, "--code");
  Imported view{.noun = "material", .file = args.word(0), .next = "endband material list"};
  auto done =
      import_rows(context, **workshop, *sheet, std::move(view),
                  MaterialKeeper((*workshop)->currency(), args.get<Date>("--from").value_or(context.on)));
  if (!done) return tl::unexpected(done.error());
  return Answer(std::move(*done));
}

std::vector<Flag> flags_of_export() {
  std::vector<Flag> flags = export_flags();
  flags.insert(flags.begin(), {"--kind", FlagType::kind, "only these"});
  return flags;
}

std::vector<Flag> flags_of_import() {
  std::vector<Flag> flags = import_flags();
  flags.push_back({"--from", FlagType::date, "in force from this day; else from today"});
  return flags;
}

std::string const about_import =
    std::string(import_about) +
    " A code that is not known is a new material. A price that differs is a new price from that day on; the "
    "old one stays for the days before it. What an import changed endband workshop undo takes back; what it "
    "added stays, as with material add.";

}  // namespace

Command material_export() {
  return {.noun = "material",
          .verb = "export",
          .summary = "Write the materials with their prices of the day as a table for a spreadsheet",
          .about = export_about,
          .words = {},
          .flags = flags_of_export(),
          .examples = {"material export --output materials.csv",
                       "material export --kind leather --separator semicolon"},
          .refused_when = "the file is there already",
          .writes = true,
          .writes_with = {"--output"},
          .run = run_export};
}

Command material_import() {
  return {.noun = "material",
          .verb = "import",
          .summary = "Keep materials and prices from a table of a spreadsheet",
          .about = about_import,
          .words = {import_word},
          .flags = flags_of_import(),
          .examples = {"material import materials.csv --dry-run",
                       "material import materials.csv --from 2026-12-01"},
          .refused_when = "a rule of material add, material change or material price forbids a row",
          .writes = true,
          .run = run_import};
}

}  // namespace endband::cli
