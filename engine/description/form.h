// What a value of a type looks like and how far it may go, in words for faults and for the reference page.
#pragma once

#include "engine/description/description.h"

#include <string>
#include <string_view>
#include <vector>

namespace endband {

std::string_view usual_unit(ValueType type);   // "mm"; empty: none, or not one alone
std::string expected_form(KeyRow const& row);  // "a length such as "250 mm""
std::string range_text(KeyRow const& row);     // "from 20 mm to 1000 mm"
std::vector<std::string_view> choices_of(KeyRow const& row);
bool within_range(KeyRow const& row, Value const& value);

}  // namespace endband
