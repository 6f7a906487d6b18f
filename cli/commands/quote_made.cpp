#include "cli/commands/quote_made.h"

#include "cli/commands/planned.h"
#include "cli/commands/quote_json.h"
#include "cli/commands/quote_odds.h"
#include "cli/commands/quote_parts.h"
#include "cli/commands/walk_shown.h"
#include "cli/words/book_words.h"
#include "cli/words/values.h"
#include "db/bench.h"
#include "db/steps.h"
#include "engine/commission/said_price.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

// What the price follows from, read in one state of the file.
struct Gathered {
  Computed computed;  // all but the quote
  Commission commission;
  OptionBooks options;
  Priced priced;
};

// A quote is in the workshop's money: so are its payments, its job and what is left of it.
Read<void> check_currency(Asked const& asked, Currency currency) {
  if (!asked.outlet || asked.outlet->outlet.currency == currency) return {};
  return refuse(
      {FaultCode::rule_refused,
       {"quote make", 0, 0, "--through"},
       asked.outlet->outlet.code,
       fmt::format("an outlet whose tickets are in {}; endband listing price prices a book for one in {}",
                   currency.code(), asked.outlet->outlet.currency.code()),
       {}});
}

Read<Gathered> gather(db::Workshop& workshop, ToCompute book, Date on) {
  Gathered gathered;
  if (auto const done = check_currency(book.asked, workshop.currency()); !done)
    return tl::unexpected(done.error());
  auto commission = commission_of(book.described, book.asked, db::load_steps(workshop, on));
  if (!commission) return tl::unexpected(std::move(commission.error()));
  gathered.commission = std::move(*commission);
  gathered.commission.bench = db::load_bench(workshop, on);
  gathered.commission.plans = known_plans(workshop, gathered.commission);
  if (book.known != nullptr) gathered.commission.plans.insert(book.known->begin(), book.known->end());
  auto options = option_books(workshop, book.described, on);
  if (!options) return tl::unexpected(std::move(options.error()));
  gathered.options = std::move(*options);
  gathered.computed.codes = gathered.options.codes;
  if (book.asked.sending)
    for (Material const& carton : book.asked.sending->cartons) gathered.computed.codes.push_back(carton.code);
  gathered.computed.relied_on = versions_in_force(workshop, gathered.computed.codes, on);
  gathered.computed.asked = std::move(book.asked);
  return gathered;
}

Read<void> price_it(Gathered& gathered) {
  auto priced = price_for_quote(gathered.commission);
  if (!priced) return tl::unexpected(at_flags(std::move(priced.error()), "quote make"));
  gathered.priced = std::move(*priced);
  Described const& described = gathered.options.base;
  Asked const& asked = gathered.computed.asked;
  FrozenQuote& quote = gathered.computed.quote;
  quote = freeze(gathered.commission, gathered.priced, described.text, described.model_name);
  quote.simulated = gathered.computed.simulated;
  quote.outlet_version = asked.outlet ? asked.outlet->version : 0;
  quote.made_to = asked.made_to;
  return {};
}

// Last, for whatever has a say in the price has it in theirs.
Read<void> price_what_else(Gathered& gathered) {
  Computed& computed = gathered.computed;
  auto options = price_options(gathered.options, gathered.commission, computed.asked, gathered.priced,
                               computed.new_plans);
  if (!options) return tl::unexpected(std::move(options.error()));
  computed.quote.options = std::move(*options);
  if (computed.asked.budget)
    computed.budget = within(*computed.asked.budget, gathered.options, gathered.commission, computed.asked);
  return {};
}

// Where tax is included two prices may have one price without tax.
Read<void> asked_is_offered(Gathered const& gathered, Money price) {
  Money const found = gathered.priced.offer.walk.ticket;
  if (found == price) return {};
  return refuse({FaultCode::rule_refused,
                 {"quote make", 0, 0, "--at-price"},
                 money_words(price),
                 fmt::format("a price of its own: {} leaves as much", money_words(found)),
                 {}});
}

Read<void> price_first(Gathered& gathered) {
  gathered.computed.new_plans = plan_the_rest(gathered.commission);
  std::optional<Money> const price = gathered.computed.asked.at_price;
  if (!price) return price_it(gathered);
  auto aimed = at_price(std::move(gathered.commission), *price);
  if (!aimed) return tl::unexpected(at_flags(std::move(aimed.error()), "quote make"));
  gathered.commission = std::move(*aimed);
  if (auto const done = price_it(gathered); !done) return done;
  return asked_is_offered(gathered, *price);
}

// A contingency that is simulated is of the job without any; it stands instead of the plain share.
Read<void> price_the_odds(RiskRules const& rules, Gathered& gathered) {
  auto const risk = odds_of(gathered.computed.quote, rules);
  if (!risk) return tl::unexpected(risk.error());
  gathered.commission.shop.simulated_contingency = risk->contingency;
  gathered.computed.simulated = {rules.runs, static_cast<std::int64_t>(rules.seed), rules.confidence};
  return price_it(gathered);
}

// Overtime that a rush is charged for makes the price anew; the hours stay what they are.
Read<void> name_the_day(Context const& context, db::Workshop& workshop, DayAsked const& asked,
                        Gathered& gathered) {
  auto promised = promise_of(workshop, gathered.computed.quote, asked, context.on);
  if (!promised) return tl::unexpected(std::move(promised.error()));
  if (*promised && (*promised)->overtime_charged) {
    ShopRules& shop = gathered.commission.shop;
    shop.overtime_seconds = Ratio((*promised)->rush->overtime->in_all.n);
    shop.overtime_share = (*promised)->overtime_share;
    if (auto const done = price_it(gathered); !done) return done;
  }
  if (*promised) gathered.computed.quote.promise = (*promised)->dates;
  gathered.computed.promised = std::move(*promised);
  return {};
}

}  // namespace

Read<Computed> compute_quote(Context& context, db::Workshop& workshop, Args const& args,
                             std::string const& file) {
  auto const day = day_asked(args, context.on);
  if (!day) return tl::unexpected(day.error());
  auto gathered = [&]() -> Read<Gathered> {
    db::Reading const reading(workshop);
    auto described = describe(context, workshop, file);
    if (!described) return tl::unexpected(std::move(described.error()));
    auto asked = asked_of(context, workshop, args, *described);
    if (!asked) return tl::unexpected(std::move(asked.error()));
    return gather(workshop, {std::move(*described), std::move(*asked)}, context.on);
  }();
  if (!gathered) return tl::unexpected(std::move(gathered.error()));
  if (auto const done = price_first(*gathered); !done) return tl::unexpected(done.error());
  if (args.has("--odds"))
    if (auto const done = price_the_odds(risk_rules(args, workshop, context.on), *gathered); !done)
      return tl::unexpected(done.error());
  if (auto const done = name_the_day(context, workshop, *day, *gathered); !done)
    return tl::unexpected(done.error());
  if (auto const done = price_what_else(*gathered); !done) return tl::unexpected(done.error());
  return std::move(gathered->computed);
}

Read<Computed> compute_quote(db::Workshop& workshop, ToCompute book, Date on) {
  auto gathered = [&]() -> Read<Gathered> {
    db::Reading const reading(workshop);
    return gather(workshop, std::move(book), on);
  }();
  if (!gathered) return tl::unexpected(std::move(gathered.error()));
  if (auto const done = price_first(*gathered); !done) return tl::unexpected(done.error());
  if (auto const done = price_what_else(*gathered); !done) return tl::unexpected(done.error());
  return std::move(gathered->computed);
}

std::vector<Fault> changed_since(Computed const& computed, db::Workshop& workshop, Args const& args,
                                 Date on) {
  auto faults = changes_since(computed.relied_on, versions_in_force(workshop, computed.codes, on));
  for (Fault& fault : faults) fault.where = args.where(fault.where.field);
  return faults;
}

std::vector<Flag> asking_flags(bool with_customer) {
  std::vector<Flag> flags;
  if (with_customer) flags.push_back({"--customer", FlagType::customer, "who asks"});
  flags.insert(
      flags.end(),
      {{"--margin", FlagType::share, "the goal: money left, of the price without tax"},
       {"--markup", FlagType::share, "the goal: money left, of the cost"},
       {"--profit", FlagType::money, "the goal: money left after everything"},
       {"--hourly", FlagType::money, "the goal: what an hour earns"},
       {"--leave", FlagType::money, "the goal: yours after fees, tax and carriage"},
       {"--at-price", FlagType::money, "no goal: what is asked, as the buyer sees it"},
       {"--through", FlagType::outlets, "the outlet it is sold through; else the workshop itself"},
       {"--discount", FlagType::share, "given away, off the price that was found; 100 %: a gift"},
       {"--discount-because", FlagType::words, "why it is given away"},
       {"--made-to", FlagType::made_to, "spec, personal, options, stock or business"},
       {"--because", FlagType::words, "the reason of --made-to: \"own dimensions\", \"initials tooled\""},
       {"--budget", FlagType::money, "what the customer can pay: which options bring it under that"},
       {"--service", FlagType::service, "the carriage service, whose table says what it takes"},
       {"--to", FlagType::country, "the country it is sent to; else the customer's"},
       {"--carriage", FlagType::money, "carriage charged to the customer, without tax; else none"},
       {"--by", FlagType::date, "the day the customer asks for: can it be done, and what would have to give"},
       {"--odds", FlagType::on, "a contingency that is simulated, as quote odds does, not the plain share"},
       {"--confidence", FlagType::share, "how sure --odds shall be; else promise.confidence"},
       {"--rush", FlagType::on, "put the overtime that --by takes in the price"},
       {"--delivery", FlagType::words, "how it is delivered, as the customer reads it"},
       {"--valid-until", FlagType::date, "the last day on which the quote holds"}});
  return flags;
}

Json to_json(Made const& view) {
  auto const warning = [&](Warning const& each) { return warning_json(each, view.quote.materials); };
  return Json::Object{{"dry_run", view.dry_run},
                      {"number", db::number_text(view.header.number)},
                      {"quote", header_json(view.header)},
                      {"offer", offer_json(view.quote)},
                      {"ladder", ladder_json(view.quote.offer.ladder)},
                      {"work_s", whole_seconds(view.quote.sheet.seconds)},
                      {"promise", promise_json(view.promised)},
                      {"order", order_json(view.quote)},
                      {"selling", selling_json(view.quote)},
                      {"options", options_json(view.quote.options)},
                      {"budget", budget_json(view.budget)},
                      {"largest_costs", largest_json(view.quote)},
                      {"warnings", json_array(view.quote.warnings, warning)}};
}

Document to_document(Made const& view) {
  FrozenQuote const& quote = view.quote;
  std::string const number = db::number_text(view.header.number);
  std::string const customer = view.header.customer_name.empty() ? "nobody yet" : view.header.customer_name;
  Document document;
  document.heading(fmt::format("{} {}: {}, for {}", view.dry_run ? "Would be quote" : "Quote", number,
                               quote.title.empty() ? "a book" : quote.title, customer));
  document.paragraph(fmt::format("{} to pay, valid until {}. {} of work.{}", money_words(quote.offer.total),
                                 date_text(view.header.valid_until), hours_words(quote.sheet.seconds),
                                 view.dry_run ? " Nothing is saved." : ""));
  add_order(document, quote);
  add_sending(document, quote.sent_by);
  add_walk(document, quote);
  document.add(ladder_table(quote));
  if (quote.offer.left.minor < 0)
    document.notice(NoticeKind::warning,
                    fmt::format("It is asked {} below its full cost.", money_words(-quote.offer.left)));
  add_options(document, quote.options);
  add_budget(document, view.budget);
  document.heading("Three largest costs", 2).add(largest_table(quote));
  add_promise(document, view.promised);
  for (Warning const& warning : quote.warnings)
    document.notice(NoticeKind::warning, warning_words(warning, quote.materials));
  if (!view.dry_run)
    document.next(fmt::format("endband quote show {0}    or    endband quote explain {0}", number));
  return document;
}

}  // namespace endband::cli
