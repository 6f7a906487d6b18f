// Outlets and carriage services as their owner writes them: TOML, read by the reader of descriptions.
#pragma once

#include "engine/description/description.h"
#include "engine/pricing/carriage.h"
#include "engine/pricing/outlet.h"

#include <span>
#include <string>

namespace endband {

std::span<KeyRow const> outlet_keys();
std::span<KeyRow const> carriage_keys();

// All faults at once, each with its line: unknown keys, steps with holes, a share of 100 % or more, a sum
// that its currency cannot hold ... `shop`: the workshop's currency, and that of an outlet that says none.
// The exchange rate is not in the text.
Read<Outlet> read_outlet(std::string_view text, std::string const& source, std::string code, Currency shop);
Read<CarriageService> read_carriage(std::string_view text, std::string const& source, std::string code,
                                    Currency shop);

// A commented text to start from, right as it stands.
std::string_view outlet_example();
std::string_view carriage_example();

}  // namespace endband
