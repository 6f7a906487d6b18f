// Outlets, fees and carriage services in the words of people.
#pragma once

#include "engine/commission/order.h"
#include "engine/pricing/carriage.h"
#include "engine/pricing/pricing.h"

#include <string>
#include <string_view>
#include <vector>

namespace endband::cli {

std::string_view outlet_kind_words(OutletKind kind);  // "a marketplace"
std::string_view fee_base_words(FeeBase base);        // "goods and carriage, without tax"
std::string share_words(Fee const& fee);  // "6.5 % of goods", "of goods: 8 %, of what is above 200.00 5 %"
std::string fee_words(Fee const& fee);    // "6.5 % of goods and 0.30, at least 0.80"
std::string fixed_words(Fee const& fee);  // "0.30", "0.20 every 120 days"
std::string exchange_words(Outlet const& outlet, Currency shop);  // "1 USD is 0.92 EUR, less 2 %"
std::vector<std::string> return_words(ReturnTerms const& returns);
std::string zone_words(CarriageZone const& zone);  // "AT, DE", "everywhere else"
std::string mass_words(Mass mass);                 // "1.25 kg", "480 g"
std::string goal_words(Goal const& goal);          // "a margin of 35 % of the price without tax"
std::string_view made_to_words(MadeTo made_to);    // "made to the customer's specification"

}  // namespace endband::cli
