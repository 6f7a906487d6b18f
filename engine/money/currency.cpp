// The currencies of ISO 4217, list one as published on 2024-06-25. The thirteen codes whose minor unit is
// "N.A." there (metals, funds' units, tests) hold no money and are left out.
#include "engine/money/money.h"

#include <algorithm>
#include <array>
#include <cstddef>

namespace endband {
namespace {

struct Group {
  std::uint8_t digits;
  std::string_view codes;
};
constexpr std::array groups{
    Group{0, "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF"},
    Group{2,
          "AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BOV BRL BSD BTN BWP BYN BZD "
          "CAD CDF CHE CHF CHW CNY COP COU CRC CUC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL "
          "GHS GIP GMD GTQ GYD HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD "
          "LSL MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN "
          "PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB "
          "TJS TMT TOP TRY TTD TWD TZS UAH USD USN UYU UZS VED VES WST XCD YER ZAR ZMW ZWG"},
    Group{3, "BHD IQD JOD KWD LYD OMR TND"},
    Group{4, "CLF UYW"},
};

struct Row {
  std::string_view code;
  std::uint8_t digits = 0;
};
constexpr std::size_t currency_count = 17 + 140 + 7 + 2;

// Row 0 is no currency; the others follow in the order of their codes.
constexpr auto rows = [] {
  std::array<Row, currency_count + 1> result{};
  std::size_t next = 1;
  for (Group const& group : groups)
    for (std::size_t at = 0; at < group.codes.size(); at += 4)
      result.at(next++) = {group.codes.substr(at, 3), group.digits};
  std::sort(result.begin(), result.end(), [](Row const& a, Row const& b) { return a.code < b.code; });
  return result;
}();
static_assert(rows[0].code.empty() && rows[1].code == "AED" && rows[currency_count].code == "ZWG");
static_assert(std::adjacent_find(rows.begin(), rows.end(),
                                 [](Row const& a, Row const& b) { return a.code == b.code; }) == rows.end());

std::string upper(std::string_view text) {
  std::string result(text);
  for (char& c : result)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  return result;
}

}  // namespace

std::string_view Currency::code() const { return rows[row_].code; }

int Currency::digits() const { return rows[row_].digits; }

std::int64_t Currency::minor_per_major() const {
  std::int64_t result = 1;
  for (int i = 0; i < digits(); ++i) result *= 10;
  return result;
}

Read<Currency> read_currency(std::string_view code) {
  auto const found =
      std::lower_bound(rows.begin() + 1, rows.end(), code,
                       [](Row const& row, std::string_view wanted) { return row.code < wanted; });
  if (found != rows.end() && found->code == code) {
    Currency result;
    result.row_ = static_cast<std::uint8_t>(found - rows.begin());
    return result;
  }
  // Of three letters two must be right, or half the world's currencies are near.
  std::vector<std::string> near = nearest(upper(code), currency_codes());
  std::erase_if(near, [&](std::string const& known) { return edit_distance(known, code) > 1; });
  return refuse({.code = FaultCode::bad_value,
                 .where = {},
                 .found = std::string(code),
                 .expected = "the three capital letters of a currency, such as EUR",
                 .near = std::move(near)});
}

std::vector<std::string_view> currency_codes() {
  std::vector<std::string_view> result;
  for (std::size_t i = 1; i < rows.size(); ++i) result.push_back(rows[i].code);
  return result;
}

}  // namespace endband
