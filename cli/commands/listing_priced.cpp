#include "cli/commands/listing_priced.h"

#include "cli/commands/quote_json.h"
#include "cli/commands/walk_shown.h"
#include "cli/words/selling_words.h"
#include "cli/words/values.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

Json left_out_json(LeftOut const& each) { return Json::Object{{"outlet", each.outlet}, {"why", each.why}}; }

Json dip_json(Dip const& dip) {
  return Json::Object{{"fee", dip.fee},
                      {"first", money_json(dip.first)},
                      {"last", money_json(dip.last)},
                      {"before", money_json(dip.before)},
                      {"lowest", money_json(dip.lowest)}};
}

std::string place_words(Through const& through) {
  Outlet const& outlet = through.outlet.outlet;
  std::string words = fmt::format("{} ({}), {}", outlet.name, outlet.code, outlet_kind_words(outlet.kind));
  if (through.outlet.rate_since) words += ", at the rate of " + date_text(*through.outlet.rate_since);
  return words;
}

// Of a price that what stands at cost takes whole there is no margin to tell.
std::string margin_text(Walk const& walk, Money standing) {
  return walk.price <= standing ? "none" : percent_text(margin_of(walk, standing), 1) + " %";
}

// What stands at cost is in no margin.
std::string of_what_earns(ListingPriced const& view, Walk const& walk) {
  Money const standing = view.book.sheet.standing;
  if (standing.minor == 0) return "";
  return fmt::format(" of what earns ({} less {} at cost)", money_text(walk.price), money_text(standing));
}

std::string left_words(ListingPriced const& view, Through const& through) {
  Walk const& walk = through.sold.offer.walk;
  std::string const hour = money_words(an_hour(walk, view.book.sheet));
  std::string const hours = hours_words(view.book.sheet.seconds);
  std::string text =
      walk.left.minor < 0
          ? fmt::format("It loses {}: each of {} earns {}.", money_words(-walk.left), hours, hour)
          : fmt::format("It leaves a margin of {}{} and {} for each of {}.",
                        margin_text(walk, view.book.sheet.standing), of_what_earns(view, walk), hour, hours);
  Outlet const& outlet = through.outlet.outlet;
  if (outlet.paid_after_days > 0)
    text += fmt::format(" It is paid about {} days after the sale.", outlet.paid_after_days);
  return text;
}

void add_sale(Document& document, ListingPriced const& view, Through const& through) {
  if (through.on_sale) {
    Walk const& full = through.sold.offer.walk;
    Walk const& sale = *through.on_sale;
    Money const standing = view.book.sheet.standing;
    document.paragraph(fmt::format(
        "With {} off, at {}: {} left instead of {}, a margin of {} instead of {}, {} an hour.{}",
        percent(*view.sale), money_words(sale.goods_shown), money_text(sale.left), money_words(full.left),
        margin_text(sale, standing), margin_text(full, standing), money_text(an_hour(sale, view.book.sheet)),
        sale.left.minor < 0 ? " That is below its full cost." : ""));
  }
  if (through.lowest)
    document.paragraph(
        fmt::format("Lowest ticket of the last 30 days there: {}.", money_words(*through.lowest)));
  else if (through.on_sale)
    document.paragraph(
        "It was not listed there in the last 30 days: there is no lowest price to show beside it.");
}

void add_dips(Document& document, Through const& through) {
  for (Dip const& dip : through.dips)
    document.notice(NoticeKind::note,
                    fmt::format("From {} to {} you keep less than just below, down to {} instead of {}: {}.",
                                money_text(dip.first), money_words(dip.last), money_text(dip.lowest),
                                money_words(dip.before), dip.fee));
}

Table rungs_of(Offer const& offer) {
  std::string const currency(offer.ladder.asked.price.currency.code());
  struct Named {
    std::string_view name;
    Rung const& rung;
  };
  Table table{{{"Without tax"},
               {currency, Align::decimal},
               {"Left", Align::decimal},
               {"An hour earns", Align::decimal}},
              {}};
  for (Named const& each :
       {Named{"Cash floor", offer.ladder.cash_floor}, Named{"Walk away below", offer.ladder.walk_away},
        Named{"Full cost", offer.ladder.full_cost}, Named{"Target", offer.ladder.target},
        Named{"Ticket", offer.ladder.asked}})
    table.add({std::string(each.name), money_text(each.rung.price), money_text(each.rung.left),
               money_text(each.rung.hourly)});
  return table;
}

void add_one(Document& document, ListingPriced const& view, Through const& through) {
  document.heading(place_words(through), 2);
  add_sending(document, through.sold.sent_by);
  add_walk(document, through.sold.offer.walk, through.sold.selling, view.book.shop.currency);
  document.paragraph(left_words(view, through));
  add_sale(document, view, through);
  if (through.sold.offer.ladder.target.price < view.book.shop.least_charge &&
      view.book.shop.least_charge <= through.sold.offer.walk.price)
    document.notice(NoticeKind::note,
                    fmt::format("The least charge of {} without tax says the ticket, not the goal.",
                                money_words(view.book.shop.least_charge)));
  add_dips(document, through);
  document.add(rungs_of(through.sold.offer));
}

// The most is left at the first.
Table side_by_side(ListingPriced const& view) {
  std::vector<Through const*> rows;
  for (Through const& each : view.through) rows.push_back(&each);
  std::stable_sort(rows.begin(), rows.end(), [](Through const* a, Through const* b) {
    return b->sold.offer.walk.left < a->sold.offer.walk.left;
  });
  std::string const shop(view.book.shop.currency.code());
  Table table{{{"Through"},
               {"Ticket", Align::right},
               {"Fees", Align::decimal, 2},
               {"Yours " + shop, Align::decimal},
               {"Left", Align::decimal},
               {"Margin", Align::right},
               {"An hour", Align::decimal},
               {"Paid after", Align::right, 3}},
              {}};
  if (view.sale)
    table.columns.push_back({fmt::format("Left at -{}", percent(*view.sale)), Align::decimal, 1});
  for (Through const* const each : rows) {
    Walk const& walk = each->sold.offer.walk;
    Outlet const& outlet = each->outlet.outlet;
    std::vector<std::string> cells{
        outlet.code,
        money_words(walk.ticket),
        money_text(walk.all_fees),
        money_text(walk.yours),
        money_text(walk.left),
        margin_text(walk, view.book.sheet.standing),
        money_text(an_hour(walk, view.book.sheet)),
        outlet.paid_after_days == 0 ? "" : fmt::format("{} days", outlet.paid_after_days)};
    if (each->on_sale) cells.push_back(money_text(each->on_sale->left));
    table.add(std::move(cells));
  }
  return table;
}

}  // namespace

Json to_json(ListingPriced const& view) {
  auto const through_json = [&](Through const& each) {
    Walk const& walk = each.sold.offer.walk;
    return Json(Json::Object{
        {"outlet", each.outlet.outlet.code},
        {"kind", outlet_kind_name(each.outlet.outlet.kind)},
        {"walk", walk_json(walk, each.sold.selling)},
        {"margin", ratio_json(margin_of(walk, view.book.sheet.standing))},
        {"hourly", money_json(an_hour(walk, view.book.sheet))},
        {"ladder", ladder_json(each.sold.offer.ladder)},
        {"dips", json_array(each.dips, dip_json)},
        {"on_sale", each.on_sale ? walk_json(*each.on_sale, each.sold.selling) : Json()},
        {"lowest_in_30_days", money_json(each.lowest)},
        {"exchange_rate", ratio_json(each.outlet.outlet.exchange.rate)},
        {"exchange_since", each.outlet.rate_since ? Json(date_text(*each.outlet.rate_since)) : Json()},
        {"sent_by", sent_by_json(each.sold.sent_by)},
        {"paid_after_days", each.outlet.outlet.paid_after_days}});
  };
  return Json::Object{{"title", view.book.title},
                      {"job", view.book.job_number.empty() ? Json() : Json(view.book.job_number)},
                      {"goal", goal_json(view.book.goal)},
                      {"cost", money_json(view.book.sheet.total)},
                      {"work_s", whole_seconds(view.book.sheet.seconds)},
                      {"sale", view.sale ? ratio_json(*view.sale) : Json()},
                      {"one_price", money_json(view.one_price)},
                      {"left_out", json_array(view.left_out, left_out_json)},
                      {"through", json_array(view.through, through_json)}};
}

Document to_document(ListingPriced const& view) {
  Document document;
  std::string const made =
      view.book.job_number.empty() ? "would cost" : "cost, as job " + view.book.job_number + ",";
  document.heading(fmt::format("{}: what it would sell for", view.book.title));
  document.paragraph(fmt::format("It {} {} and {} of work. The goal is {}.", made,
                                 money_words(view.book.sheet.total), hours_words(view.book.sheet.seconds),
                                 goal_words(view.book.goal)));
  if (view.book.selling.pieces > 1)
    document.paragraph(fmt::format("A ticket is for all {} copies together.", view.book.selling.pieces));
  if (view.one_price)
    document.paragraph(
        fmt::format("One ticket that meets it in all of them: {}.", money_words(*view.one_price)));
  for (LeftOut const& each : view.left_out)
    document.notice(NoticeKind::note, fmt::format("Left out: {}, {}.", each.outlet, each.why));
  if (view.through.size() == 1) {
    add_one(document, view, view.through.front());
  } else {
    document.add(side_by_side(view));
    for (Through const& each : view.through) add_dips(document, each);
  }
  std::string const code = view.through.front().outlet.outlet.code;
  document.next(fmt::format("endband listing post BOOK --through {} --at-price {}", code,
                            money_text(view.through.front().sold.offer.walk.ticket)));
  return document;
}

}  // namespace endband::cli
