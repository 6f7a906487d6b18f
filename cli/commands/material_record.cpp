#include "cli/commands/material_record.h"

#include "cli/words/values.h"

#include <fmt/format.h>

#include <string>

namespace endband::cli {
namespace {

// Nanometres as millimetres, without a float.
std::string thickness_words(Thickness thickness) { return number(Ratio(thickness.n, 1'000'000)) + " mm"; }

template <class T, class F>
std::string if_known(std::optional<T> const& value, F&& words) {
  return value ? words(*value) : std::string();
}

std::string thousandths(std::int64_t n, std::string_view unit) {
  return fmt::format("{} {}", number(Ratio(n, 1000)), unit);
}

std::string usable_words(Properties const& is) {
  if (!is.usable_height || !is.usable_width) return "";
  return sheet_words({*is.usable_height, *is.usable_width});
}

std::string yes(bool is) { return is ? "yes" : ""; }

template <class T>
Json n_of(std::optional<T> const& quantity) {
  return quantity ? Json(quantity->n) : Json();
}

Json ratio_of(std::optional<Ratio> const& ratio) { return ratio ? ratio_json(*ratio) : Json(); }

Json sheet_json(std::optional<SheetSize> const& sheet) {
  if (!sheet) return {};
  return Json::Object{{"first_um", sheet->first.n}, {"second_um", sheet->second.n}};
}

Json thread_json(std::optional<ThreadNumber> const& thread) {
  if (!thread) return {};
  return Json::Object{{"number", thread->number}, {"ply", thread->ply}};
}

}  // namespace

Fields fields_of(Material const& material) {
  Properties const& is = material.properties;
  return {
      {"kind", std::string(kind_row(material.kind).name)},
      {"sold-by", std::string(sold_by_name(material.sold_by))},
      {"name", material.name},
      {"buyer", material.buyer_words},
      {"caliper", if_known(is.caliper, thickness_words)},
      {"grammage", if_known(is.grammage_mg, [](std::int64_t n) { return thousandths(n, "g/m2"); })},
      {"density", if_known(is.density_kg_m3, [](std::int64_t n) { return fmt::format("{} kg/m3", n); })},
      {"sheet", if_known(is.sheet, sheet_words)},
      {"thread", if_known(is.thread, thread_words)},
      {"leaf-side", if_known(is.leaf_side, millimetres)},
      {"leaves-a-book", if_known(is.leaves_a_book, [](std::int64_t n) { return std::to_string(n); })},
      {"usable", usable_words(is)},
      {"usable-share", if_known(is.usable_share, percent)},
      {"spread", is.spread_mg_m2
                     ? thousandths(*is.spread_mg_m2, "g/m2")
                     : if_known(is.spread_ul_m2, [](std::int64_t n) { return thousandths(n, "ml/m2"); })},
      {"solids", if_known(is.solids, percent)},
      {"piece-mass", if_known(is.piece_mass, [](Mass m) { return thousandths(m.n, "g"); })},
      {"width", if_known(is.width, millimetres)},
      {"height", if_known(is.height, millimetres)},
      {"depth", if_known(is.depth, millimetres)},
      {"spoil", percent(material.spoil)},
      {"least-spoil", material.least_spoil.n == 0 ? "" : sold_words(material.least_spoil, material.sold_by)},
      {"ruin", material.ruin_chance == Ratio(0) ? "" : percent(material.ruin_chance)},
      {"charging", std::string(charging_name(material.charging))},
      {"kept-worth", percent(material.kept_worth)},
      {"restricted", yes(material.flags.restricted)},
      {"not-for-copper-alloys", yes(material.flags.not_for_copper_alloys)},
      {"tarnishes", yes(material.flags.tarnishes)},
  };
}

Fields fields_of(PackPrice const& price, SoldBy sold_by) {
  bool const foreign = price.said.currency != price.price.currency;
  return {
      {"pack", sold_words(price.pack, sold_by)},
      {"price", money_words(price.price) + (foreign ? " (" + money_words(price.said) + ")" : "")},
      {"rate", foreign ? number(price.rate) : ""},
      {"carriage", price.carriage.minor == 0 ? "" : money_words(price.carriage)},
      {"duty", price.duty == Ratio(0) ? "" : percent(price.duty)},
      {"tax", price.purchase_tax == Ratio(0) ? "" : percent(price.purchase_tax)},
      {"supplier", price.supplier},
  };
}

Json price_json(PackPrice const& price, BuyingRules const& buying) {
  Landed const landed = landed_cost(price, buying);
  return Json::Object{{"valid_from", date_text(price.valid_from)},
                      {"pack", amount_json(price.pack)},
                      {"price", money_json(price.price)},
                      {"said", money_json(price.said)},
                      {"rate", ratio_json(price.rate)},
                      {"carriage", money_json(price.carriage)},
                      {"duty", ratio_json(price.duty)},
                      {"purchase_tax", ratio_json(price.purchase_tax)},
                      {"supplier", price.supplier},
                      {"landed", Json::Object{{"duty", money_json(landed.duty)},
                                              {"tax", money_json(landed.tax)},
                                              {"tax_borne", money_json(landed.tax_borne)},
                                              {"total", money_json(landed.total)}}}};
}

Json material_json(Material const& material, BuyingRules const& buying) {
  Properties const& is = material.properties;
  return Json::Object{
      {"code", material.code},
      {"name", material.name},
      {"buyer", material.buyer_words},
      {"kind", kind_row(material.kind).name},
      {"sold_by", sold_by_name(material.sold_by)},
      {"caliper_nm", n_of(is.caliper)},
      {"grammage_mg_m2", is.grammage_mg},
      {"density_kg_m3", is.density_kg_m3},
      {"sheet", sheet_json(is.sheet)},
      {"thread", thread_json(is.thread)},
      {"leaf_side_um", n_of(is.leaf_side)},
      {"leaves_a_book", is.leaves_a_book},
      {"usable_height_um", n_of(is.usable_height)},
      {"usable_width_um", n_of(is.usable_width)},
      {"usable_share", ratio_of(is.usable_share)},
      {"spread_mg_m2", is.spread_mg_m2},
      {"spread_ul_m2", is.spread_ul_m2},
      {"solids", ratio_of(is.solids)},
      {"piece_mass_mg", n_of(is.piece_mass)},
      {"width_um", n_of(is.width)},
      {"height_um", n_of(is.height)},
      {"depth_um", n_of(is.depth)},
      {"spoil", ratio_json(material.spoil)},
      {"least_spoil", amount_json(material.least_spoil)},
      {"ruin_chance", ratio_json(material.ruin_chance)},
      {"charging", charging_name(material.charging)},
      {"kept_worth", ratio_json(material.kept_worth)},
      {"restricted", material.flags.restricted},
      {"not_for_copper_alloys", material.flags.not_for_copper_alloys},
      {"tarnishes", material.flags.tarnishes},
      {"price", material.price ? price_json(*material.price, buying) : Json()},
  };
}

}  // namespace endband::cli
