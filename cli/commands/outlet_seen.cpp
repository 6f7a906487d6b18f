#include "cli/commands/outlet_seen.h"

#include "cli/words/selling_words.h"
#include "cli/words/values.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

Json step_json(FeeStep const& step) {
  return Json::Object{{"from", money_json(step.from)}, {"share", ratio_json(step.share)}};
}

Json fee_json(Fee const& fee) {
  return Json::Object{{"name", fee.name},
                      {"of", fee_base_name(fee.base)},
                      {"per", fee_per_name(fee.per)},
                      {"steps", json_array(fee.steps, step_json)},
                      {"on_whole", fee.on_whole},
                      {"fixed", money_json(fee.fixed)},
                      {"least", money_json(fee.least)},
                      {"most", money_json(fee.most)},
                      {"every_days", fee.every_days},
                      {"payment", fee.payment},
                      {"kept", fee.kept}};
}

Json returns_json(ReturnTerms const& returns) {
  return Json::Object{{"change_of_mind", ratio_json(returns.change_of_mind)},
                      {"carriage_back", money_json(returns.carriage_back)},
                      {"handling_s", returns.handling.n},
                      {"loss_of_value", ratio_json(returns.loss_of_value)},
                      {"fault", ratio_json(returns.fault)},
                      {"mending_s", returns.mending.n},
                      {"lost", ratio_json(returns.lost)},
                      {"insured", money_json(returns.insured)},
                      {"excess", money_json(returns.excess)},
                      {"unsold", ratio_json(returns.unsold)},
                      {"return_carriage", money_json(returns.return_carriage)}};
}

Json outlet_json(OutletRow const& row) {
  Outlet const& outlet = row.outlet;
  return Json::Object{{"code", outlet.code},
                      {"name", outlet.name},
                      {"kind", outlet_kind_name(outlet.kind)},
                      {"currency", outlet.currency.code()},
                      {"discount", ratio_json(outlet.discount)},
                      {"tax_mode", outlet.tax_mode ? Json(tax_mode_name(*outlet.tax_mode)) : Json()},
                      {"tax_rate", outlet.tax_rate ? ratio_json(*outlet.tax_rate) : Json()},
                      {"tax_collected", outlet.collects_tax},
                      {"cash_step", money_json({outlet.cash_step, outlet.currency})},
                      {"paid_after_days", outlet.paid_after_days},
                      {"days_to_sell", outlet.days_to_sell},
                      {"fees", json_array(outlet.fees, fee_json)},
                      {"returns", returns_json(outlet.returns)},
                      {"since", date_text(row.since)}};
}

KeyValues terms_of(OutletCard const& view) {
  Outlet const& outlet = view.row.outlet;
  KeyValues rows;
  auto const add = [&](std::string name, std::string value) {
    if (!value.empty()) rows.rows.emplace_back(std::move(name), std::move(value));
  };
  add("What it is", std::string(outlet_kind_words(outlet.kind)));
  add("Money", std::string(outlet.currency.code()));
  if (outlet.currency != view.shop) {
    Outlet changed = outlet;
    if (view.exchange) changed.exchange = *view.exchange;
    add("Exchange", view.exchange ? exchange_words(changed, view.shop)
                                  : "no rate yet; endband rates exchange " +
                                        std::string(outlet.currency.code()) + " RATE");
  }
  if (outlet.discount > Ratio(0)) add("Discount", percent(outlet.discount) + " off the ticket");
  if (outlet.tax_mode)
    add("Tax", std::string(tax_mode_name(*outlet.tax_mode)) +
                   (outlet.tax_rate ? ", " + percent(*outlet.tax_rate) : ""));
  if (outlet.collects_tax) add("Tax is paid over", "by the place");
  if (outlet.points && outlet.points->step > 1)
    add("Tickets",
        "multiples of " + money_text({outlet.points->step, outlet.currency}) +
            (outlet.points->below > 0 ? " less " + money_text({outlet.points->below, outlet.currency}) : ""));
  if (outlet.cash_step > 1) add("Rounded to", money_text({outlet.cash_step, outlet.currency}));
  if (outlet.paid_after_days > 0) add("Pays after", fmt::format("{} days", outlet.paid_after_days));
  if (outlet.days_to_sell > 0) add("Sells in about", fmt::format("{} days", outlet.days_to_sell));
  add("Since", date_text(view.row.since));
  return rows;
}

}  // namespace

Json to_json(OutletList const& view) {
  return Json::Object{{"outlets", json_array(view.outlets, outlet_json)}};
}

Document to_document(OutletList const& view) {
  Document document;
  if (view.outlets.empty())
    return document.paragraph("No outlets yet: books are sold by the workshop itself, without fees.")
        .next("endband outlet add CODE FILE    (endband outlet show --example prints one to start from)");
  Table table{{{"Code"},
               {"Name", Align::left, 1},
               {"What it is"},
               {"Money"},
               {"Fees", Align::right},
               {"Since", Align::left, 2}},
              {}};
  for (OutletRow const& row : view.outlets)
    table.add({row.outlet.code, row.outlet.name, std::string(outlet_kind_words(row.outlet.kind)),
               std::string(row.outlet.currency.code()), std::to_string(row.outlet.fees.size()),
               date_text(row.since)});
  return document.add(std::move(table));
}

Json to_json(OutletCard const& view) {
  return Json::Object{{"outlet", outlet_json(view.row)},
                      {"exchange_rate", view.exchange ? ratio_json(view.exchange->rate) : Json()},
                      {"exchange_spread", view.exchange ? ratio_json(view.exchange->spread) : Json()},
                      {"text", view.text}};
}

Document to_document(OutletCard const& view) {
  Document document;
  if (view.own_text) return document.add(Verbatim{view.text});
  Outlet const& outlet = view.row.outlet;
  document.heading(fmt::format("{} ({})", outlet.name, outlet.code));
  document.add(terms_of(view));
  if (!outlet.fees.empty()) {
    Table table{{{"Fee"}, {"What it takes"}}, {}};
    for (Fee const& fee : outlet.fees) table.add({fee.name, fee_words(fee)});
    document.add(std::move(table));
  }
  if (auto const returns = return_words(outlet.returns); !returns.empty()) {
    document.heading("What comes back", 2);
    for (std::string const& each : returns) document.paragraph(each);
  }
  return document.next(fmt::format("endband listing price book.toml --through {}", outlet.code));
}

Json to_json(OutletExample const& view) {
  return Json::Object{
      {"outlet", Json()}, {"exchange_rate", Json()}, {"exchange_spread", Json()}, {"text", view.text}};
}

Document to_document(OutletExample const& view) { return Document().add(Verbatim{view.text}); }

}  // namespace endband::cli
