// Times of work and of waiting: "2 h 30 min", "1h30".
#include "engine/measure/number.h"
#include "engine/measure/unit.h"

#include <algorithm>
#include <array>

namespace endband {
namespace {

constexpr std::int64_t minute = 60;
constexpr std::int64_t hour = 60 * minute;

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

// "1h30": two digits at the end, right after an hour, are its minutes.
bool minutes_of_clock(std::string_view text, std::int64_t last_unit) {
  return last_unit == hour && text.size() == 2 && is_digit(text[0]) && is_digit(text[1]) && text[0] < '6';
}

Read<Duration> read_parts(NumberWanted const& wanted) {
  std::string_view rest = wanted.found;
  std::int64_t const sign = take_minus(rest) ? -1 : 1;
  Ratio seconds;
  std::int64_t last_unit = 0;  // of the part before; each part has a smaller one
  do {
    if (minutes_of_clock(rest, last_unit)) {
      seconds = seconds + Ratio(sign * ((rest[0] - '0') * 10 + (rest[1] - '0')) * minute);
      break;
    }
    if (std::string_view part = rest; take_minus(part)) return refuse(wanted.fault(FaultCode::bad_value));
    auto const number = take_number(rest, wanted);
    if (!number) return tl::unexpected(number.error());
    auto const end = std::find_if_not(number->rest.begin(), number->rest.end(), is_letter);
    std::string_view const said =
        number->rest.substr(0, static_cast<std::size_t>(end - number->rest.begin()));
    rest = trimmed(number->rest.substr(said.size()));
    if (number->rest.empty()) return refuse(wanted.fault(FaultCode::missing_unit));
    auto const unit = find_unit(duration_units(), said);
    if (!unit) return refuse(wanted.fault(FaultCode::wrong_unit));
    if (number->ambiguous)
      return refuse(wanted.fault(FaultCode::ambiguous_number, both_readings(*number->ambiguous, said)));
    if (last_unit != 0 && unit->num >= last_unit) return refuse(wanted.fault(FaultCode::bad_value));
    seconds = seconds + number->value * Ratio(sign * unit->num);
    last_unit = unit->num;
  } while (!rest.empty());
  return Duration{round(seconds, Rounding::half_away)};
}

}  // namespace

Read<Duration> read_duration(std::string_view text) {
  NumberWanted const wanted{trimmed(text), "a time such as 2 h 30 min or 90 min"};
  try {
    return read_parts(wanted);
  } catch (Overflow const&) {
    return refuse(wanted.fault(FaultCode::out_of_range));
  }
}

std::string duration_text(Duration q) {
  struct Part {
    std::int64_t n;
    std::string_view unit;
  };
  std::string text;
  for (Part const& part :
       {Part{q.n / hour, "h"}, Part{q.n % hour / minute, "min"}, Part{q.n % minute, "s"}}) {
    if (part.n == 0) continue;
    // All three have the sign of the whole, which is written once.
    std::string const number = std::to_string(part.n);
    text += text.empty() ? number : " " + number.substr(part.n < 0 ? 1 : 0);
    text += ' ';
    text += part.unit;
  }
  return text.empty() ? "0 s" : text;
}

}  // namespace endband
