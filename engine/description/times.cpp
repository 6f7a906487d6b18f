// Three times as a binder thinks of them: at best, likely, at worst.
#include "engine/description/description.h"

#include <algorithm>
#include <array>
#include <optional>

namespace endband {
namespace {

constexpr std::string_view times_example = "three times such as 10/20/40 min, or one";

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

// The unit of the last time, which serves those without one: "min" of "10/20/40 min".
std::string unit_at_end(std::string_view text) {
  std::size_t at = text.size();
  while (at > 0 && is_letter(text[at - 1])) --at;
  return std::string(text.substr(at));
}

Fault times_fault(FaultCode code, std::string_view text) {
  return {.code = code,
          .where = {},
          .found = std::string(text),
          .expected = std::string(times_example),
          .near = {}};
}

// "20 min/1 h/2 h" in its parts; nullopt unless there are one or three.
std::optional<std::array<std::string, 3>> three_parts(std::string_view text) {
  std::size_t const first = text.find('/');
  if (first == std::string_view::npos)
    return std::array<std::string, 3>{std::string(text), std::string(text), std::string(text)};
  std::size_t const second = text.find('/', first + 1);
  if (second == std::string_view::npos || text.find('/', second + 1) != std::string_view::npos)
    return std::nullopt;
  return std::array<std::string, 3>{std::string(text.substr(0, first)),
                                    std::string(text.substr(first + 1, second - first - 1)),
                                    std::string(text.substr(second + 1))};
}

}  // namespace

Read<Times> read_times(std::string_view text) {
  auto const parts = three_parts(text);
  if (!parts) return refuse(times_fault(FaultCode::bad_value, text));
  std::string const unit = unit_at_end(parts->back());
  std::array<Duration, 3> times;
  for (std::size_t i = 0; i < 3; ++i) {
    auto read = read_duration((*parts)[i]);
    if (!read && read.error().front().code == FaultCode::missing_unit)
      read = read_duration((*parts)[i] + ' ' + unit);
    if (!read) return refuse(times_fault(read.error().front().code, text));
    if (read->n < 0) return refuse(times_fault(FaultCode::out_of_range, text));
    times[i] = *read;
  }
  if (!std::is_sorted(times.begin(), times.end())) {
    Fault fault = times_fault(FaultCode::contradiction, text);
    fault.expected = "the shortest time first, the longest last";
    return refuse(std::move(fault));
  }
  return Times{times[0], times[1], times[2]};
}

}  // namespace endband
