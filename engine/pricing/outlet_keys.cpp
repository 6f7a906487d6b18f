// The form of an outlet's text: its keys, and one to start from.
#include "engine/pricing/terms.h"
#include "engine/pricing/terms_text.h"

#include <array>

namespace endband {
namespace {

using enum ValueType;

constexpr double most_money = 10'000'000;
constexpr double most_days = 3650;
constexpr double most_minutes = 60'000;
constexpr double below_all = 0.99;  // a share of less than the whole

// Choices stand in the order of their enumerations.
// clang-format off
constexpr std::array rows{
    term("endband", count, 1, 1, "the form of the text; the first line of every one"),
    term("name", words, 1, 100, "what the outlet is called"),
    choice_of("kind", "own|marketplace|sale-or-return|trade", "own: the maker sells; marketplace: the place takes fees; sale-or-return: the goods lie there; trade: a shop buys them"),
    term("currency", words, 3, 3, "the currency of tickets and fees; the workshop's unless said"),
    term("discount", share, 0, below_all, "trade: what the shop takes off the ticket"),
    choice_of("tax", "none|added|included", "how a ticket stands to tax; as in the workshop unless said"),
    term("tax_rate", share, 0, 1, "one rate for all; the workshop's rates unless said"),
    flag_of("tax_collected", "the place pays the tax over, and it never reaches the maker"),
    term("cash_step", money, 0, most_money, "the total is rounded to a multiple of it, as coins want"),
    term("price_step", money, 0, most_money, "prices stand on multiples of it"),
    term("price_below", money, 0, most_money, "or so much below: 10.00 and 0.50 give 9.50, 19.50"),
    term("paid_after_days", count, 0, most_days, "days from the sale until the money is there"),
    term("days_to_sell", count, 0, most_days, "days that a book is expected to wait for its buyer"),

    term("fees[].name", words, 1, 100, "what the fee is called"),
    choice_of("fees[].of", "goods|goods-with-tax|goods-and-carriage|paid", "what the share is of; of the goods without tax unless said"),
    choice_of("fees[].per", "order|piece|listing", "how often it is taken; once an order unless said"),
    term("fees[].share", share, 0, below_all, "the share that is taken; beside [[steps]], that from 0 on"),
    term("fees[].fixed", money, 0, most_money, "a fixed sum, beside the share"),
    term("fees[].least", money, 0, most_money, "the share takes no less"),
    term("fees[].most", money, 0, most_money, "the share takes no more"),
    term("fees[].every_days", count, 1, most_days, "per listing: paid anew after so many days; once unless said"),
    flag_of("fees[].payment", "the payment's own fee, which the place does not set"),
    flag_of("fees[].kept", "not given back when the buyer sends the goods back"),
    choice_of("fees[].steps_on", "part|whole", "a step's share is of the part above it, or of the whole; of the part unless said"),

    term("steps[].fee", words, 1, 100, "the name of the fee that steps"),
    term("steps[].from", money, 0, most_money, "where the step begins"),
    term("steps[].share", share, 0, below_all, "the share from there on"),

    term("returns.change_of_mind", share, 0, below_all, "chance that a buyer sends the book back, as he may"),
    term("returns.carriage_back", money, 0, most_money, "what its way home costs the maker"),
    term("returns.handling", duration, 0, most_minutes, "checking it and packing it anew"),
    term("returns.loss_of_value", share, 0, 1, "what it has lost by then, of the price without tax"),
    term("returns.fault", share, 0, below_all, "chance of a fault of the work, which is mended free"),
    term("returns.mending", duration, 0, most_minutes, "mending it"),
    term("returns.lost", share, 0, below_all, "chance that it is lost or damaged on its way"),
    term("returns.insured", money, 0, most_money, "what the carrier pays for that at most"),
    term("returns.excess", money, 0, most_money, "less this much, which is the maker's to bear"),
    term("returns.unsold", share, 0, below_all, "sale or return: chance that it comes back unsold"),
    term("returns.return_carriage", money, 0, most_money, "sale or return: there and back, when it does"),
};
// clang-format on

constexpr std::string_view example = R"(endband = 1
# A market town's book hall on the web: an invented place. Change what is said to what your own place asks.
name = "The Long Table"
kind = "marketplace"        # own, marketplace, sale-or-return or trade
# currency = "EUR"          # of tickets and fees; the workshop's unless said
tax = "included"            # none, added or included; as in the workshop unless said
price_step = "5.00"         # prices stand on multiples of it
price_below = "0.10"        # or so much below: 4.90, 9.90
paid_after_days = 7
days_to_sell = 60           # how long a book waits for its buyer

[[fees]]
name = "listing"
per = "listing"             # paid before anything is sold,
fixed = "0.40"
every_days = 90             # and anew after so many days

[[fees]]
name = "selling"
of = "goods-with-tax"       # goods, goods-with-tax, goods-and-carriage or paid
share = "9 %"
least = "0.50"              # the share takes no less
kept = false                # given back when the buyer sends the book back
steps_on = "part"           # part: a step's share is of what is above it; whole: of all

[[steps]]                   # from 300.00 on a smaller share of what is above
fee = "selling"
from = "300.00"
share = "4 %"

[[fees]]
name = "payment"
of = "paid"
share = "1.9 %"
fixed = "0.30"
payment = true              # not the place's own
kept = true

[returns]                   # chances, and what each costs in the workshop's currency
change_of_mind = "2 %"
handling = "20 min"
loss_of_value = "5 %"
fault = "1 %"
mending = "2 h"
lost = "0.4 %"
insured = "500.00"
excess = "20.00"
)";

}  // namespace

std::span<KeyRow const> outlet_keys() { return rows; }

std::string_view outlet_example() { return example; }

}  // namespace endband
