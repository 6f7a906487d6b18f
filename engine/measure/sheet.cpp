// Paper sizes by name and by measure. The named series are made as the standards make them: the long side is
// halved and rounded down to the millimetre.
#include "engine/measure/extent.h"
#include "engine/measure/number.h"
#include "engine/measure/unit.h"

#include <array>
#include <charconv>

namespace endband {
namespace {

struct Series {
  std::string_view letters;
  std::int64_t short_mm, long_mm;  // of number 0
  int last;
};
constexpr std::array series{
    Series{"SRA", 900, 1280, 4},  // ISO 217
    Series{"RA", 860, 1220, 4},   // ISO 217
    Series{"A", 841, 1189, 10},   // ISO 216
    Series{"B", 1000, 1414, 10},  // ISO 216
};

SheetSize member(Series const& of, int number) {
  std::int64_t first = of.short_mm;
  std::int64_t second = of.long_mm;
  for (int i = 0; i < number; ++i) {
    std::int64_t const half = second / 2;
    second = first;
    first = half;
  }
  return {Length{first * 1'000}, Length{second * 1'000}};
}

struct Name {
  std::string text;
  SheetSize size;
};
std::vector<Name> names() {
  std::vector<Name> result;
  for (Series const& of : series)
    for (int number = 0; number <= of.last; ++number)
      result.push_back({std::string(of.letters) + std::to_string(number), member(of, number)});
  return result;
}

std::vector<std::string> near_names(std::string_view said) {
  std::vector<Name> const known = names();
  std::vector<std::string_view> texts;
  texts.reserve(known.size());
  for (Name const& name : known) texts.push_back(name.text);
  return nearest(said, texts);
}

}  // namespace

Read<SheetSize> read_sheet_size(std::string_view text) {
  constexpr std::string_view example = "a sheet size such as A3, SRA3 or 450 x 640 mm";
  NumberWanted const wanted{trimmed(text), example};
  for (Name const& name : names())
    if (unit_name(name.text) == unit_name(wanted.found)) return name.size;
  if (!has_cross(wanted.found)) {
    Fault fault = wanted.fault(FaultCode::bad_value);
    fault.near = near_names(wanted.found);
    return refuse(std::move(fault));
  }
  auto const extent = read_extent(wanted.found, example);
  if (!extent) return tl::unexpected(extent.error());
  if (extent->first.n <= 0 || extent->second.n <= 0) return refuse(wanted.fault(FaultCode::out_of_range));
  return SheetSize{extent->first, extent->second};
}

}  // namespace endband
