// A place where books are sold, and what it takes of a sale. All of it is the user's data; no place and no
// rate is built in. A plain value: the walk from the buyer's price to the maker's stands in walk.h.
#pragma once

#include "engine/measure/measure.h"
#include "engine/money/money.h"
#include "engine/pricing/tax.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace endband {

enum class OutletKind : std::uint8_t {
  own,             // by mail, at the bench, at a fair: the maker sells
  marketplace,     // the place takes fees of the sale
  sale_or_return,  // the goods lie there and stay the maker's; a share of the ticket is the place's
  trade            // bought outright at a discount off the ticket
};
std::string_view outlet_kind_name(OutletKind kind);  // "own", "marketplace", "sale-or-return", "trade"

// Of what a fee is a share. All of the whole order, in the outlet's currency.
enum class FeeBase : std::uint8_t {
  goods,               // without tax
  goods_with_tax,      // what the ticket says, tax in it or added
  goods_and_carriage,  // without tax
  paid                 // all that the buyer pays: goods, carriage, tax; before the total is rounded for cash
};
std::string_view fee_base_name(FeeBase base);  // "goods", "goods-with-tax", "goods-and-carriage", "paid"

enum class FeePer : std::uint8_t { order, piece, listing };
std::string_view fee_per_name(FeePer per);

struct FeeStep {
  Money from;   // of the base; per piece: of a piece's equal part of it
  Ratio share;  // 0 <= s < 1
};
struct Fee {
  std::string name;
  FeeBase base = FeeBase::goods;
  FeePer per = FeePer::order;
  std::vector<FeeStep> steps;  // ascending, the first from 0; none: no share; per listing: none
  bool on_whole = false;       // a step's share holds for the whole base, not for its part above
  Money fixed;                 // >= 0; per order, per piece, or per listing period
  std::optional<Money> least,
      most;              // of the share's amount; per piece: of a piece's. The fixed sum is beside
  int every_days = 0;    // per listing: charged anew after so many days; 0: once however long it takes
  bool payment = false;  // the payment's own fee, which the place does not set
  bool kept = false;     // the place keeps it when the buyer sends the goods back
};

// What comes back, by cause. A chance is that of one sale, 0 <= p < 1.
struct ReturnTerms {
  Ratio change_of_mind;  // the buyer's; the book comes home and is sold again
  Money carriage_back;   // if the maker bears it; of the workshop's currency
  Duration handling;     // checking and packing anew, also of what comes back unsold
  Ratio loss_of_value;   // share of the price without tax, also of what comes back unsold
  Ratio fault;           // a fault of the work, mended free
  Duration mending;
  Ratio lost;             // lost or damaged on its way
  Money insured, excess;  // what the carrier pays at most, less the excess; of the workshop's currency
  Ratio unsold;           // sale or return: comes back unsold
  Money return_carriage;  // sale or return: there and back, when it does; of the workshop's currency
  friend bool operator==(ReturnTerms const&, ReturnTerms const&) = default;
};

// How the outlet's money becomes the workshop's. A rate as said: workshop's main units for one of the
// outlet's main units; the spread is what the exchange takes of it.
struct Exchange {
  Ratio rate = 1;
  Ratio spread;  // 0 <= s < 1
};

struct Outlet {
  std::string code, name;
  OutletKind kind = OutletKind::own;
  Currency currency;  // of tickets, fees and carriage as the buyer sees them
  Exchange exchange;  // 1 without spread where the currency is the workshop's
  std::vector<Fee> fees;
  Ratio discount;                     // trade: off the ticket, 0 <= d < 1
  std::optional<TaxMode> tax_mode;    // none: as the workshop
  std::optional<Ratio> tax_rate;      // none: the workshop's rates; else one for all lines
  bool collects_tax = false;          // the place pays the tax over; it never reaches the maker
  std::int64_t cash_step = 1;         // minor units; the total is rounded to it, half away
  std::optional<PricePoints> points;  // none: the workshop's where the currency is the same, else any
  int paid_after_days = 0;
  int days_to_sell = 0;  // expected, from posting to sale
  ReturnTerms returns;
};

// How often a fee per listing is paid until the book is expected to be sold: once, and anew each period.
std::int64_t periods(Fee const& fee, int days_to_sell);

// The fee of one sale. `pieces`: equal ones. Rounded once, half away: the share's amount.
Money fee_amount(Fee const& fee, Money base, std::int64_t pieces, int days_to_sell);

}  // namespace endband
