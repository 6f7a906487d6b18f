// Outlets and carriage services: immutable, dated versions of what their owner wrote of them.
#pragma once

#include "db/workshop.h"
#include "engine/pricing/carriage.h"
#include "engine/pricing/outlet.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace endband::db {

enum class TextOf : std::uint8_t { outlet, carriage };
struct TextVersion {
  std::int64_t id = 0;
  std::string code, text;
  Date valid_from;
};
// An empty text: from that day on there is none of this code.
void set_text(Writing& writing, TextOf of, std::string_view code, std::string_view text, Date valid_from);
std::optional<TextVersion> text_in_force(Workshop& workshop, TextOf of, std::string_view code, Date on);
std::vector<TextVersion> texts_in_force(Workshop& workshop, TextOf of, Date on);  // by code

// How one of that currency's main units is changed on a day.
struct ExchangeInForce {
  Exchange exchange;
  std::optional<Date> since;  // none: it is the workshop's own currency
};
// Faults: missing_setting, `expected` being the command that sets it.
Read<ExchangeInForce> exchange_in_force(Workshop& workshop, Currency currency, Date on);

struct OutletInForce {
  Outlet outlet;  // with its exchange
  std::int64_t version = 0;
  Date since;
  std::optional<Date> rate_since;
};
// Its terms alone, whether or not its money can be changed. Faults: unknown_code with near.
Read<OutletInForce> outlet_terms(Workshop& workshop, std::string_view code, Date on);
std::vector<OutletInForce> all_outlet_terms(Workshop& workshop, Date on);  // by code
// Faults beside: missing_setting, no exchange rate by that day.
Read<OutletInForce> load_outlet(Workshop& workshop, std::string_view code, Date on);
std::vector<std::string> outlet_codes(Workshop& workshop, Date on);

struct CarriageInForce {
  CarriageService service;
  std::int64_t version = 0;
  Date since;
};
Read<CarriageInForce> load_carriage(Workshop& workshop, std::string_view code, Date on);

}  // namespace endband::db
