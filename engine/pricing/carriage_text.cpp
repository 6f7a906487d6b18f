// A carriage service as its user writes it down from its price list: the form of the text, and its reader.
#include "engine/pricing/terms.h"
#include "engine/pricing/terms_text.h"

#include <algorithm>
#include <array>

namespace endband {
namespace {

using enum ValueType;

constexpr double most_money = 10'000'000;
constexpr double most_grams = 1'000'000;

// Choices stand in the order of their enumerations.
// clang-format off
constexpr std::array rows{
    term("endband", count, 1, 1, "the form of the text; the first line of every one"),
    term("name", words, 1, 100, "what the service is called"),
    term("divisor", number, 100, 100'000, "cubic centimetres that count as a kilogram; size does not count unless said"),
    choice_of("sides", "exact|nearest|up", "how each side is rounded to whole centimetres before; exact unless said"),
    term("step", mass, 1, most_grams, "the mass that counts is raised to a multiple of it"),
    term("longest", length, 10, 10'000, "no parcel with a longer side is taken"),
    term("cover", money, 0, most_money, "paid for loss without more"),
    term("excess", money, 0, most_money, "the sender's own part of each loss"),
    term("zones[].name", code, 0, 0, "a code for the zone"),
    term("zones[].to", words, 1, 1000, "its countries by their two letters, or * for everywhere else"),
    term("prices[].zone", code, 0, 0, "the zone"),
    term("prices[].up_to", mass, 1, most_grams, "the heaviest parcel of this price"),
    term("prices[].price", money, 0, most_money, "its price without tax"),
    term("insurance[].up_to", money, 0, most_money, "goods worth so much, and more than the band before"),
    term("insurance[].price", money, 0, most_money, "what insuring them costs"),
};
// clang-format on

constexpr std::string_view example = R"(endband = 1
# An invented service. Copy the figures from the price list of the one that fetches your parcels.
name = "The Slow Van"
divisor = 5000              # cubic centimetres that count as a kilogram; without it size does not count
sides = "nearest"           # each side to whole centimetres: exact, nearest or up
step = "500 g"              # what counts is raised to a multiple
longest = "1.2 m"
cover = "50.00"             # paid for loss without more
excess = "10.00"            # of which this is the sender's own

[[zones]]
name = "home"
to = "AT DE"                # countries by their two letters

[[zones]]
name = "world"
to = "*"                    # everywhere else

[[prices]]                  # without tax, lightest first in each zone
zone = "home"
up_to = "2 kg"
price = "5.20"

[[prices]]
zone = "home"
up_to = "10 kg"
price = "9.40"

[[prices]]
zone = "world"
up_to = "5 kg"
price = "31.00"

[[insurance]]               # for goods worth more than the cover
up_to = "500.00"
price = "3.00"
)";

// "DE, AT NL": the words between blanks and commas.
std::vector<std::string> parted(std::string_view text) {
  std::vector<std::string> words;
  while (!text.empty()) {
    std::size_t const end = std::min(text.find_first_of(" ,\t"), text.size());
    if (end > 0) words.emplace_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return words;
}

bool is_destination(std::string_view word) {
  auto const capital = [](char c) { return c >= 'A' && c <= 'Z'; };
  return word == "*" || (word.size() == 2 && capital(word[0]) && capital(word[1]));
}

std::string quoted(std::string_view word) { return '"' + std::string(word) + '"'; }

class CarriageReader {
 public:
  CarriageReader(Terms& terms, Currency shop) : terms_(terms), shop_(shop) {}

  CarriageService read() {
    terms_.need("name");
    if (!terms_.said("divisor")) terms_.refuse_key("sides", "divisor = ..., or no sides");
    CarriageService service;
    service.name = terms_.words("name");
    service.divisor = terms_.ratio("divisor");
    service.sides = terms_.choice<SideRounding>("sides").value_or(SideRounding::exact);
    service.step = {terms_.whole("step")};
    if (auto const longest = terms_.get<std::int64_t>("longest")) service.longest = Length{*longest};
    service.cover = money("cover").value_or(Money{0, shop_});
    service.excess = money("excess").value_or(Money{0, shop_});
    service.zones = zones();
    service.insurance = insurance(service.cover);
    return service;
  }

 private:
  Terms& terms_;
  Currency shop_;
  std::vector<std::string> names_;  // of the zones

  std::optional<Money> money(Key const& key) { return terms_.money(key, shop_); }
  bool all_named() const { return std::find(names_.begin(), names_.end(), "") == names_.end(); }

  std::vector<CarriageZone> zones() {
    std::vector<CarriageZone> zones;
    for (int row = 0; row < terms_.rows("zones"); ++row) {
      add_name(row);
      zones.push_back({countries(row, zones), {}});
    }
    if (zones.empty() && !terms_.said("zones"))
      terms_.fault_found(FaultCode::missing_key, "zones", {}, "[[zones]], one or more, and their [[prices]]");
    add_prices(zones);
    check_prices();
    return zones;
  }

  void add_name(int row) {
    terms_.need("zones[].name", row);
    std::string name = terms_.words({"zones[].name", row});
    if (!name.empty() && std::find(names_.begin(), names_.end(), name) != names_.end())
      terms_.fault(FaultCode::contradiction, {"zones[].name", row},
                   "a name that no other zone has, as prices name their zone by it");
    names_.push_back(std::move(name));
  }

  std::vector<std::string> countries(int row, std::vector<CarriageZone> const& before) {
    Key const to("zones[].to", row);
    terms_.need("zones[].to", row);
    std::vector<std::string> countries;
    for (std::string const& word : parted(terms_.words(to))) {
      check_country(to, word, countries, before);
      countries.push_back(word);
    }
    if (countries.empty() && terms_.get<std::string>(to))
      terms_.fault(FaultCode::bad_value, to, "countries by their two letters, such as \"AT DE\", or \"*\"");
    return countries;
  }

  void check_country(Key const& to, std::string const& word, std::vector<std::string> const& here,
                     std::vector<CarriageZone> const& before) {
    auto const has = [&](std::vector<std::string> const& countries) {
      return std::find(countries.begin(), countries.end(), word) != countries.end();
    };
    auto const elsewhere = std::find_if(before.begin(), before.end(),
                                        [&](CarriageZone const& zone) { return has(zone.countries); });
    if (!is_destination(word))
      terms_.fault_found(FaultCode::bad_value, to, quoted(word),
                         "a country by its two capital letters, such as DE, or * for everywhere else");
    else if (has(here))
      terms_.fault_found(FaultCode::contradiction, to, quoted(word), "each country once");
    else if (elsewhere != before.end())
      terms_.fault_found(FaultCode::contradiction, to, quoted(word),
                         "each country in one zone; this one is in zone " +
                             quoted(names_[static_cast<std::size_t>(elsewhere - before.begin())]));
  }

  void add_prices(std::vector<CarriageZone>& zones) {
    for (int row = 0; row < terms_.rows("prices"); ++row) {
      for (std::string_view const path : {"prices[].zone", "prices[].up_to", "prices[].price"})
        terms_.need(path, row);
      CarriageZone* const zone = zone_of(row, zones);
      auto const up_to = terms_.get<std::int64_t>({"prices[].up_to", row});
      Money const price = money({"prices[].price", row}).value_or(Money{0, shop_});
      if (zone == nullptr || !up_to) continue;
      if (!zone->bands.empty() && zone->bands.back().up_to >= Mass{*up_to})
        terms_.fault(FaultCode::contradiction, {"prices[].up_to", row},
                     "more than " + value_text(mass, Value(zone->bands.back().up_to.n)) +
                         ", up to which the price before it holds");
      zone->bands.push_back({Mass{*up_to}, price});
    }
  }

  CarriageZone* zone_of(int row, std::vector<CarriageZone>& zones) {
    std::string const name = terms_.words({"prices[].zone", row});
    auto const it = std::find(names_.begin(), names_.end(), name);
    if (name.empty()) return nullptr;
    if (it != names_.end()) return &zones[static_cast<std::size_t>(it - names_.begin())];
    std::vector<std::string_view> const known(names_.begin(), names_.end());
    if (all_named() && !zones.empty()) terms_.fault_unknown({"prices[].zone", row}, "zones", known);
    return nullptr;
  }

  // Each zone has a price. While a name is missing or wrong, nobody knows whose the prices are.
  void check_prices() {
    if (!all_named() || (terms_.said("prices") && terms_.rows("prices") == 0)) return;
    for (std::size_t i = 0; i < names_.size(); ++i)
      if (!priced(names_[i]))
        terms_.fault(FaultCode::contradiction, {"zones[].name", static_cast<int>(i)},
                     "[[prices]] with zone = " + quoted(names_[i]));
  }

  bool priced(std::string_view name) const {
    for (int row = 0; row < terms_.rows("prices"); ++row)
      if (terms_.words({"prices[].zone", row}) == name) return true;
    return false;
  }

  std::vector<InsuranceBand> insurance(Money cover) {
    std::vector<InsuranceBand> bands;
    for (int row = 0; row < terms_.rows("insurance"); ++row) {
      terms_.need("insurance[].up_to", row);
      terms_.need("insurance[].price", row);
      auto const up_to = money({"insurance[].up_to", row});
      Money const price = money({"insurance[].price", row}).value_or(Money{0, shop_});
      if (!up_to) continue;
      Money const before = bands.empty() ? cover : bands.back().up_to;
      if (*up_to <= before)
        terms_.fault(FaultCode::contradiction, {"insurance[].up_to", row},
                     "more than " + money_text(before) +
                         (bands.empty() ? ", which is the cover" : ", up to which the band before it goes"));
      bands.push_back({*up_to, price});
    }
    return bands;
  }
};

}  // namespace

std::span<KeyRow const> carriage_keys() { return rows; }

std::string_view carriage_example() { return example; }

Read<CarriageService> read_carriage(std::string_view text, std::string const& source, std::string code,
                                    Currency shop) {
  Terms terms(text, source, carriage_keys());
  if (!terms.readable()) return terms.refused();
  CarriageService service = CarriageReader(terms, shop).read();
  service.code = std::move(code);
  return terms.result(std::move(service));
}

}  // namespace endband
