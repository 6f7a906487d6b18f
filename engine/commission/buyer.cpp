#include "engine/commission/commission.h"
#include "engine/pricing/walk.h"

#include <algorithm>

namespace endband {
namespace {

std::int64_t const* value_e6(FrozenQuote const& quote, FigureId id) {
  for (FrozenFigure const& figure : quote.figures)
    if (figure.id == id) return &figure.value_e6;
  return nullptr;
}

std::int64_t count_of(FrozenQuote const& quote, FigureId id) {
  std::int64_t const* const value = value_e6(quote, id);
  return value == nullptr ? 0 : mul_div(*value, 1, 1'000'000, Rounding::half_away);
}

// A frozen length is in millionths of a millimetre.
Length length_of(FrozenQuote const& quote, FigureId id) {
  std::int64_t const* const value = value_e6(quote, id);
  return value == nullptr ? Length{} : Length{mul_div(*value, 1, 1000, Rounding::half_away)};
}

std::vector<BuyerMaterial> materials_of(FrozenQuote const& quote) {
  std::vector<BuyerMaterial> materials;
  for (FrozenChoice const& choice : quote.choices) {
    auto const material = std::find_if(quote.materials.begin(), quote.materials.end(),
                                       [&](Material const& row) { return row.id == choice.material; });
    if (material != quote.materials.end() && !material->buyer_words.empty())
      materials.push_back({choice.role, material->buyer_words});
  }
  return materials;
}

bool concerns_buyer(WarningCode code) {
  return code == WarningCode::leaf_tarnishes || code == WarningCode::restricted_material ||
         code == WarningCode::customer_piece_cannot_be_replaced;
}

std::vector<WarningCode> notices_of(FrozenQuote const& quote) {
  std::vector<WarningCode> notices;
  for (Warning const& warning : quote.warnings)
    if (concerns_buyer(warning.code) &&
        std::find(notices.begin(), notices.end(), warning.code) == notices.end())
      notices.push_back(warning.code);
  return notices;
}

// A raised cord shows as a band; where nobody counted the one, the other is known.
std::int64_t supports_of(FrozenQuote const& quote) {
  std::int64_t const supports = count_of(quote, FigureId::supports);
  return supports != 0 ? supports : count_of(quote, FigureId::bands);
}

// The figures are of the first volume.
void add_up_volumes(BuyerQuote& buyer, std::vector<VolumeMade> const& volumes) {
  buyer.volumes = volumes;
  if (volumes.empty()) return;
  buyer.pages = buyer.sections = 0;
  for (VolumeMade const& volume : volumes) {
    buyer.pages += volume.pages;
    buyer.sections += volume.sections;
  }
}

}  // namespace

BuyerQuote for_buyer(FrozenQuote const& quote) {
  BuyerQuote buyer;
  buyer.title = quote.title;
  buyer.binding = quote.binding;
  buyer.on = quote.on;
  buyer.height = length_of(quote, FigureId::closed_height);
  buyer.width = length_of(quote, FigureId::closed_width);
  buyer.thickness = length_of(quote, FigureId::closed_thickness);
  buyer.pages = count_of(quote, FigureId::pages);
  buyer.sections = count_of(quote, FigureId::sections);
  buyer.supports = supports_of(quote);
  buyer.ways = quote.ways;
  Style const* const style = style_named(quote.binding);
  buyer.box_alone = style != nullptr && style->body == Body::box_alone;
  buyer.registers = count_of(quote, FigureId::registers);
  buyer.corners = count_of(quote, FigureId::corners);
  buyer.clasps = count_of(quote, FigureId::clasps);
  buyer.materials = materials_of(quote);
  buyer.notices = notices_of(quote);
  for (OfferLine const& line : quote.offer.lines) buyer.lines.push_back({line.component, line.shown});
  buyer.goods_shown = quote.offer.goods_shown;
  buyer.carriage_shown = quote.offer.carriage_shown;
  buyer.tax = quote.offer.tax;
  buyer.total = quote.offer.total;
  buyer.deposit = quote.offer.deposit;
  buyer.balance = quote.offer.balance;
  TaxRules const tax = tax_of(quote.selling);
  buyer.tax_mode = tax.mode;
  buyer.tax_name = tax.name;
  buyer.tax_rate = tax.rate;
  buyer.delivery_words = quote.delivery.words;
  buyer.copies = quote.copies;
  add_up_volumes(buyer, quote.volumes);
  buyer.set_shares = quote.set_shares;
  for (CopyPrice const& price : quote.copy_prices) buyer.copy_prices.push_back({price.copies, price.shown});
  if (quote.repairs) buyer.repairs = {quote.repairs->low, quote.repairs->high, quote.repairs->ceiling};
  buyer.custody = quote.custody;
  buyer.proof = std::any_of(quote.work.lines.begin(), quote.work.lines.end(),
                            [](WorkLine const& line) { return line.kind == OperationKind::draw_proof; });
  bool const walked = quote.selling.outlet || quote.selling.discount;  // else it was not kept: there is none
  buyer.discount_shown = walked ? quote.offer.walk.discount : Money{0, quote.offer.goods.currency};
  if (quote.selling.discount) buyer.discount_reason = quote.selling.discount->reason;
  buyer.tax_of_lines = tax.own;
  buyer.taxed = taxed_at({quote.sheet, quote.delivery, quote.selling, quote.shop}, quote.offer.goods_shown);
  for (OptionPrice const& option : quote.options)
    buyer.options.push_back({option.words, option.either, option.shown});
  buyer.made_to = quote.made_to;
  if (quote.promise) {
    buyer.starts = quote.promise->starts;
    buyer.ready_by = quote.promise->sure;
  }
  return buyer;
}

}  // namespace endband
