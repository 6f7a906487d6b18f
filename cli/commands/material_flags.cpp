#include "cli/commands/material_record.h"
#include "db/materials.h"

namespace endband::cli {

std::vector<Flag> property_flags() {
  return {
      {"--name", FlagType::words, "what you call it: \"Goat, green, 0.9\""},
      {"--buyer", FlagType::words, "what a buyer reads: \"green goatskin\"; without, never shown to one"},
      {"--caliper", FlagType::thickness, "thickness as bought; a cord's diameter"},
      {"--grammage", FlagType::grammage, "mass of a square metre"},
      {"--density", FlagType::density, "of wood, leather, thread, metal"},
      {"--sheet", FlagType::sheet, "size; by the mills' convention the second side is along the grain"},
      {"--thread", FlagType::thread, "linen count and ply"},
      {"--leaf-side", FlagType::length, "metal leaf is square"},
      {"--leaves-a-book", FlagType::whole, "leaves in a book of metal leaf"},
      {"--usable", FlagType::rectangle,
       "the largest rectangle of a skin to count on, along the backbone x across"},
      {"--usable-share", FlagType::share, "of a skin: usable area / the area one pays for"},
      {"--spread", FlagType::spread, "what a square metre takes, each coat and face"},
      {"--solids", FlagType::share, "what stays when dry / wet mass"},
      {"--piece-mass", FlagType::mass, "of one piece"},
      {"--width", FlagType::length, "of a ribbon, a roll, a stone, the head of a rivet"},
      {"--height", FlagType::length, "of a stone or a carton, inside"},
      {"--depth", FlagType::length, "of a stone or a carton, inside"},
      {"--spoil", FlagType::share, "lost / taken"},
      {"--least-spoil", FlagType::amount, "lost at least: \"2 sheets\""},
      {"--ruin", FlagType::share, "chance that a costly piece is ruined"},
      {"--charging", FlagType::charging, "how a job is charged for it"},
      {"--kept-worth", FlagType::share, "an offcut's worth: this share of its part of the cost"},
      {"--restricted", FlagType::on, "a species or good that needs papers abroad"},
      {"--not-for-copper-alloys", FlagType::on, "an adhesive that attacks brass"},
      {"--tarnishes", FlagType::on, "metal leaf that is not gold"},
      {"--from", FlagType::date, "in force from this day; else from today"},
  };
}

std::vector<Flag> price_flags() {
  return {
      {"--pack", FlagType::amount, "what one pack holds: \"50 sheets\", \"0.55 m2\" of skin, \"250 ml\""},
      {"--price", FlagType::money, "of a pack, without tax: 42.00, or \"36.00 GBP\" with --rate"},
      {"--rate", FlagType::number, "the workshop's money for one unit of the supplier's"},
      {"--carriage", FlagType::money,
       "inward carriage and clearance, a pack's share, in the workshop's money"},
      {"--duty", FlagType::share, "of the price"},
      {"--tax", FlagType::share, "purchase tax, of price + carriage + duty"},
      {"--supplier", FlagType::supplier, "where it is bought"},
  };
}

void apply_properties(Args const& args, Material& material) {
  Properties& is = material.properties;
  auto const set = [&]<class T>(std::string_view flag, T& field) {
    if constexpr (requires { field.has_value(); }) {
      if (auto const value = args.get<typename T::value_type>(flag)) field = *value;
    } else {
      if (auto const value = args.get<T>(flag)) field = *value;
    }
  };
  set("--name", material.name);
  set("--buyer", material.buyer_words);
  set("--caliper", is.caliper);
  set("--grammage", is.grammage_mg);
  set("--density", is.density_kg_m3);
  set("--sheet", is.sheet);
  set("--thread", is.thread);
  set("--leaf-side", is.leaf_side);
  set("--leaves-a-book", is.leaves_a_book);
  set("--usable-share", is.usable_share);
  set("--solids", is.solids);
  set("--piece-mass", is.piece_mass);
  set("--width", is.width);
  set("--height", is.height);
  set("--depth", is.depth);
  set("--spoil", material.spoil);
  set("--least-spoil", material.least_spoil);
  set("--ruin", material.ruin_chance);
  set("--charging", material.charging);
  set("--kept-worth", material.kept_worth);
  if (auto const usable = args.get<SheetSize>("--usable")) {
    is.usable_height = usable->first;
    is.usable_width = usable->second;
  }
  if (auto const spread = args.get<SpreadRate>("--spread")) {
    is.spread_mg_m2 = spread->mg_m2 > 0 ? std::optional(spread->mg_m2) : std::nullopt;
    is.spread_ul_m2 = spread->ul_m2 > 0 ? std::optional(spread->ul_m2) : std::nullopt;
  }
  material.flags.restricted |= args.has("--restricted");
  material.flags.not_for_copper_alloys |= args.has("--not-for-copper-alloys");
  material.flags.tarnishes |= args.has("--tarnishes");
}

namespace {

class PriceReader {
 public:
  PriceReader(Args const& args, Currency currency) : args_(args), currency_(currency) {}

  // What is not said stays as it was in `before`; the price itself is always said.
  Read<std::optional<PackPrice>> read(Date from, std::optional<PackPrice> const& before) {
    bool said = false;
    for (Flag const& flag : price_flags()) said |= args_.has(flag.name);
    if (!said) return std::nullopt;
    PackPrice price;
    price.carriage = {0, currency_};
    if (before) price = *before;
    price.valid_from = from;
    if (!before) need("--pack", "what one pack holds, such as \"50 sheets\"");
    need("--price", "what a pack costs without tax");
    if (auto const pack = args_.get<Amount>("--pack")) price.pack = *pack;
    price.said = money("--price");
    price.rate = args_.get<Ratio>("--rate").value_or(Ratio(1));
    if (args_.has("--carriage")) price.carriage = money("--carriage");
    if (auto const duty = args_.get<Ratio>("--duty")) price.duty = *duty;
    if (auto const tax = args_.get<Ratio>("--tax")) price.purchase_tax = *tax;
    if (auto const supplier = args_.text("--supplier")) price.supplier = *supplier;
    convert(price);
    if (!faults_.empty()) return tl::unexpected(std::move(faults_));
    return price;
  }

 private:
  void need(std::string_view flag, std::string what) {
    if (!args_.has(flag))
      faults_.push_back({FaultCode::bad_command, args_.where(flag), "", std::move(what), {}});
  }

  Money money(std::string_view flag) {
    auto const text = args_.text(flag);
    if (!text) return {0, currency_};
    bool const names_currency = text->find_first_of("ABCDEFGHIJKLMNOPQRSTUVWXYZ") != std::string::npos;
    auto const read = located(names_currency ? read_money_with_currency(*text) : read_money(*text, currency_),
                              args_.where(flag));
    if (!read) {
      faults_.insert(faults_.end(), read.error().begin(), read.error().end());
      return {0, currency_};
    }
    if (flag != "--price" && read->currency != currency_)
      faults_.push_back({FaultCode::currency_mismatch,
                         args_.where(flag),
                         *text,
                         "an amount in " + std::string(currency_.code()),
                         {}});
    return *read;
  }

  void convert(PackPrice& price) {
    bool const foreign = price.said.currency != currency_;
    if (foreign && !args_.has("--rate"))
      faults_.push_back({FaultCode::currency_mismatch,
                         args_.where("--price"),
                         *args_.text("--price"),
                         "--rate, the " + std::string(currency_.code()) + " for one " +
                             std::string(price.said.currency.code()),
                         {}});
    if (!foreign && args_.has("--rate") && price.rate != Ratio(1))
      faults_.push_back({FaultCode::contradiction,
                         args_.where("--rate"),
                         ratio_text(price.rate),
                         "a rate of 1 for a price in the workshop's own money",
                         {}});
    Ratio const minor_units(currency_.minor_per_major(),
                            foreign ? price.said.currency.minor_per_major() : currency_.minor_per_major());
    price.price = {round_product(Ratio(price.said.minor), price.rate * minor_units, Rounding::half_away),
                   currency_};
  }

  Args const& args_;
  Currency currency_;
  std::vector<Fault> faults_;
};

}  // namespace

Read<std::optional<PackPrice>> price_said(Args const& args, Currency currency, Date from,
                                          std::optional<PackPrice> const& before) {
  return PriceReader(args, currency).read(from, before);
}

std::vector<Flag> material_flags() {
  std::vector<Flag> flags{{"--kind", FlagType::kind, "what it is"},
                          {"--sold-by", FlagType::sold_by, "how it is sold"}};
  auto const properties = property_flags();
  auto const price = price_flags();
  flags.insert(flags.end(), properties.begin(), properties.end());
  flags.insert(flags.end(), price.begin(), price.end());
  return flags;
}

Read<Material> material_said(Args const& args, std::string const& code, Currency currency, Date from) {
  std::vector<Fault> faults;
  auto const need = [&](std::string_view flag, std::string what) {
    if (!args.has(flag))
      faults.push_back({FaultCode::bad_command, args.where(flag), "", std::move(what), {}});
  };
  need("--kind", "what it is: paper, leather, thread ...");
  need("--sold-by", "sheet, skin, length, weight ...");
  need("--name", "what you call it");
  auto price = price_said(args, currency, from, std::nullopt);
  if (!price) faults.insert(faults.end(), price.error().begin(), price.error().end());
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  Material material;
  material.code = code;
  material.kind = *args.get<MaterialKind>("--kind");
  material.sold_by = *args.get<SoldBy>("--sold-by");
  material.least_spoil.dimension = dimension_of(material.sold_by);
  apply_properties(args, material);
  material.price = *price;
  if (auto found = check_material(material, args.where("")); !found.empty())
    return tl::unexpected(std::move(found));
  return material;
}

Read<MaterialId> keep_new_material(db::Writing& writing, Material const& material, Date from) {
  auto id = db::add_material(writing, material, from);
  if (!id || !material.price) return id;
  auto const priced = db::add_price(writing, material.code, *material.price);
  if (!priced) return tl::unexpected(priced.error());
  return id;
}

Material material_changed(Args const& args, Material const& before) {
  Material after = before;
  after.price.reset();
  if (auto const sold_by = args.get<SoldBy>("--sold-by")) after.sold_by = *sold_by;
  apply_properties(args, after);
  return after;
}

}  // namespace endband::cli
