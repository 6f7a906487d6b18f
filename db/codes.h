// The codes that a workshop gives to its materials and customers.
#pragma once

#include "engine/fault/fault.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace endband::db {

// Lower-case letters, digits and '-', at most 60; a fault bad_value otherwise.
std::optional<Fault> check_code(std::string_view code, Where const& where);

// The nearest of what is known. Loaded by the caller only when there is a fault to tell.
std::vector<std::string> near_codes(std::string_view code, std::span<std::string const> known);

}  // namespace endband::db
