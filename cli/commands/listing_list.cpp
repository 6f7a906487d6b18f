// What is listed, and whether the renewals of a listing eat what is left of it.
#include "cli/commands/commands.h"
#include "cli/commands/listed_book.h"
#include "cli/document/document.h"
#include "cli/document/json.h"
#include "cli/words/values.h"
#include "db/listings.h"
#include "db/settings.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

struct Listed {
  db::Listing listing;
  int days = 0;                // on the list so far
  std::int64_t renewals = 0;   // fees paid anew so far
  std::optional<Money> first;  // left had it been sold at once; none: its outlet is not there any more
  std::optional<Money> now;    // left if it is sold today
  bool eaten() const {         // renewals took more than a tenth of what was to be left, or all of it
    if (!first || !now || !(*now < *first)) return false;
    return now->minor < 0 || Ratio(first->minor - now->minor) * Ratio(10) > Ratio(first->minor);
  }
};

struct ListingList {
  std::vector<Listed> listings;
  bool ended_too = false;
};

// What is left of the ticket were it sold after so many days.
Money left_after(db::Listing const& listing, Outlet outlet, int days, db::Shop const& shop) {
  CostSheet const sheet = sheet_of(listing.cost);
  Delivery const delivery{listing.cost.carriage, ""};
  outlet.days_to_sell = days;
  SellingRules selling = shop.selling;
  selling.pieces = listing.cost.pieces;
  selling.outlet = std::move(outlet);
  return walk(Sale{sheet, delivery, selling, shop.shop}, listing.ticket).left;
}

Listed seen(db::Workshop& workshop, db::Listing listing, db::Shop const& shop, Date on) {
  Listed row;
  Date const until = listing.ended_on.value_or(on);
  row.days = static_cast<int>((until - listing.since).count());
  auto const outlet = db::load_outlet(workshop, listing.outlet, on);
  if (outlet && outlet->outlet.currency == listing.ticket.currency) {
    for (Fee const& fee : outlet->outlet.fees)
      if (fee.per == FeePer::listing) row.renewals += periods(fee, std::max(1, row.days)) - 1;
    row.first = left_after(listing, outlet->outlet, 0, shop);
    row.now = left_after(listing, outlet->outlet, std::max(1, row.days), shop);
  }
  row.listing = std::move(listing);
  return row;
}

Json listed_json(Listed const& row) {
  db::Listing const& listing = row.listing;
  return Json::Object{{"number", listing.id},
                      {"outlet", listing.outlet},
                      {"job", listing.job.empty() ? Json() : Json(listing.job)},
                      {"title", listing.title},
                      {"since", date_text(listing.since)},
                      {"days", row.days},
                      {"ticket", money_json(listing.ticket)},
                      {"ticket_since", date_text(listing.ticket_since)},
                      {"renewals", row.renewals},
                      {"left_at_first", money_json(row.first)},
                      {"left_now", money_json(row.now)},
                      {"renewals_eat_it", row.eaten()},
                      {"ended", listing.ended.empty() ? Json() : Json(listing.ended)},
                      {"ended_on", listing.ended_on ? Json(date_text(*listing.ended_on)) : Json()}};
}

Json to_json(ListingList const& view) {
  return Json::Object{{"listings", json_array(view.listings, listed_json)}};
}

void add_warnings(Document& document, ListingList const& view) {
  for (Listed const& row : view.listings) {
    db::Listing const& listing = row.listing;
    if (listing.ended_on || !row.now) continue;
    if (row.eaten())
      document.notice(
          NoticeKind::warning,
          fmt::format("Listing {} at {}: {} renewal{} took {} of the {} that would have been left.",
                      listing.id, listing.outlet, row.renewals, row.renewals == 1 ? "" : "s",
                      money_words(*row.first - *row.now), money_words(*row.first)));
    else if (row.now->minor < 0)
      document.notice(NoticeKind::warning, fmt::format("Listing {} at {} loses {} if it is sold.", listing.id,
                                                       listing.outlet, money_words(-*row.now)));
  }
}

Document to_document(ListingList const& view) {
  Document document;
  if (view.listings.empty())
    return document.paragraph(view.ended_too ? "Nothing was ever listed." : "Nothing is listed.")
        .next("endband listing price book.toml --through all");
  Table table{{{"No.", Align::right},
               {"Outlet"},
               {"Title", Align::left, 1},
               {"Job", Align::left, 4},
               {"Since", Align::left, 2},
               {"Days", Align::right, 3},
               {"Ticket", Align::right},
               {"Left now", Align::right}},
              {}};
  if (view.ended_too) table.columns.push_back({"Ended"});
  for (Listed const& row : view.listings) {
    db::Listing const& listing = row.listing;
    std::vector<std::string> cells{std::to_string(listing.id),
                                   listing.outlet,
                                   listing.title,
                                   listing.job,
                                   date_text(listing.since),
                                   std::to_string(row.days),
                                   money_words(listing.ticket),
                                   row.now ? money_text(*row.now) : ""};
    if (view.ended_too)
      cells.push_back(listing.ended_on ? listing.ended + " " + date_text(*listing.ended_on) : "");
    table.add(std::move(cells));
  }
  document.add(std::move(table));
  add_warnings(document, view);
  return document;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  db::Reading const reading(**workshop);
  ListingList view{{}, args.has("--ended")};
  std::vector<db::Listing> listings = db::list_listings(**workshop, context.on, view.ended_too);
  if (listings.empty()) return Answer(std::move(view));
  auto const shop = db::load_shop(**workshop, context.on);
  if (!shop) return tl::unexpected(shop.error());
  for (db::Listing& listing : listings)
    view.listings.push_back(seen(**workshop, std::move(listing), *shop, context.on));
  return Answer(std::move(view));
}

}  // namespace

Command listing_list() {
  return {.noun = "listing",
          .verb = "list",
          .summary = "List what is listed where, since when, and what is left of it",
          .about = "Warns where the fees of renewals have taken more than a tenth of what was to be left.",
          .words = {},
          .flags = {{"--ended", FlagType::on, "those that have ended too"}},
          .examples = {"listing list", "listing list --ended --jsonl"},
          .refused_when = "",
          .writes = false,
          .lists = true,
          .run = run};
}

}  // namespace endband::cli
