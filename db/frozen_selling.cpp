#include "db/frozen_selling.h"

#include "db/quote_selling_rows.h"

#include <algorithm>
#include <iterator>

namespace endband::db {
namespace {

std::vector<OutletRow> outlet_rows(FrozenQuote const& quote) {
  if (!quote.selling.outlet) return {};
  OutletRow row{quote.outlet_version, *quote.selling.outlet, {}, {}};
  if (auto const& points = quote.selling.outlet->points) {
    row.point_step = points->step;
    row.point_below = points->below;
  }
  return {std::move(row)};
}

std::vector<Fee> fees_of(FrozenQuote const& quote) {
  return quote.selling.outlet ? quote.selling.outlet->fees : std::vector<Fee>{};
}

std::vector<FeeStepRow> step_rows(std::vector<Fee> const& fees) {
  std::vector<FeeStepRow> rows;
  for (std::size_t fee = 0; fee < fees.size(); ++fee)
    for (FeeStep const& step : fees[fee].steps) rows.push_back({static_cast<std::int64_t>(fee), step});
  return rows;
}

// Of a quote without outlet and discount the offer says all of it.
bool keeps_walk(FrozenQuote const& quote) { return quote.selling.outlet || quote.selling.discount; }

std::vector<Walk> walk_rows(FrozenQuote const& quote) {
  return keeps_walk(quote) ? std::vector{quote.offer.walk} : std::vector<Walk>{};
}

std::vector<FeeTaken> taken_rows(FrozenQuote const& quote) {
  std::vector<FeeTaken> rows;
  if (keeps_walk(quote))
    for (Money const fee : quote.offer.walk.fees) rows.push_back({fee});
  return rows;
}

std::vector<TaxOfLineRow> tax_rows(TaxRules const& tax) {
  std::vector<TaxOfLineRow> rows;
  for (TaxOfLine const& own : tax.own)
    rows.push_back({own.component ? std::string(component_name(*own.component)) : "", own.name, own.rate});
  return rows;
}

template <class T>
std::vector<T> none_or_one(std::optional<T> const& kept) {
  return kept ? std::vector{*kept} : std::vector<T>{};
}

template <class T>
std::optional<T> none_or_one(Loader& loader) {
  std::vector<T> rows;
  loader.list(rows);
  return rows.empty() ? std::nullopt : std::optional<T>(std::move(rows.front()));
}

// One walk for saving and sealing.
template <class Visitor>
void each_part(Visitor& visit, FrozenQuote const& quote) {
  visit.template one<SellingRow>(quote);
  visit.list(outlet_rows(quote));
  std::vector<Fee> const fees = fees_of(quote);
  visit.list(fees);
  visit.list(step_rows(fees));
  visit.list(walk_rows(quote));
  visit.list(taken_rows(quote));
  visit.list(tax_rows(quote.selling.tax));
  visit.list(none_or_one(quote.selling.discount));
  visit.list(quote.options);
  visit.list(none_or_one(quote.made_to));
  visit.list(none_or_one(quote.sent_by));
}

void load_outlet(Loader& loader, FrozenQuote& quote) {
  auto row = none_or_one<OutletRow>(loader);
  if (!row) return;
  quote.outlet_version = row->version;
  Outlet& outlet = quote.selling.outlet.emplace(std::move(row->outlet));
  outlet.currency = loader.connection.currency;
  if (row->point_step) outlet.points = {*row->point_step, row->point_below.value_or(0)};
  loader.list(outlet.fees);
  std::vector<FeeStepRow> steps;
  loader.list(steps);
  for (FeeStepRow const& each : steps) {
    auto const fee = static_cast<std::size_t>(each.fee);
    if (fee >= outlet.fees.size())
      throw StoreError(FaultCode::not_a_workshop, "quote_fee_step: of no fee: " + std::to_string(each.fee));
    outlet.fees[fee].steps.push_back(each.step);
  }
}

void load_walk(Loader& loader, FrozenQuote& quote) {
  auto walk = none_or_one<Walk>(loader);
  if (!walk) return;
  quote.offer.walk = std::move(*walk);
  std::vector<FeeTaken> taken;
  loader.list(taken);
  std::transform(taken.begin(), taken.end(), std::back_inserter(quote.offer.walk.fees),
                 [](FeeTaken const& fee) { return fee.amount; });
}

void load_tax(Loader& loader, TaxRules& tax) {
  std::vector<TaxOfLineRow> rows;
  loader.list(rows);
  for (TaxOfLineRow const& row : rows) {
    std::optional<Component> component;
    if (!row.component.empty()) component = from_word<Component>(row.component);
    tax.own.push_back({component, row.name, row.rate});
  }
}

}  // namespace

void save_selling(Saver& saver, FrozenQuote const& quote) { each_part(saver, quote); }
void seal_selling(Sealer& sealer, FrozenQuote const& quote) { each_part(sealer, quote); }

void load_selling(Loader& loader, FrozenQuote& quote) {
  loader.one<SellingRow>(quote);
  load_outlet(loader, quote);
  load_walk(loader, quote);
  load_tax(loader, quote.selling.tax);
  quote.selling.discount = none_or_one<Discount>(loader);
  loader.list(quote.options);
  quote.made_to = none_or_one<MadeToOrder>(loader);
  quote.sent_by = none_or_one<SentBy>(loader);
}

}  // namespace endband::db
