#include "cli/commands/money_said.h"

#include <fmt/format.h>

#include <utility>

namespace endband::cli {

Read<Money> read_money_in(std::string_view text, Currency currency, Where const& where, std::string right) {
  bool const names_currency = text.find_first_of("ABCDEFGHIJKLMNOPQRSTUVWXYZ") != std::string_view::npos;
  auto money = located(names_currency ? read_money_with_currency(text) : read_money(text, currency), where);
  if (!money) return money;
  if (money->currency != currency)
    return refuse({FaultCode::currency_mismatch, where, std::string(text), std::move(right), {}});
  if (money->minor < 0)
    return refuse({FaultCode::out_of_range, where, std::string(text), "an amount of 0 or more", {}});
  return money;
}

Read<Money> read_workshop_money(std::string_view text, Currency currency, Where const& where) {
  return read_money_in(text, currency, where, fmt::format("an amount in {}", currency.code()));
}

}  // namespace endband::cli
