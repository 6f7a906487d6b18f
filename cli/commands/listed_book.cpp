#include "cli/commands/listed_book.h"

#include "cli/commands/described.h"
#include "cli/commands/job_seen.h"
#include "cli/commands/planned.h"
#include "db/bench.h"
#include "db/steps.h"
#include "engine/book/copies.h"
#include "engine/job/job.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

constexpr char const* listing = "listing";  // price or post: where a fault of carriage is

Read<ListedBook> of_job(Context& context, db::Workshop& workshop, Args const& args,
                        db::JobHeader const& job) {
  FrozenQuote const agreed = db::load_quote(workshop, job.quote.id);
  JobRecord const record = db::load_record(workshop, job);
  auto shop = db::load_shop(workshop, context.on);
  if (!shop) return tl::unexpected(std::move(shop.error()));
  Described described;
  described.shop = std::move(*shop);
  auto asked = asked_of(context, workshop, args.without("--through").without("--at-price"), described);
  if (!asked) return tl::unexpected(std::move(asked.error()));
  if (asked->sending)
    return refuse({FaultCode::bad_command,
                   args.where("--service"),
                   asked->sending->service.code,
                   "--carriage, for the book of a job: its parcel is weighed already",
                   {}});
  ListedBook book;
  book.title = agreed.title.empty() ? "the book of job " + job.number : agreed.title;
  book.job = job.id;
  book.job_number = job.number;
  book.sheet = sheet_as_made(agreed, record);
  book.selling = described.shop.selling;
  book.selling.pieces = agreed.copies;
  book.delivery = asked->delivery;
  book.shop = described.shop.shop;
  book.goal = asked->goal;
  return book;
}

Read<ListedBook> of_description(Context& context, db::Workshop& workshop, Args const& args) {
  auto commission = [&]() -> Read<Commission> {
    db::Reading const reading(workshop);
    auto described = describe(context, workshop, args.word(0));
    if (!described) return tl::unexpected(std::move(described.error()));
    auto asked = asked_of(context, workshop, args.without("--through").without("--at-price"), *described);
    if (!asked) return tl::unexpected(std::move(asked.error()));
    asked->outlet.reset();  // which outlet is the command's to say
    asked->discount.reset();
    auto made = commission_of(*described, *asked, db::load_steps(workshop, context.on));
    if (!made) return made;
    made->bench = db::load_bench(workshop, context.on);
    made->plans = known_plans(workshop, *made);
    return made;
  }();
  if (!commission) return tl::unexpected(std::move(commission.error()));
  plan_the_rest(*commission);
  auto priced = price(*commission);
  if (!priced) return tl::unexpected(at_flags(std::move(priced.error()), listing));
  ListedBook book;
  if (commission->sending) {
    auto parcels = parcels_of(volumes_of(commission->book, commission->catalogue), commission->book.copies);
    if (!parcels) return tl::unexpected(at_flags(std::move(parcels.error()), listing));
    book.sending = std::move(commission->sending);
    book.parcels = std::move(*parcels);
  }
  book.title = commission->book.title.empty() ? "a book" : commission->book.title;
  book.sheet = std::move(priced->sheet);
  book.selling = std::move(priced->selling);
  book.delivery = commission->delivery;
  book.shop = commission->shop;
  book.goal = commission->goal;
  return book;
}

}  // namespace

Read<ListedBook> listed_book(Context& context, db::Workshop& workshop, Args const& args) {
  if (db::read_number(args.word(0))) {
    auto job = located(db::find_job(workshop, args.word(0)), args.where("BOOK"));
    if (!job) return tl::unexpected(std::move(job.error()));
    if (job->state != db::JobState::finished)
      return refuse({FaultCode::rule_refused,
                     args.where("BOOK"),
                     job->number,
                     fmt::format("a job whose book is finished; it is {}", db::job_state_name(job->state)),
                     {}});
    db::Reading const reading(workshop);
    return of_job(context, workshop, args, *job);
  }
  return of_description(context, workshop, args);
}

Sale sale_of(ListedBook const& book, Sold const& sold) {
  return {book.sheet, sold.delivery, sold.selling, book.shop};
}

Read<Sold> sold_through(ListedBook const& book, Outlet const& outlet, std::optional<Money> ticket) {
  Sold sold{book.delivery, book.selling, std::nullopt, {}};
  sold.selling.outlet = outlet;
  auto const offered = [&](Delivery const& delivery, SellingRules const& selling) {
    return ticket ? offer_at(*ticket, book.sheet, delivery, selling, book.goal, book.shop)
                  : offer(book.sheet, delivery, selling, book.goal, book.shop);
  };
  if (book.sending) {
    auto sent = sold_and_sent(*book.sending, book.parcels, std::move(sold), offered);
    if (!sent) return tl::unexpected(at_flags(std::move(sent.error()), listing));
    return sent;
  }
  auto offer = offered(sold.delivery, sold.selling);
  if (!offer) return tl::unexpected(std::move(offer.error()));
  sold.offer = std::move(*offer);
  return sold;
}

std::string in_tickets(Currency currency) {
  return fmt::format("an amount in {}, as tickets there are", currency.code());
}

std::vector<Flag> goal_flags() {
  return {{"--margin", FlagType::share, "the goal: money left, of the price without tax"},
          {"--markup", FlagType::share, "the goal: money left, of the cost"},
          {"--profit", FlagType::money, "the goal: money left after everything"},
          {"--hourly", FlagType::money, "the goal: what an hour earns"},
          {"--leave", FlagType::money, "the goal: yours after fees, tax and carriage"},
          {"--carriage", FlagType::money, "carriage, at cost and without tax; else none"},
          {"--service", FlagType::service, "the carriage service, whose table says what it takes"},
          {"--to", FlagType::country, "the country it is sent to"}};
}

CostSheet sheet_of(db::ListedCost const& cost) {
  Money const none{0, cost.total.currency};
  CostSheet sheet;
  sheet.materials = sheet.overhead = sheet.allowances = sheet.outlay = none;
  sheet.outside = cost.outside;
  sheet.labour = cost.labour;
  sheet.standing = cost.standing;
  sheet.total = cost.total;
  sheet.earning = cost.total - cost.standing;
  sheet.seconds = cost.seconds;
  sheet.part_shares = cost.part_shares;
  sheet.lines.push_back({CostKind::outside, Part::whole_book, -1, false, cost.outside});
  return sheet;
}

db::ListedCost listed_cost(ListedBook const& book, Money carriage) {
  Money outside{0, book.sheet.total.currency};
  for (CostLine const& line : book.sheet.lines)
    if (line.kind == CostKind::outside && !line.at_cost) outside += line.amount;
  return {book.sheet.total,   book.sheet.labour, book.sheet.standing,   carriage, book.selling.pieces,
          book.sheet.seconds, outside,           book.sheet.part_shares};
}

Ratio margin_of(Walk const& walk, Money standing) {
  Money const earns = walk.price - standing;
  return earns.minor == 0 ? Ratio(0) : Ratio(walk.left.minor, earns.minor);
}

Money an_hour(Walk const& walk, CostSheet const& sheet) {
  return hourly(walk.left, sheet.labour, sheet.seconds);
}

}  // namespace endband::cli
