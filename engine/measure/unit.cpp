// The factors are exact. Inch, foot, yard, pound: 1 in = 25.4 mm, 1 yd = 0.9144 m, 1 lb = 453.59237 g
// (US 16 CFR 500.19 gives the same to six figures). Leather: ounce 1/64 in (leather thickness charts), iron
// 1/48 in (E&R, "iron" (2), dt1896).
#include "engine/measure/unit.h"

#include <algorithm>
#include <array>

namespace endband {
namespace {

constexpr std::array lengths{
    SpelledUnit{"mm", 1'000},      SpelledUnit{"cm", 10'000},     SpelledUnit{"m", 1'000'000},
    SpelledUnit{"um", 1},          SpelledUnit{"in", 25'400},     SpelledUnit{"inch", 25'400},
    SpelledUnit{"inches", 25'400}, SpelledUnit{"\"", 25'400},     SpelledUnit{"ft", 304'800},
    SpelledUnit{"foot", 304'800},  SpelledUnit{"feet", 304'800},  SpelledUnit{"yd", 914'400},
    SpelledUnit{"yard", 914'400},  SpelledUnit{"yards", 914'400},
};

constexpr std::array areas{
    SpelledUnit{"mm2", 1'000'000},
    SpelledUnit{"sq mm", 1'000'000},
    SpelledUnit{"cm2", 100'000'000},
    SpelledUnit{"sq cm", 100'000'000},
    SpelledUnit{"dm2", 10'000'000'000},
    SpelledUnit{"sq dm", 10'000'000'000},
    SpelledUnit{"m2", 1'000'000'000'000},
    SpelledUnit{"sq m", 1'000'000'000'000},
    SpelledUnit{"in2", 645'160'000},
    SpelledUnit{"sq in", 645'160'000},
    SpelledUnit{"ft2", 92'903'040'000},
    SpelledUnit{"sq ft", 92'903'040'000},
    SpelledUnit{"square foot", 92'903'040'000},
    SpelledUnit{"square feet", 92'903'040'000},
};

constexpr std::array masses{
    SpelledUnit{"mg", 1},
    SpelledUnit{"g", 1'000},
    SpelledUnit{"kg", 1'000'000},
    SpelledUnit{"oz", 45'359'237, 1'600},
    SpelledUnit{"lb", 45'359'237, 100},
    SpelledUnit{"lbs", 45'359'237, 100},
};

constexpr std::array volumes{
    SpelledUnit{"ul", 1},       SpelledUnit{"ml", 1'000},    SpelledUnit{"cl", 10'000},
    SpelledUnit{"dl", 100'000}, SpelledUnit{"l", 1'000'000},
};

constexpr std::array counts{
    SpelledUnit{"piece", 1'000}, SpelledUnit{"pieces", 1'000}, SpelledUnit{"pc", 1'000},
    SpelledUnit{"pcs", 1'000},   SpelledUnit{"sheet", 1'000},  SpelledUnit{"sheets", 1'000},
    SpelledUnit{"leaf", 1'000},  SpelledUnit{"leaves", 1'000}, SpelledUnit{"skin", 1'000},
    SpelledUnit{"skins", 1'000}, SpelledUnit{"hide", 1'000},   SpelledUnit{"hides", 1'000},
};

constexpr std::array durations{
    SpelledUnit{"s", 1},         SpelledUnit{"sec", 1},      SpelledUnit{"second", 1},
    SpelledUnit{"seconds", 1},   SpelledUnit{"min", 60},     SpelledUnit{"mins", 60},
    SpelledUnit{"minute", 60},   SpelledUnit{"minutes", 60}, SpelledUnit{"h", 3'600},
    SpelledUnit{"hr", 3'600},    SpelledUnit{"hrs", 3'600},  SpelledUnit{"hour", 3'600},
    SpelledUnit{"hours", 3'600}, SpelledUnit{"d", 86'400},   SpelledUnit{"day", 86'400},
    SpelledUnit{"days", 86'400},
};

constexpr auto thicknesses = [] {
  std::array<SpelledUnit, lengths.size() + 3> result{};
  auto const end =
      std::transform(lengths.begin(), lengths.end(), result.begin(), [](SpelledUnit const& unit) {
        return SpelledUnit{unit.name, unit.num * 1'000};
      });
  end[0] = SpelledUnit{"nm", 1};
  end[1] = SpelledUnit{"oz", 396'875};
  end[2] = SpelledUnit{"iron", 25'400'000, 48};
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

std::span<SpelledUnit const> length_units() { return lengths; }
std::span<SpelledUnit const> area_units() { return areas; }
std::span<SpelledUnit const> mass_units() { return masses; }
std::span<SpelledUnit const> volume_units() { return volumes; }
std::span<SpelledUnit const> count_units() { return counts; }
std::span<SpelledUnit const> duration_units() { return durations; }
std::span<SpelledUnit const> thickness_units() { return thicknesses; }

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

std::optional<SpelledUnit> find_unit(std::span<SpelledUnit const> units, std::string_view said) {
  std::string const name = unit_name(said);
  auto const found =
      std::find_if(units.begin(), units.end(), [&](SpelledUnit const& unit) { return unit.name == name; });
  return found == units.end() ? std::nullopt : std::optional(*found);
}

std::vector<std::string> near_units(std::span<SpelledUnit const> units, std::string_view said) {
  std::vector<std::string_view> names;
  for (SpelledUnit const& unit : units) names.push_back(unit.name);
  return nearest(unit_name(said), names);
}

}  // namespace endband
