#include "cli/forms/exact.h"

#include "engine/money/numeral.h"

namespace endband::cli {
namespace {

constexpr int most_decimals = 9;  // of what is read

// The value as a decimal of at most so many places; empty: it is none.
std::string decimal_of(Ratio value, int most) {
  std::int64_t scale = 1;
  for (int places = 0; places <= most; ++places, scale *= 10)
    if (scale % value.den() == 0) return exact_decimal(checked_mul(value.num(), scale / value.den()), places);
  return {};
}

std::string counted(Amount amount, std::string_view one, std::string_view many) {
  return exact_decimal(amount.n, 3) + " " + std::string(amount.n == 1000 ? one : many);
}

}  // namespace

std::string exact_decimal(std::int64_t n, int decimals) {
  std::string text = decimal_text(n, decimals);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  // "1.234" would be asked back as 1234 or 1.234, "1.2340" not.
  if (auto const read = read_numeral(text); read && read->ambiguous) text += '0';
  return text;
}

std::string exact_share(Ratio share) {
  std::string const percent = decimal_of(share * Ratio(100), most_decimals);
  return percent.empty() ? ratio_text(share) : percent + " %";
}

std::string exact_number(Ratio value) {
  std::string const decimal = decimal_of(value, most_decimals);
  return decimal.empty() ? ratio_text(value) : decimal;
}

std::string exact_thickness(Thickness thickness) { return exact_decimal(thickness.n, 6) + " mm"; }

std::string exact_amount(Amount amount, SoldBy sold_by) {
  switch (sold_by) {
    case SoldBy::sheet:
    case SoldBy::pad: return counted(amount, "sheet", "sheets");
    case SoldBy::leaf_book: return counted(amount, "leaf", "leaves");
    case SoldBy::piece: return counted(amount, "piece", "pieces");
    case SoldBy::skin:  // a square metre is 10^12 of what areas are counted in
      return amount.n % 1000 == 0 ? exact_decimal(amount.n / 1000, most_decimals) + " m2"
                                  : exact_decimal(amount.n, 6) + " mm2";
    case SoldBy::length: return exact_decimal(amount.n, 6) + " m";
    case SoldBy::weight: return exact_decimal(amount.n, 3) + " g";
    case SoldBy::volume: return exact_decimal(amount.n, 3) + " ml";
  }
  return {};
}

}  // namespace endband::cli
