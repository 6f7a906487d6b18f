// Runs the stages in order, and keeps their results as a frozen quote that every later program can replay.
#pragma once

#include "engine/book/spec.h"
#include "engine/book/structure.h"
#include "engine/commission/order.h"
#include "engine/commission/outside.h"
#include "engine/commission/sending.h"
#include "engine/costing/costing.h"
#include "engine/cutting/request.h"
#include "engine/labour/labour.h"
#include "engine/pricing/pricing.h"
#include "engine/quantities/quantities.h"

#include <optional>
#include <string>
#include <vector>

namespace endband {

// Raised whenever a formula or a default changes a result.
inline constexpr int engine_rules = 5;
// The first that kept ways, copies, volumes, repairs, custody and how outside work is priced.
inline constexpr int first_rules_of_orders = 2;
// The first that kept how well a line's plan was found.
inline constexpr int first_rules_of_plans = 3;
// The first that kept a line's own rate, overtime and a simulated contingency, and that shortened the work of
// copies by what is learned.
inline constexpr int first_rules_of_learning = 4;
// The first that kept where a book is sold, and whose deposit covers the hours before the first approval.
inline constexpr int first_rules_of_selling = 5;

struct Commission {
  BookSpec book;
  Catalogue catalogue;
  StepLibrary steps;
  Bench bench;  // whose rates the work is paid at
  WorkRules work;
  ShopRules shop;
  SellingRules selling;
  Goal goal;
  Delivery delivery;
  std::optional<Sending> sending;     // by a service, whose table says the carriage
  std::vector<OutsideTerms> outside;  // BookSpec::outside with its prices read in the workshop's currency
  std::vector<InCustody> custody;     // BookSpec::custody likewise
  CutRules cutting;
  PlanTable plans;  // of requests_of; what is not in it is found by yield
};
// What a solver is asked for this quote: for as many copies as are asked for, for one and for one more.
std::vector<CutRequest> requests_of(Commission const& commission);

struct Priced {
  Structure structure;  // of the whole order: all volumes, all copies
  Needs needs;
  Bill bill;
  Work work;
  std::vector<Outside> outside;
  CostSheet sheet;
  // The commission's, with what follows from the book: pieces, first hours, carriage.
  SellingRules selling;
  Delivery delivery;
  std::optional<SentBy> sent_by;
  Offer offer;
  // What a quote says beside its price; `price` leaves the two last empty.
  std::vector<VolumeMade> volumes;  // none of a single book
  std::vector<CopyPrice> copies;
  std::optional<RepairRange> repairs;
};
Read<Priced> price(Commission const& commission);  // the hot path: no text, no file, no clock
// The same, with the price of one copy, of those asked for and of one more, and the range of repairs.
Read<Priced> price_for_quote(Commission const& commission);

// Everything the offer follows from and all that was shown: plain rows of whole numbers and words.
struct FrozenFigure {
  FigureId id;
  std::int64_t value_e6;  // value x 1,000,000, half away
  Origin origin;
};
struct FrozenChoice {
  Role role;
  MaterialId material;
  Origin origin;
};
struct FrozenQuote {
  int rules = engine_rules;
  Date on;
  std::string title, binding;
  Ways ways;
  std::string description;  // the text as given
  std::string model_name;
  std::vector<FrozenFigure> figures;
  std::vector<FrozenChoice> choices;  // which material fills which role
  std::vector<Piece> pieces;
  std::vector<Warning> warnings;
  std::int64_t mass_mg = 0;
  std::vector<Material> materials;  // as they were: names, words, flags, price; by id
  Bill bill;
  Work work;
  std::vector<Outside> outside;
  ShopRules shop;
  SellingRules selling;
  Goal goal;
  Delivery delivery;
  CostSheet sheet;
  Offer offer;
  int copies = 1;
  SetShares set_shares = SetShares::nothing;
  std::vector<VolumeMade> volumes;
  std::vector<CopyPrice> copy_prices;
  std::optional<RepairRange> repairs;
  std::vector<InCustody> custody;
  std::optional<Promise> promise;          // none: nobody's hours were known
  std::optional<SimulatedWith> simulated;  // with shop.simulated_contingency
  std::int64_t outlet_version = 0;         // of selling.outlet
  std::vector<OptionPrice> options;        // not in the total
  std::optional<MadeToOrder> made_to;
  std::optional<SentBy> sent_by;
};
FrozenQuote freeze(Commission const& commission, Priced const& priced, std::string description,
                   std::string model_name);

// Bill -> cost sheet -> offer from the frozen rows alone. The same minor units as when it was made.
Read<Offer> replay(FrozenQuote const& quote);
// The first stored figure that does not follow from the frozen rows: an identity of the bill
// ("bill.lines[2].opened"), then the cost sheet, then the offer ("offer.total"). Empty: all agree.
std::string differs(FrozenQuote const& quote);

// What a buyer may see: no cost, hour, rate, supplier or share can be in it, for it has no place for them.
struct BuyerMaterial {
  Role role;
  std::string words;
};
struct BuyerLine {
  Component component;
  Money shown;
};
struct BuyerCopies {
  int copies = 1;
  Money shown;
};
struct BuyerOption {
  std::string words, either;
  Money shown;  // more, or less, than the total
};
struct BuyerRepairs {
  Money low, high, ceiling;
};
struct BuyerQuote {
  std::string title, binding;
  Date on;
  Length height, width, thickness;  // closed
  Ways ways;
  bool box_alone = false;  // there is no book of ours in it
  std::int64_t pages = 0, sections = 0, supports = 0, registers = 0, corners = 0,
               clasps = 0;               // of a set: all pages
  std::vector<BuyerMaterial> materials;  // those with words for a buyer
  std::vector<WarningCode> notices;      // that a buyer must know: leaf that tarnishes
  std::vector<BuyerLine> lines;
  Money goods_shown, carriage_shown, tax, total, deposit, balance;
  TaxMode tax_mode = TaxMode::none;
  std::string tax_name, delivery_words;
  Ratio tax_rate;
  int copies = 1;
  SetShares set_shares = SetShares::nothing;
  std::vector<VolumeMade> volumes;       // of a set
  std::vector<BuyerCopies> copy_prices;  // one, those asked for, one more
  std::optional<BuyerRepairs> repairs;
  std::vector<InCustody> custody;
  // To send by that day, if the customer's word, and the approved proof where there is one, are there on
  // `starts`.
  std::optional<Date> starts, ready_by;
  bool proof = false;
  Money discount_shown;  // off the lines above
  std::string discount_reason;
  std::vector<TaxOfLine> tax_of_lines;
  std::vector<TaxedAt> taxed;  // by rate: goods after the discount, carriage, tax; none without tax
  std::vector<BuyerOption> options;
  std::optional<MadeToOrder> made_to;
};
BuyerQuote for_buyer(FrozenQuote const& quote);

// Why a figure is what it is: its rule and the figures it reads, down to what was given.
struct Reason {
  FigureId figure;
  double value;
  Origin origin;
  std::string_view formula, source;  // empty for a given figure
  std::vector<FigureId> inputs;
};
std::vector<Reason> why(FrozenQuote const& quote, FigureId figure);

}  // namespace endband
