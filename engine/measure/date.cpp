// Civil dates as ISO 8601 writes them.
#include "engine/measure/number.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband {
namespace {

int number_of(std::string_view digits) {
  int value = 0;
  for (char c : digits) value = value * 10 + (c - '0');
  return value;
}

bool looks_like_a_date(std::string_view text) {
  constexpr std::string_view form = "0000-00-00";
  return std::equal(text.begin(), text.end(), form.begin(), form.end(),
                    [](char c, char f) { return f == '0' ? is_digit(c) : c == f; });
}

}  // namespace

Read<Date> read_date(std::string_view text) {
  NumberWanted const wanted{trimmed(text), "a date such as 2026-11-25"};
  if (!looks_like_a_date(wanted.found)) return refuse(wanted.fault(FaultCode::bad_value));
  std::chrono::year_month_day const date{
      std::chrono::year(number_of(wanted.found.substr(0, 4))),
      std::chrono::month(static_cast<unsigned>(number_of(wanted.found.substr(5, 2)))),
      std::chrono::day(static_cast<unsigned>(number_of(wanted.found.substr(8, 2))))};
  if (!date.ok()) return refuse(wanted.fault(FaultCode::out_of_range, "a day that the calendar has"));
  return Date{date};
}

std::string date_text(Date date) {
  std::chrono::year_month_day const civil{date};
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(civil.year()),
                     static_cast<unsigned>(civil.month()), static_cast<unsigned>(civil.day()));
}

}  // namespace endband
