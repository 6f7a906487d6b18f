#include "cli/words/values.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>

namespace endband::cli {
namespace {

// `scaled` / 10^places as a decimal without zeros at its end.
std::string decimal(std::int64_t scaled, int places) {
  std::int64_t one = 1;
  for (int i = 0; i < places; ++i) one *= 10;
  std::int64_t const whole = scaled / one;
  std::int64_t const rest = scaled < 0 ? -(scaled % one) : scaled % one;
  std::string text = fmt::format("{}{}", scaled < 0 && whole == 0 ? "-" : "", whole);
  if (rest == 0) return text;
  text += fmt::format(".{:0{}}", rest, places);
  while (text.ends_with('0')) text.pop_back();
  return text;
}

// An area on its way to or from a shop: square metres, or square centimetres for a scrap.
std::string area_words(std::int64_t um2) {
  constexpr std::int64_t cm2 = 100'000'000;
  if (um2 >= 1000 * cm2) return decimal(mul_div(um2, 1, cm2, Rounding::half_away), 4) + " m2";
  return decimal(mul_div(um2, 10, cm2, Rounding::half_away), 1) + " cm2";
}

std::string counted(Amount amount, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", decimal(amount.n, 3), amount.n == 1000 ? one : many);
}

}  // namespace

std::string percent(Ratio share) {
  return decimal(round_product(share, Ratio(10000), Rounding::half_away), 2) + " %";
}

std::string number(Ratio value) {
  return decimal(round_product(value, Ratio(10000), Rounding::half_away), 4);
}

std::string signed_text(Money change) { return (change.minor > 0 ? "+" : "") + money_text(change); }

std::string money_words(Money money) { return money_text(money) + " " + std::string(money.currency.code()); }

std::string millimetres(Length length) { return length_mm(length) + " mm"; }

std::string tenths_mm(Length length) { return decimal(mul_div(length.n, 1, 100, Rounding::half_away), 1); }

std::string sheet_words(SheetSize sheet) {
  return length_mm(sheet.first) + " x " + millimetres(sheet.second);
}

std::string thread_words(ThreadNumber thread) { return fmt::format("{}/{}", thread.number, thread.ply); }

std::string hours_words(Ratio seconds) {
  std::int64_t const minutes = round_product(seconds, Ratio(1, 60), Rounding::half_away);
  if (minutes < 60) return fmt::format("{} min", minutes);
  return minutes % 60 == 0 ? fmt::format("{} h", minutes / 60)
                           : fmt::format("{} h {} min", minutes / 60, minutes % 60);
}

std::string sold_words(Amount amount, SoldBy sold_by) {
  switch (sold_by) {
    case SoldBy::sheet:
    case SoldBy::pad: return counted(amount, "sheet", "sheets");
    case SoldBy::leaf_book: return counted(amount, "leaf", "leaves");
    case SoldBy::piece: return counted(amount, "piece", "pieces");
    case SoldBy::skin: return area_words(amount.n);
    case SoldBy::length: return decimal(mul_div(amount.n, 1, 1000, Rounding::half_away), 3) + " m";
    case SoldBy::weight: return decimal(amount.n, 3) + " g";
    case SoldBy::volume: return decimal(amount.n, 3) + " ml";
  }
  return {};
}

std::string listed(std::vector<std::string> const& words, std::string_view last) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i)
    text += (i == 0 ? "" : i + 1 == words.size() ? fmt::format(" {} ", last) : ", ") + words[i];
  return text;
}

std::string listed_few(std::vector<std::string> words) {
  constexpr std::size_t few = 4;
  if (std::size_t const all = words.size(); all > few) {
    words.resize(few);
    words.back() = fmt::format("{} more", all - few + 1);
  }
  return listed(words);
}

bool same_words(std::string_view a, std::string_view b) {
  auto const small = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
  return std::ranges::equal(a, b, {}, small, small);
}

}  // namespace endband::cli
