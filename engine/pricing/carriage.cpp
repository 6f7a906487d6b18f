// A parcel by a service's table: which mass counts, which band holds it, what insures its worth.
#include "engine/pricing/carriage.h"

#include "engine/money/numeral.h"

#include <algorithm>
#include <utility>

namespace endband {
namespace {

constexpr std::int64_t um_a_cm = 10'000;
constexpr std::int64_t um_a_mm = 1'000;
constexpr std::string_view anywhere = "*";

std::int64_t to_multiple(std::int64_t n, std::int64_t step, Rounding rounding) {
  return checked_mul(mul_div(n, 1, step, rounding), step);
}

std::int64_t rounded_side(Length side, SideRounding rounding) {
  switch (rounding) {
    case SideRounding::exact: return side.n;
    case SideRounding::nearest: return to_multiple(side.n, um_a_cm, Rounding::half_away);
    case SideRounding::up: return to_multiple(side.n, um_a_cm, Rounding::up);
  }
  throw std::logic_error("no such rounding of sides");
}

// um3 / (10^12 um3 to the cm3 x divisor) x 10^6 mg to the kg = um3 / (10^6 x divisor), taken as two factors
// because a product of three sides can leave 64 bits.
Mass volumetric_mass(CarriageService const& service, std::array<Length, 3> const& sides) {
  if (service.divisor == Ratio(0)) return {};
  auto const side = [&](std::size_t i) { return Ratio(rounded_side(sides[i], service.sides)); };
  Ratio const face = side(0) * side(1) / Ratio(um_a_mm);
  Ratio const depth = side(2) / Ratio(um_a_mm) / service.divisor;
  return {round_product(face, depth, Rounding::up)};
}

Mass raised(Mass mass, Mass step) {
  return step.n == 0 ? mass : Mass{to_multiple(mass.n, step.n, Rounding::up)};
}

// "2.5 kg": exactly, as a fault tells of what is just too much.
std::string kilograms(Mass mass) {
  std::string text = decimal_text(mass.n, 6);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text + " kg";
}

std::string amount_of(Money money) { return money_text(money) + ' ' + std::string(money.currency.code()); }

void add(std::vector<Fault>& faults, FaultCode code, std::string field, std::string found,
         std::string expected) {
  faults.push_back({code, {{}, 0, 0, std::move(field)}, std::move(found), std::move(expected), {}});
}

bool goes_to(CarriageZone const& zone, std::string_view country) {
  return std::find(zone.countries.begin(), zone.countries.end(), country) != zone.countries.end();
}

CarriageZone const* zone_of(CarriageService const& service, std::string_view country) {
  for (std::string_view const wanted : {country, anywhere})
    for (CarriageZone const& zone : service.zones)
      if (goes_to(zone, wanted)) return &zone;
  return nullptr;
}

std::string destinations(CarriageService const& service) {
  std::vector<std::string_view> countries;
  for (CarriageZone const& zone : service.zones)
    countries.insert(countries.end(), zone.countries.begin(), zone.countries.end());
  std::sort(countries.begin(), countries.end());
  std::string text;
  for (std::string_view const country : countries) text += (text.empty() ? "" : ", ") + std::string(country);
  return text;
}

void check_parcel(CarriageService const& service, Consignment const& parcel, std::vector<Fault>& faults) {
  if (parcel.mass.n <= 0)
    add(faults, FaultCode::out_of_range, "mass", kilograms(parcel.mass), "more than nothing");
  auto const [least, most] = std::minmax_element(parcel.sides.begin(), parcel.sides.end());
  if (service.divisor != Ratio(0) && least->n <= 0)
    add(faults, FaultCode::out_of_range, "size", length_mm(*least) + " mm",
        "three sides of more than nothing, as this service counts the size");
  if (service.longest && *most > *service.longest)
    add(faults, FaultCode::does_not_fit, "size", length_mm(*most) + " mm",
        "at most " + length_mm(*service.longest) + " mm, the longest side that this service takes");
}

// The price of the band that holds the mass; no currency when there is none.
Money band_price(CarriageService const& service, Mass counted, std::string_view country,
                 std::vector<Fault>& faults) {
  CarriageZone const* const zone = zone_of(service, country);
  if (zone == nullptr || zone->bands.empty()) {
    add(faults, FaultCode::unknown_code, "country", std::string(country),
        "a destination of this service, which goes to " + destinations(service));
    return {};
  }
  auto const band = std::find_if(zone->bands.begin(), zone->bands.end(),
                                 [&](CarriageBand const& one) { return one.up_to >= counted; });
  if (band != zone->bands.end()) return band->price;
  add(faults, FaultCode::does_not_fit, "mass", kilograms(counted) + " that count",
      "at most " + kilograms(zone->bands.back().up_to) + " to " + std::string(country));
  return {};
}

struct Insured {
  Money premium, value;
};
Insured insured(CarriageService const& service, Money value, std::vector<Fault>& faults) {
  Insured const covered{{0, service.cover.currency}, service.cover};
  if (value <= service.cover) return covered;
  auto const band = std::find_if(service.insurance.begin(), service.insurance.end(),
                                 [&](InsuranceBand const& one) { return one.up_to >= value; });
  if (band != service.insurance.end()) return {band->price, value};
  Money const most = service.insurance.empty() ? service.cover : service.insurance.back().up_to;
  add(faults, FaultCode::out_of_range, "value", amount_of(value),
      "at most " + amount_of(most) + ", the most that this service insures");
  return covered;
}

}  // namespace

std::string_view side_rounding_name(SideRounding rounding) {
  static constexpr std::array<std::string_view, 3> names{"exact", "nearest", "up"};
  return names.at(static_cast<std::size_t>(rounding));
}

Read<Carriage> carriage_of(CarriageService const& service, Consignment const& parcel,
                           std::string_view country, Money value) {
  std::vector<Fault> faults;
  check_parcel(service, parcel, faults);
  Mass const volumetric = volumetric_mass(service, parcel.sides);
  Mass const counted = raised(std::max(parcel.mass, volumetric), service.step);
  Money const price = band_price(service, counted, country, faults);
  Insured const insurance = insured(service, value, faults);
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return Carriage{parcel.mass, volumetric, counted, price, insurance.premium, insurance.value};
}

}  // namespace endband
