// A number in front of a unit, for the readers of this module: decimals and fractions, with their faults.
#pragma once

#include "engine/measure/measure.h"
#include "engine/money/numeral.h"

#include <optional>
#include <string>
#include <string_view>

namespace endband {

// What a reader was given and wants: the parts that every fault of it repeats.
struct NumberWanted {
  std::string_view found;
  std::string_view example;  // "a length such as 250 mm"

  Fault fault(FaultCode code) const;
  Fault fault(FaultCode code, std::string expected) const;
};

struct Number {
  Ratio value;
  bool decimal = false;              // written with decimals, not as a whole number or a fraction
  std::optional<Numeral> ambiguous;  // "1,234": a fault, told when the unit is known
  std::string_view rest;             // what follows, without blanks around it
};

// The number at the front of `text`: "12.5", "3/4", "11 3/4", "11¾". May throw Overflow.
Read<Number> take_number(std::string_view text, NumberWanted const& wanted);

}  // namespace endband
