// The price of a listing before it is posted: from the buyer's price to the maker's, through one outlet or
// side by side.
#include "cli/commands/commands.h"
#include "cli/commands/listed_book.h"
#include "cli/commands/listing_priced.h"
#include "cli/commands/money_said.h"
#include "cli/commands/text_read.h"
#include "cli/words/values.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

// Of all outlets those are left out whose money has no rate yet; one that was named is refused for it.
Read<std::vector<db::OutletInForce>> outlets_meant(db::Workshop& workshop, Args const& args, Date on,
                                                   std::vector<LeftOut>& left_out) {
  std::string const said = args.text("--through").value_or("");
  std::vector<std::string> const codes = said == "all"
                                             ? db::outlet_codes(workshop, on)
                                             : args.codes("--through").value_or(std::vector<std::string>{});
  if (codes.empty())
    return refuse({FaultCode::bad_command,
                   args.where("--through"),
                   "",
                   said == "all" ? "an outlet that is there; endband outlet add CODE FILE"
                                 : "an outlet's code, several of them, or all",
                   {}});
  std::vector<db::OutletInForce> outlets;
  std::vector<Fault> faults;
  for (std::string const& code : codes) {
    auto outlet = outlet_at(workshop, code, on, args.where("--through"));
    if (outlet)
      outlets.push_back(std::move(*outlet));
    else if (said == "all" && outlet.error().front().code == FaultCode::missing_setting)
      left_out.push_back({code, "no exchange rate yet"});
    else
      faults.insert(faults.end(), outlet.error().begin(), outlet.error().end());
  }
  if (faults.empty() && outlets.empty())
    faults.push_back(
        {FaultCode::rule_refused, args.where("--through"), said, "an outlet whose money has a rate", {}});
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return outlets;
}

// A price on the command line, in the money of the tickets.
Read<std::optional<Money>> ticket_said(Args const& args, Currency currency) {
  auto const text = args.text("--at-price");
  if (!text) return std::nullopt;
  auto const money = read_money_in(*text, currency, args.where("--at-price"), in_tickets(currency));
  if (!money) return tl::unexpected(money.error());
  return *money;
}

std::optional<Money> lowest_of_30_days(db::Workshop& workshop, ListedBook const& book,
                                       std::string const& outlet, Date on) {
  for (db::Listing const& listing : db::list_listings(workshop, on, false)) {
    bool const same =
        book.job ? listing.job == book.job_number : listing.job.empty() && listing.title == book.title;
    if (same && listing.outlet == outlet)
      return db::lowest_ticket(workshop, listing, on - std::chrono::days{30}, on);
  }
  return std::nullopt;
}

struct Asks {
  std::optional<Money> ticket;  // --at-price, or the one for all
  std::optional<Ratio> sale;
};

Read<Through> priced_through(ListedBook const& book, db::OutletInForce outlet, Asks const& asks) {
  auto sold = sold_through(book, outlet.outlet, asks.ticket);
  if (!sold) return tl::unexpected(std::move(sold.error()));
  Through through{std::move(outlet), std::move(*sold), {}, {}, {}};
  Sale const sale = sale_of(book, through.sold);
  Money const ticket = through.sold.offer.walk.ticket;
  through.dips = dips(sale, ticket, ticket + scale(ticket, Ratio(1, 2), Rounding::up));
  if (asks.sale) through.on_sale = walk(sale, ticket, *asks.sale);
  return through;
}

std::vector<db::OutletInForce> of_one_money(std::vector<db::OutletInForce> outlets,
                                            std::vector<LeftOut>& left_out) {
  Currency const currency = outlets.front().outlet.currency;
  std::erase_if(outlets, [&](db::OutletInForce const& each) {
    if (each.outlet.currency == currency) return false;
    left_out.push_back({each.outlet.code, fmt::format("its tickets are in {}", each.outlet.currency.code())});
    return true;
  });
  return outlets;
}

// One ticket for all. A higher one may ask for a dearer insurance, and that for a higher one: until it asks
// no more.
Read<Money> ticket_for_all(ListedBook const& book, std::vector<db::OutletInForce> const& outlets) {
  std::optional<Money> ticket;
  for (;;) {
    std::vector<Sold> sold;
    for (db::OutletInForce const& each : outlets) {
      auto through = sold_through(book, each.outlet, ticket);
      if (!through) return tl::unexpected(std::move(through.error()));
      sold.push_back(std::move(*through));
    }
    std::vector<Sale> sales;
    for (Sold const& each : sold) sales.push_back(sale_of(book, each));
    auto const least = one_ticket(sales, book.goal);
    if (!least || !book.sending || (ticket && *least <= *ticket)) return least;
    ticket = *least;
  }
}

Read<void> check_flags(Args const& args) {
  if (args.has("--one-price") && args.has("--at-price"))
    return refuse({FaultCode::contradiction,
                   args.where("--one-price"),
                   "--one-price and --at-price",
                   "one of the two",
                   {}});
  if (auto const sale = args.get<Ratio>("--sale"); sale && (*sale <= Ratio(0) || *sale >= Ratio(1)))
    return refuse({FaultCode::out_of_range,
                   args.where("--sale"),
                   percent(*sale),
                   "more than 0 % and less than 100 %",
                   {}});
  return {};
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  if (auto const done = check_flags(args); !done) return tl::unexpected(done.error());
  auto book = listed_book(context, **workshop, args);
  if (!book) return tl::unexpected(std::move(book.error()));
  std::vector<LeftOut> left_out;
  auto outlets = outlets_meant(**workshop, args, context.on, left_out);
  if (!outlets) return tl::unexpected(std::move(outlets.error()));
  ListingPriced view{.book = std::move(*book),
                     .through = {},
                     .one_price = {},
                     .left_out = std::move(left_out),
                     .sale = args.get<Ratio>("--sale")};
  Asks asks{{}, view.sale};
  if (args.has("--one-price")) {
    *outlets = of_one_money(std::move(*outlets), view.left_out);
    auto const ticket = ticket_for_all(view.book, *outlets);
    if (!ticket) return tl::unexpected(ticket.error());
    view.one_price = asks.ticket = *ticket;
  }
  for (db::OutletInForce& outlet : *outlets) {
    if (args.has("--at-price")) {
      auto const ticket = ticket_said(args, outlet.outlet.currency);
      if (!ticket) return tl::unexpected(ticket.error());
      asks.ticket = *ticket;
    }
    std::string const code = outlet.outlet.code;
    auto through = priced_through(view.book, std::move(outlet), asks);
    if (!through) {
      for (Fault& fault : through.error()) fault.where.source = "through " + code;
      return tl::unexpected(std::move(through.error()));
    }
    through->lowest = lowest_of_30_days(**workshop, view.book, code, context.on);
    view.through.push_back(std::move(*through));
  }
  return Answer(std::move(view));
}

std::vector<Flag> listing_price_flags() {
  std::vector<Flag> flags{
      {"--through", FlagType::outlets, "an outlet, several parted by commas, or all"},
      {"--at-price", FlagType::money, "a ticket of yours, instead of the least that meets the goal"},
      {"--sale", FlagType::share, "what a sale of so much off would leave"},
      {"--one-price", FlagType::on, "the least ticket that meets the goal in all of them"}};
  for (Flag const& flag : goal_flags()) flags.push_back(flag);
  return flags;
}

}  // namespace

Command listing_price() {
  return {
      .noun = "listing",
      .verb = "price",
      .summary = "Price a listing before it is posted: what a ticket leaves, outlet by outlet",
      .about =
          "A book of a description is priced as a quote of it would be; the book of a job from what it has "
          "really cost.",
      .words = {{"BOOK", FlagType::book, "a description, or the number of a job"}},
      .flags = listing_price_flags(),
      .examples = {"listing price book.toml --through post",
                   "listing price book.toml --through all --one-price"},
      .refused_when = "",
      .writes = false,
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
