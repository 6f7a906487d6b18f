// Exact quantities: one whole-number unit for each kind, which the type names. They add and compare within
// their kind only; whatever divides returns a Ratio or names its rounding.
#pragma once

#include "engine/fault/fault.h"
#include "engine/money/money.h"

#include <chrono>
#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

namespace endband {

template <class Tag>
struct Quantity {
  std::int64_t n = 0;
  friend constexpr auto operator<=>(Quantity, Quantity) = default;
};
std::int64_t checked_add(std::int64_t a, std::int64_t b);  // all three throw Overflow
std::int64_t checked_sub(std::int64_t a, std::int64_t b);
std::int64_t checked_mul(std::int64_t a, std::int64_t b);
template <class Tag>
Quantity<Tag> operator+(Quantity<Tag> a, Quantity<Tag> b) {
  return {checked_add(a.n, b.n)};
}
template <class Tag>
Quantity<Tag> operator-(Quantity<Tag> a, Quantity<Tag> b) {
  return {checked_sub(a.n, b.n)};
}
template <class Tag>
Quantity<Tag>& operator+=(Quantity<Tag>& a, Quantity<Tag> b) {
  return a = a + b;
}
template <class Tag>
Quantity<Tag> operator*(Quantity<Tag> a, std::int64_t times) {
  return {checked_mul(a.n, times)};
}
template <class Tag>
Quantity<Tag> scale(Quantity<Tag> q, Ratio factor, Rounding rounding) {
  return {round_product(Ratio(q.n), factor, rounding)};
}

using Length = Quantity<struct LengthTag>;        // micrometres
using Area = Quantity<struct AreaTag>;            // square micrometres
using Mass = Quantity<struct MassTag>;            // milligrams
using Volume = Quantity<struct VolumeTag>;        // microlitres
using Count = Quantity<struct CountTag>;          // thousandths of a piece, sheet, leaf
using Duration = Quantity<struct DurationTag>;    // seconds
using Thickness = Quantity<struct ThicknessTag>;  // nanometres

Area area(Length height, Length width);

// What a catalogue row is counted in; the n is in the unit of the dimension above.
enum class Dimension : std::uint8_t { length, area, mass, volume, count, duration };
struct Amount {
  Dimension dimension = Dimension::count;
  std::int64_t n = 0;
  friend bool operator==(Amount const&, Amount const&) = default;
};
Amount operator+(Amount a, Amount b);  // two dimensions never meet: throws std::logic_error
Amount operator-(Amount a, Amount b);
inline Amount amount(Length q) { return {Dimension::length, q.n}; }
inline Amount amount(Area q) { return {Dimension::area, q.n}; }
inline Amount amount(Mass q) { return {Dimension::mass, q.n}; }
inline Amount amount(Volume q) { return {Dimension::volume, q.n}; }
inline Amount amount(Count q) { return {Dimension::count, q.n}; }
inline Amount amount(Duration q) { return {Dimension::duration, q.n}; }

// --- reading. The process locale never matters; units are read in small and in capital letters. A comma or a
// point may part the decimals, of which there are at most nine; "1,234.5" and "1.234,5" are read; one mark
// before exactly three digits ("1,234 mm", "1.234 mm", but not "0.234 mm") is refused with both readings in
// `expected`; fractions are read ("11 3/4 in", "11¾ in"). A missing unit is missing_unit, another's or an
// unknown one wrong_unit. A fault's `where` is empty: see located() in fault.h. Length: mm cm m um in " ft
// yd.  Area: mm2 cm2 dm2 m2 (also with ²) sq in, sq ft, in2, ft2, or "300 x 200 mm". Mass: mg g kg oz lb.
// Volume: ul ml cl dl l.  Duration: s min h, "2 h 30 min", "1h30", "90 min", days "2 d" = 48 h. Thickness: as
// Length, and um, nm, "2.5 oz" (leather ounce = 1/64 in), "3 iron" (1/48 in). A value that is not a whole
// number of the unit is rounded half away; a negative one is read (ranges are the caller's).
Read<Length> read_length(std::string_view text);
Read<Area> read_area(std::string_view text);
Read<Mass> read_mass(std::string_view text);
Read<Volume> read_volume(std::string_view text);
Read<Duration> read_duration(std::string_view text);
Read<Thickness> read_thickness(std::string_view text);
Read<Count> read_count(std::string_view text);  // "12", "2.5", "1/2"; no unit; at most 3 decimals
// "50 g", "20 sheets", "6 sq ft", "25 leaves", "1 piece", "10 m": the dimension comes from the unit. An ounce
// is of mass here.
Read<Amount> read_amount(std::string_view text);

struct SheetSize {
  Length first, second;  // as said; by the mills' convention the second side is along the grain
  friend bool operator==(SheetSize const&, SheetSize const&) = default;
};
// "A3", "SRA3", "RA2", "B4" (ISO 216 / 217; the short side first), "450 x 640 mm", "25 x 20 in".
Read<SheetSize> read_sheet_size(std::string_view text);

struct ThreadNumber {
  int number = 0;  // lea (NeL): hanks of 300 yards to the pound, of the single yarn
  int ply = 1;     // threads laid together
  friend bool operator==(ThreadNumber const&, ThreadNumber const&) = default;
};
Read<ThreadNumber> read_thread_number(std::string_view text);  // "18/3", "25"
Ratio tex(ThreadNumber thread);                                // g/km, exact: 453.59237 g/lb, 0.9144 m/yd

// A civil date. Business dates have no time and no zone.
using Date = std::chrono::sys_days;
Read<Date> read_date(std::string_view text);  // "2026-11-25", checked against the calendar
std::string date_text(Date date);

// --- writing. No grouping. The two of a named unit and the duration are exact and read back as they were:
// the shortest decimal, with a zero after three decimals that would be ambiguous ("1.2340").
std::string length_mm(Length q);        // "250", "0.62"
std::string area_cm2(Area q);           // "2520.5"
std::string duration_text(Duration q);  // "2 h 30 min", "45 s"; never in days
// For people: three figures, or a whole number where that has more; mm or m, cm2 or m2, g or kg, ml or l.
std::string amount_text(Amount q);  // "9.14 m", "620 cm2", "48 g", "12 ml", "3", "2 h 30 min"

}  // namespace endband
