#include "cli/commands/stock_line.h"

#include "engine/money/numeral.h"

#include <algorithm>
#include <vector>

namespace endband::cli {
namespace {

constexpr std::string_view blanks = " \t";

Fault fault(FaultCode code, std::string_view found, std::string expected) {
  return {code, {}, std::string(found), std::move(expected), {}};
}

}  // namespace

Read<LineParts> split_line(std::string_view line, Priced priced) {
  std::vector<std::string_view> words;
  for (std::string_view rest = trimmed(line); !rest.empty();) {
    std::size_t const end = std::min(rest.find_first_of(blanks), rest.size());
    words.push_back(rest.substr(0, end));
    rest = trimmed(rest.substr(end));
  }
  std::size_t price_words = priced == Priced::yes ? 1 : 0;
  auto const capital = [](char c) { return c >= 'A' && c <= 'Z'; };
  if (price_words == 1 && words.size() > 3 && words.back().size() == 3 &&
      std::ranges::all_of(words.back(), capital))
    price_words = 2;
  auto const joined = [&](std::size_t from, std::size_t to) {
    std::string text;
    for (std::size_t n = from; n < to; ++n) text += (n == from ? "" : " ") + std::string(words[n]);
    return text;
  };
  auto const digit = [](char c) { return c >= '0' && c <= '9'; };
  std::size_t const quantity_end = words.size() - std::min(price_words, words.size());
  bool const has_price =
      price_words == 0 || (quantity_end < words.size() && digit(words[quantity_end].front()));
  if (quantity_end < 2 || !has_price)
    return refuse(fault(FaultCode::bad_value, line,
                        priced == Priced::yes
                            ? "a code, a quantity and what it cost, such as board-20 10 sheets 34.00"
                            : "a code and a quantity, such as board-20 10 sheets"));
  return LineParts{std::string(words.front()), joined(1, quantity_end), joined(quantity_end, words.size())};
}

}  // namespace endband::cli
