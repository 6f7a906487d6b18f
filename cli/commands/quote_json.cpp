#include "cli/commands/quote_json.h"

#include "cli/words/book_words.h"
#include "cli/words/order_words.h"
#include "engine/pricing/walk.h"

#include <algorithm>
#include <variant>

namespace endband::cli {
namespace {

std::string code_of(std::span<Material const> materials, MaterialId id) {
  Material const* const material = material_of(materials, id);
  return material == nullptr ? "" : material->code;
}

Json use_json(Use const& use) {
  return Json::Object{
      {"item", item_name(use.item)}, {"part", part_name(use.part)}, {"net", amount_json(use.net)}};
}

Json cost_line_json(FrozenQuote const& quote, CostLine const& line) {
  return Json::Object{{"kind", cost_kind_name(line.kind)},
                      {"part", part_name(line.part)},
                      {"words", cost_line_words(quote, line)},
                      {"at_cost", line.at_cost},
                      {"amount", money_json(line.amount)}};
}

}  // namespace

std::int64_t whole_seconds(Ratio seconds) { return round(seconds, Rounding::half_away); }

Json piece_json(Piece const& piece, std::span<Material const> materials) {
  return Json::Object{{"item", item_name(piece.item)},
                      {"part", part_name(piece.part)},
                      {"material", code_of(materials, piece.material)},
                      {"count", piece.count},
                      {"height_um", piece.height.n},
                      {"width_um", piece.width.n},
                      {"grain", grain_words(piece.grain)},
                      {"lie", lie_name(piece.lay.lie)},
                      {"within_deg", piece.lay.within_deg},
                      {"grade", grade_name(piece.grade)},
                      {"outline", outline_name(piece.outline)},
                      {"trim_height_um", piece.trim_height.n},
                      {"trim_width_um", piece.trim_width.n},
                      {"skin_group", piece.skin_group},
                      {"volume", piece.volume}};
}

Json warning_json(Warning const& warning, std::span<Material const> materials) {
  Material const* const material = material_of(materials, warning.material);
  return Json::Object{{"code", warning_name(warning.code)},
                      {"message", warning_words(warning, materials)},
                      {"material", material == nullptr ? Json() : Json(material->code)}};
}

Json header_json(db::QuoteHeader const& header) {
  return Json::Object{{"number", db::number_text(header.number)},
                      {"customer", header.customer},
                      {"customer_name", header.customer_name},
                      {"title", header.title},
                      {"binding", header.binding},
                      {"on", date_text(header.on)},
                      {"valid_until", date_text(header.valid_until)},
                      {"total", money_json(header.total)},
                      {"left", money_json(header.left)},
                      {"rules", header.rules}};
}

Json rung_json(Rung const& rung) {
  return Json::Object{{"price", money_json(rung.price)},
                      {"left", money_json(rung.left)},
                      {"hourly", money_json(rung.hourly)}};
}

Json ladder_json(Ladder const& ladder) {
  return Json::Object{{"cash_floor", rung_json(ladder.cash_floor)},
                      {"walk_away", rung_json(ladder.walk_away)},
                      {"full_cost", rung_json(ladder.full_cost)},
                      {"target", rung_json(ladder.target)},
                      {"asked", rung_json(ladder.asked)}};
}

Json goal_json(Goal const& goal) {
  struct Members {
    Json operator()(MarginGoal const& of) const { return share("margin", of.margin); }
    Json operator()(MarkupGoal const& of) const { return share("markup", of.markup); }
    Json operator()(ProfitGoal const& of) const { return sum("profit", of.left); }
    Json operator()(HourlyGoal const& of) const { return sum("hourly", of.an_hour); }
    Json operator()(LeaveGoal const& of) const { return sum("leave", of.yours); }
    static Json share(std::string_view kind, Ratio of) {
      return Json::Object{{"kind", kind}, {"share", ratio_json(of)}, {"sum", Json()}};
    }
    static Json sum(std::string_view kind, Money of) {
      return Json::Object{{"kind", kind}, {"share", Json()}, {"sum", money_json(of)}};
    }
  };
  return std::visit(Members{}, goal);
}

Json bill_json(FrozenQuote const& quote) {
  auto const line_json = [&](BillLine const& line) {
    return Json(Json::Object{
        {"material", code_of(quote.materials, line.material)},
        {"name", material_name(quote.materials, line.material)},
        {"uses", json_array(line.uses, use_json)},
        {"how", how_found_name(line.how)},
        {"net", amount_json(line.net)},
        {"spoil", amount_json(line.spoil)},
        {"cutting_loss", amount_json(line.cutting_loss)},
        {"kept", amount_json(line.kept)},
        {"pack_remainder", amount_json(line.pack_remainder)},
        {"opened", amount_json(line.opened)},
        {"charged", amount_json(line.charged)},
        {"units_opened", line.units_opened},
        {"charging", charging_name(line.charging)},
        {"customer_supplied", line.customer_supplied},
        {"pack", amount_json(line.unit.pack)},
        {"pack_landed", money_json({line.unit.minor, quote.shop.currency})},
        {"cost", money_json(line.customer_supplied ? Money{0, quote.shop.currency} : material_cost(line))}});
  };
  return json_array(quote.bill.lines, line_json);
}

Json work_json(FrozenQuote const& quote) {
  auto const line_json = [](WorkLine const& line) {
    return Json(Json::Object{{"step", operation_row(line.kind).name},
                             {"words", work_line_words(line)},
                             {"part", part_name(line.part)},
                             {"count_thousandths", line.count.n},
                             {"driver", driver_name(operation_row(line.kind).driver)},
                             {"mean_s", whole_seconds(line.mean_seconds)},
                             {"low_s", whole_seconds(line.low_seconds)},
                             {"high_s", whole_seconds(line.high_seconds)},
                             {"wait_low_s", line.wait_low.n},
                             {"wait_high_s", line.wait_high.n}});
  };
  return json_array(quote.work.lines, line_json);
}

Json cost_json(FrozenQuote const& quote) {
  CostSheet const& sheet = quote.sheet;
  auto const line_json = [&](CostLine const& line) { return cost_line_json(quote, line); };
  return Json::Object{{"materials", money_json(sheet.materials)},   {"labour", money_json(sheet.labour)},
                      {"overhead", money_json(sheet.overhead)},     {"outside", money_json(sheet.outside)},
                      {"allowances", money_json(sheet.allowances)}, {"earning", money_json(sheet.earning)},
                      {"standing", money_json(sheet.standing)},     {"total", money_json(sheet.total)},
                      {"outlay", money_json(sheet.outlay)},         {"work_s", whole_seconds(sheet.seconds)},
                      {"lines", json_array(sheet.lines, line_json)}};
}

Json offer_json(FrozenQuote const& quote) {
  Offer const& offer = quote.offer;
  TaxRules const tax = tax_of(quote.selling);
  return Json::Object{
      {"goods", money_json(offer.goods)},       {"goods_shown", money_json(offer.goods_shown)},
      {"carriage", money_json(offer.carriage)}, {"carriage_shown", money_json(offer.carriage_shown)},
      {"tax_mode", tax_mode_name(tax.mode)},    {"tax_rate", ratio_json(tax.rate)},
      {"tax", money_json(offer.tax)},           {"total", money_json(offer.total)},
      {"deposit", money_json(offer.deposit)},   {"balance", money_json(offer.balance)},
      {"left", money_json(offer.left)},         {"margin", ratio_json(offer.margin)}};
}

Json copies_json(std::vector<BuyerCopies> const& prices) {
  auto const price_json = [](BuyerCopies const& price) {
    return Json(Json::Object{{"copies", price.copies}, {"shown", money_json(price.shown)}});
  };
  return json_array(prices, price_json);
}

Json next_copy_json(std::vector<BuyerCopies> const& prices) {
  std::optional<Money> const next = next_copy(prices);
  return money_json(next);
}

Json volumes_json(std::vector<VolumeMade> const& volumes) {
  auto const volume_json = [](VolumeMade const& volume) {
    return Json(Json::Object{{"title", volume.title},
                             {"closed_height_um", volume.height.n},
                             {"closed_width_um", volume.width.n},
                             {"closed_thickness_um", volume.thickness.n},
                             {"pages", volume.pages},
                             {"sections", volume.sections},
                             {"mass_mg", volume.mass.n}});
  };
  return json_array(volumes, volume_json);
}

Json custody_json(std::vector<InCustody> const& custody) {
  auto const left_json = [](InCustody const& left) {
    return Json(Json::Object{
        {"what", left.what}, {"condition", left.condition}, {"declared", money_json(left.declared)}});
  };
  return json_array(custody, left_json);
}

Json order_json(FrozenQuote const& quote) {
  Json repairs;
  if (quote.repairs)
    repairs = Json::Object{{"low", money_json(quote.repairs->low)},
                           {"likely", money_json(quote.repairs->likely)},
                           {"high", money_json(quote.repairs->high)},
                           {"ceiling", money_json(quote.repairs->ceiling)},
                           {"ceiling_share", ratio_json(quote.repairs->ceiling_share)}};
  std::vector<BuyerCopies> const prices = copies_of(quote);
  return Json::Object{{"copies", quote.copies},
                      {"copy_prices", copies_json(prices)},
                      {"next_copy", next_copy_json(prices)},
                      {"set_shares", set_shares_name(quote.set_shares)},
                      {"volumes", volumes_json(quote.volumes)},
                      {"repairs", std::move(repairs)},
                      {"custody", custody_json(quote.custody)}};
}

Json ways_json(Ways ways) {
  Json::Array rows;
  for (std::size_t i = 0; i < axis_count; ++i)
    if (auto const way = ways.of(static_cast<Axis>(i)))
      rows.push_back(Json::Object{{"key", axis_row(static_cast<Axis>(i)).key},
                                  {"way", way_row(*way).name},
                                  {"words", way_row(*way).words}});
  return rows;
}

Json outside_json(FrozenQuote const& quote) {
  auto const work_json = [](Outside const& outside) {
    return Json(Json::Object{{"words", outside.words},
                             {"kind", outside_kind_name(outside.kind)},
                             {"by", outside_by_name(outside.by)},
                             {"supplier", outside.supplier},
                             {"each", money_json(outside.each)},
                             {"quantity", amount_json(outside.quantity)},
                             {"least_charge", money_json(outside.least_charge)},
                             {"carriage", money_json(outside.carriage)},
                             {"redo", ratio_json(outside.redo)},
                             {"lead_s", outside.lead.n},
                             {"at_cost", outside.at_cost},
                             {"price", money_json(outside.price)}});
  };
  return json_array(quote.outside, work_json);
}

std::vector<CostLine> largest_costs(FrozenQuote const& quote, std::size_t how_many) {
  std::vector<CostLine> lines = quote.sheet.lines;
  std::stable_sort(lines.begin(), lines.end(),
                   [](CostLine const& a, CostLine const& b) { return a.amount.minor > b.amount.minor; });
  if (lines.size() > how_many) lines.resize(how_many);
  return lines;
}

Json largest_json(FrozenQuote const& quote) {
  return json_array(largest_costs(quote, 3),
                    [&](CostLine const& line) { return cost_line_json(quote, line); });
}

}  // namespace endband::cli
