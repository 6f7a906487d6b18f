// What is listed where: posted, priced anew, ended.
#include "cli/commands/commands.h"
#include "cli/commands/listed_book.h"
#include "cli/commands/money_said.h"
#include "cli/commands/text_read.h"
#include "cli/document/document.h"
#include "cli/document/json.h"
#include "cli/words/values.h"
#include "db/listings.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

struct Kept {
  db::Listing listing;
  std::string deed;  // "posted", "priced", "sold", "ended"
  Date on;
  std::optional<Money> left;  // of a ticket that was set
  std::optional<Money> before, lowest;
  bool dry_run = false;
  std::vector<db::Listing> still = {};  // other listings of a book that was sold
};

Json to_json(Kept const& view) {
  auto const number = [](db::Listing const& listing) { return Json(listing.id); };
  return Json::Object{{"dry_run", view.dry_run},
                      {"number", view.listing.id},
                      {"deed", view.deed},
                      {"outlet", view.listing.outlet},
                      {"title", view.listing.title},
                      {"on", date_text(view.on)},
                      {"ticket", money_json(view.listing.ticket)},
                      {"before", money_json(view.before)},
                      {"lowest_in_30_days", money_json(view.lowest)},
                      {"left", money_json(view.left)},
                      {"still_listed", json_array(view.still, number)}};
}

std::string kept_words(Kept const& view) {
  db::Listing const& listing = view.listing;
  std::string const on = date_text(view.on);
  std::string const name =
      view.dry_run && view.deed == "posted"
          ? fmt::format("{}, through {}", listing.title, listing.outlet)
          : fmt::format("Listing {}, {} through {}", listing.id, listing.title, listing.outlet);
  if (view.deed == "posted") return fmt::format("{}: {} from {} on", name, money_words(listing.ticket), on);
  if (view.deed == "priced")
    return fmt::format("{}: {} from {} on, before that {}", name, money_words(listing.ticket), on,
                       money_text(*view.before));
  return fmt::format("{}: {} on {}", name, view.deed, on);
}

Document to_document(Kept const& view) {
  Document document;
  document.paragraph(kept_words(view) + (view.dry_run ? ". Nothing is saved." : "."));
  if (view.lowest)
    document.paragraph(fmt::format("Lowest ticket of the last 30 days: {}.", money_words(*view.lowest)));
  if (view.left)
    document.paragraph(view.left->minor < 0 ? fmt::format("It loses {}.", money_words(-*view.left))
                                            : fmt::format("It leaves {}.", money_words(*view.left)));
  for (db::Listing const& other : view.still)
    document.notice(NoticeKind::warning,
                    fmt::format("The same book is still listed: {} at {}. endband listing end {}", other.id,
                                other.outlet, other.id));
  if (!view.dry_run) document.next("endband listing list");
  return document;
}

Read<Money> ticket_of(Args const& args, Currency currency) {
  std::string const text = args.text("--at-price").value_or("");
  if (text.empty())
    return refuse({FaultCode::bad_command, args.where("--at-price"), "", "the ticket, such as 480.00", {}});
  auto const money = read_money_in(text, currency, args.where("--at-price"), in_tickets(currency));
  if (!money) return tl::unexpected(money.error());
  if (money->minor == 0)
    return refuse({FaultCode::out_of_range, args.where("--at-price"), text, "more than 0", {}});
  return *money;
}

// A job's book is listed in a place once, and not once it was sold.
Read<void> not_there_yet(db::Workshop& workshop, Args const& args, ListedBook const& book,
                         std::string const& outlet, Date on) {
  if (!book.job) return {};
  for (db::Listing const& listing : db::list_listings(workshop, on, true)) {
    if (listing.job != book.job_number) continue;
    if (listing.ended == "sold")
      return refuse({FaultCode::rule_refused,
                     args.where("BOOK"),
                     book.job_number,
                     fmt::format("a book that is still there; listing {} was sold on {}", listing.id,
                                 date_text(*listing.ended_on)),
                     {}});
    if (!listing.ended_on && listing.outlet == outlet)
      return refuse({FaultCode::rule_refused,
                     args.where("--through"),
                     outlet,
                     fmt::format("a place where it is not listed yet; listing {} is there since {}",
                                 listing.id, date_text(listing.since)),
                     {}});
  }
  return {};
}

Read<Answer> run_post(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  std::string const code = args.text("--through").value_or("");
  if (code.empty())
    return refuse({FaultCode::bad_command, args.where("--through"), "", "the outlet it is listed at", {}});
  auto book = listed_book(context, **workshop, args);
  if (!book) return tl::unexpected(std::move(book.error()));
  auto const outlet = outlet_at(**workshop, code, context.on, args.where("--through"));
  if (!outlet) return tl::unexpected(outlet.error());
  if (auto const done = not_there_yet(**workshop, args, *book, code, context.on); !done)
    return tl::unexpected(done.error());
  std::optional<Money> said;
  if (args.has("--at-price")) {
    auto const ticket = ticket_of(args, outlet->outlet.currency);
    if (!ticket) return tl::unexpected(ticket.error());
    said = *ticket;
  }
  auto const sold = sold_through(*book, outlet->outlet, said);
  if (!sold) return tl::unexpected(sold.error());
  db::NewListing const listing{code, book->job, book->title, listed_cost(*book, sold->delivery.carriage),
                               sold->offer.walk.ticket};
  Kept view{.listing = {},
            .deed = "posted",
            .on = context.on,
            .left = sold->offer.walk.left,
            .before = {},
            .lowest = {},
            .dry_run = context.dry_run};
  auto const done = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<bool> {
    std::int64_t const id = db::post_listing(writing, listing, context.on);
    auto posted = db::find_listing(writing.workshop(), id, context.on);
    if (!posted) return tl::unexpected(posted.error());
    view.listing = std::move(*posted);
    return true;
  });
  if (!done) return tl::unexpected(done.error());
  return Answer(std::move(view));
}

Read<db::Listing> listing_meant(db::Workshop& workshop, Args const& args, Date on) {
  return located(db::find_listing(workshop, args.word<std::int64_t>(0), on), args.where("NUMBER"));
}

Read<Answer> run_change(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto view = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<Kept> {
    auto listing = listing_meant(writing.workshop(), args, context.on);
    if (!listing) return tl::unexpected(std::move(listing.error()));
    auto const ticket = ticket_of(args, listing->ticket.currency);
    if (!ticket) return tl::unexpected(ticket.error());
    Money const before = listing->ticket;
    auto const set =
        db::set_ticket(writing, *listing, *ticket, context.on, args.text("--words").value_or(""));
    if (!set) return tl::unexpected(set.error());
    listing->ticket = *ticket;
    auto const lowest =
        db::lowest_ticket(writing.workshop(), *listing, context.on - std::chrono::days{30}, context.on);
    return Kept{std::move(*listing), "priced", context.on, {}, before, lowest, context.dry_run};
  });
  if (!view) return tl::unexpected(std::move(view.error()));
  return Answer(std::move(*view));
}

Read<Answer> run_end(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  std::string const how = args.has("--sold") ? "sold" : "ended";
  auto view = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<Kept> {
    auto listing = listing_meant(writing.workshop(), args, context.on);
    if (!listing) return tl::unexpected(std::move(listing.error()));
    auto const ended = db::end_listing(writing, *listing, how, context.on, args.text("--words").value_or(""));
    if (!ended) return tl::unexpected(ended.error());
    Kept kept{std::move(*listing), how, context.on, {}, {}, {}, context.dry_run};
    if (how == "sold" && !kept.listing.job.empty())
      for (db::Listing& other : db::list_listings(writing.workshop(), context.on, false))
        if (other.job == kept.listing.job && other.id != kept.listing.id)
          kept.still.push_back(std::move(other));
    return kept;
  });
  if (!view) return tl::unexpected(std::move(view.error()));
  return Answer(std::move(*view));
}

constexpr Word number_word{"NUMBER", FlagType::listing, "the listing's number"};

std::vector<Flag> post_flags() {
  std::vector<Flag> flags{{"--through", FlagType::outlets, "the outlet it is listed at"},
                          {"--at-price", FlagType::money, "the ticket; else the least that meets the goal"}};
  for (Flag const& flag : goal_flags()) flags.push_back(flag);
  return flags;
}

}  // namespace

Command listing_post() {
  return {.noun = "listing",
          .verb = "post",
          .summary = "Keep that a book is listed somewhere, at which ticket",
          .about =
              "What the book costs is kept with it, so that the list can say what is left of it later. "
              "Nothing is "
              "sent anywhere.",
          .words = {{"BOOK", FlagType::book, "a description, or the number of a job"}},
          .flags = post_flags(),
          .examples = {"listing post book.toml --through post --at-price 480",
                       "listing post book.toml --through post --dry-run"},
          .refused_when = "the book of the job is listed there already",
          .writes = true,
          .lists = false,
          .run = run_post};
}

Command listing_change() {
  return {.noun = "listing",
          .verb = "change",
          .summary = "Keep that a listing has another ticket, as in a sale",
          .about = "The lowest ticket of the last 30 days is shown beside it.",
          .words = {number_word},
          .flags = {{"--at-price", FlagType::money, "the ticket from now on"},
                    {"--words", FlagType::words, "why: \"autumn sale\""}},
          .examples = {"listing change 1 --at-price 420 --words \"autumn sale\"",
                       "listing change 1 --at-price 450 --dry-run"},
          .refused_when = "it has ended",
          .writes = true,
          .lists = false,
          .run = run_change};
}

Command listing_end() {
  return {.noun = "listing",
          .verb = "end",
          .summary = "Keep that a listing has ended, sold or not",
          .about = "",
          .words = {number_word},
          .flags = {{"--sold", FlagType::on, "the book was sold there"},
                    {"--words", FlagType::words, "what else to keep of it"}},
          .examples = {"listing end 1 --dry-run", "listing end 1 --sold"},
          .refused_when = "it has ended already",
          .writes = true,
          .lists = false,
          .run = run_end};
}

}  // namespace endband::cli
