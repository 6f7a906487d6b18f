// The factors are exact. Inch, foot, yard, pound: 1 in = 25.4 mm, 1 yd = 0.9144 m, 1 lb = 453.59237 g
// (US 16 CFR 500.19 gives the same to six figures). Leather: ounce 1/64 in (leather thickness charts), iron
// 1/48 in (E&R, "iron" (2), dt1896).
#include "engine/measure/unit.h"

#include <algorithm>
#include <array>

namespace endband {
namespace {

constexpr std::array lengths{
    Unit{"mm", 1'000},     Unit{"cm", 10'000},     Unit{"m", 1'000'000},   Unit{"um", 1},
    Unit{"in", 25'400},    Unit{"inch", 25'400},   Unit{"inches", 25'400}, Unit{"\"", 25'400},
    Unit{"ft", 304'800},   Unit{"foot", 304'800},  Unit{"feet", 304'800},  Unit{"yd", 914'400},
    Unit{"yard", 914'400}, Unit{"yards", 914'400},
};

constexpr std::array areas{
    Unit{"mm2", 1'000'000},
    Unit{"sq mm", 1'000'000},
    Unit{"cm2", 100'000'000},
    Unit{"sq cm", 100'000'000},
    Unit{"dm2", 10'000'000'000},
    Unit{"sq dm", 10'000'000'000},
    Unit{"m2", 1'000'000'000'000},
    Unit{"sq m", 1'000'000'000'000},
    Unit{"in2", 645'160'000},
    Unit{"sq in", 645'160'000},
    Unit{"ft2", 92'903'040'000},
    Unit{"sq ft", 92'903'040'000},
    Unit{"square foot", 92'903'040'000},
    Unit{"square feet", 92'903'040'000},
};

constexpr std::array masses{
    Unit{"mg", 1},
    Unit{"g", 1'000},
    Unit{"kg", 1'000'000},
    Unit{"oz", 45'359'237, 1'600},
    Unit{"lb", 45'359'237, 100},
    Unit{"lbs", 45'359'237, 100},
};

constexpr std::array volumes{
    Unit{"ul", 1}, Unit{"ml", 1'000}, Unit{"cl", 10'000}, Unit{"dl", 100'000}, Unit{"l", 1'000'000},
};

constexpr std::array counts{
    Unit{"piece", 1'000}, Unit{"pieces", 1'000}, Unit{"pc", 1'000},   Unit{"pcs", 1'000},
    Unit{"sheet", 1'000}, Unit{"sheets", 1'000}, Unit{"leaf", 1'000}, Unit{"leaves", 1'000},
    Unit{"skin", 1'000},  Unit{"skins", 1'000},  Unit{"hide", 1'000}, Unit{"hides", 1'000},
};

constexpr std::array durations{
    Unit{"s", 1},         Unit{"sec", 1},    Unit{"second", 1},   Unit{"seconds", 1},
    Unit{"min", 60},      Unit{"mins", 60},  Unit{"minute", 60},  Unit{"minutes", 60},
    Unit{"h", 3'600},     Unit{"hr", 3'600}, Unit{"hrs", 3'600},  Unit{"hour", 3'600},
    Unit{"hours", 3'600}, Unit{"d", 86'400}, Unit{"day", 86'400}, Unit{"days", 86'400},
};

constexpr auto thicknesses = [] {
  std::array<Unit, lengths.size() + 3> result{};
  auto const end = std::transform(lengths.begin(), lengths.end(), result.begin(), [](Unit const& unit) {
    return Unit{unit.name, unit.num * 1'000};
  });
  end[0] = Unit{"nm", 1};
  end[1] = Unit{"oz", 396'875};
  end[2] = Unit{"iron", 25'400'000, 48};
  return result;
}();

struct Spelling {
  std::string_view written;
  std::string_view plain;
};
constexpr std::array spellings{
    Spelling{"\u00b5", "u"}, Spelling{"\u03bc", "u"},  // micro sign, Greek mu
    Spelling{"\u00b2", "2"}, Spelling{"\u2033", "\""}, Spelling{"\u201d", "\""},
};

constexpr std::size_t longest_unit =
    40;  // a longer text is no unit, and is not worth bringing to one spelling

}  // namespace

std::span<Unit const> length_units() { return lengths; }
std::span<Unit const> area_units() { return areas; }
std::span<Unit const> mass_units() { return masses; }
std::span<Unit const> volume_units() { return volumes; }
std::span<Unit const> count_units() { return counts; }
std::span<Unit const> duration_units() { return durations; }
std::span<Unit const> thickness_units() { return thicknesses; }

std::string unit_name(std::string_view said) {
  std::string result;
  if (said.size() > longest_unit) return result;
  while (!said.empty()) {
    auto const spelling = std::find_if(spellings.begin(), spellings.end(),
                                       [&](Spelling const& s) { return said.starts_with(s.written); });
    if (spelling != spellings.end()) {
      result += spelling->plain;
      said.remove_prefix(spelling->written.size());
      continue;
    }
    char const c = said.front();
    said.remove_prefix(1);
    bool const blank = c == ' ' || c == '\t';
    if (c == '.' || (blank && (result.empty() || result.back() == ' '))) continue;
    result += blank ? ' ' : c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return result;
}

std::optional<Unit> find_unit(std::span<Unit const> units, std::string_view said) {
  std::string const name = unit_name(said);
  auto const found =
      std::find_if(units.begin(), units.end(), [&](Unit const& unit) { return unit.name == name; });
  return found == units.end() ? std::nullopt : std::optional(*found);
}

std::vector<std::string> near_units(std::span<Unit const> units, std::string_view said) {
  std::vector<std::string_view> names;
  for (Unit const& unit : units) names.push_back(unit.name);
  return nearest(unit_name(said), names);
}

}  // namespace endband
