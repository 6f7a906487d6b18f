// A sum as people say it: "12.50", or "12.50 EUR" where the currency is that of what it is for.
#pragma once

#include "engine/fault/fault.h"
#include "engine/money/money.h"

#include <string>
#include <string_view>

namespace endband::cli {

// An amount of 0 or more, in the currency only, whether it is named or not; `right` is what would be when
// another is.
Read<Money> read_money_in(std::string_view text, Currency currency, Where const& where, std::string right);
Read<Money> read_workshop_money(std::string_view text, Currency currency, Where const& where);

}  // namespace endband::cli
