// What it costs to send a parcel: a service's table, by destination, mass and size. All figures are the
// user's own.
#pragma once

#include "engine/fault/fault.h"
#include "engine/measure/measure.h"
#include "engine/money/money.h"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace endband {

enum class SideRounding : std::uint8_t { exact, nearest, up };  // of each side, to whole centimetres
std::string_view side_rounding_name(SideRounding rounding);

struct CarriageBand {
  Mass up_to;
  Money price;  // without tax
};
struct CarriageZone {
  std::vector<std::string> countries;  // two letters of ISO 3166; "*": everywhere else
  std::vector<CarriageBand> bands;     // ascending
};
struct InsuranceBand {
  Money up_to;  // value of the goods
  Money price;
};
struct CarriageService {
  std::string code, name;
  Ratio divisor;  // cubic centimetres to the kilogram; 0: size does not count
  SideRounding sides = SideRounding::exact;
  Mass step;                      // the mass that counts is raised to a multiple; 0: as it is. A pound is
                                  // no whole number of mg: a table by pounds has a band for each, and no step
  std::optional<Length> longest;  // no longer side is taken
  std::vector<CarriageZone> zones;
  Money cover;                           // paid for loss without more
  Money excess;                          // of each loss, the sender's own
  std::vector<InsuranceBand> insurance;  // ascending; for goods worth more than the cover
};

struct Consignment {
  Mass mass;
  std::array<Length, 3> sides;  // outside
};
struct Carriage {
  Mass mass, volumetric, counted;  // volumetric 0 without a divisor; counted: the larger, raised to the step
  Money price, insurance;          // insurance: the premium
  Money insured;                   // what is paid for loss at most
  Money total() const { return price + insurance; }
};
// Volumetric mass = product of the sides, each rounded as said, / divisor, raised to the milligram. Source:
// ups.com dimensional weight page and DHL Express volumetric weight page, as collected in the tests. Prices
// are those of the first band that is not below the mass that counts, and of the first insurance that is not
// below the value. All faults at once, each with what would work: a parcel of no mass, or of no size where
// size counts; a destination without a table; heavier or longer than the table goes; a value that it does
// not insure.
Read<Carriage> carriage_of(CarriageService const& service, Consignment const& parcel,
                           std::string_view country, Money value);

}  // namespace endband
