// Times on the command line: of day, lengths, ranges, spans of work.
#include "cli/command/flag_read.h"

#include <optional>
#include <string>

namespace endband::cli {
namespace {

// "9:10" or "09:10": minutes after midnight.
std::optional<std::int64_t> minute_of_day(std::string_view text) {
  std::string const padded = text.size() == 4 ? "0" + std::string(text) : std::string(text);
  if (!read_clock(padded)) return std::nullopt;
  auto const two = [&](std::size_t i) { return (padded[i] - '0') * 10 + (padded[i + 1] - '0'); };
  return two(0) * 60 + two(3);
}

std::string clock_text(std::int64_t minute) {
  auto const two = [](std::int64_t n) { return (n < 10 ? "0" : "") + std::to_string(n); };
  return two(minute / 60) + ":" + two(minute % 60);
}

constexpr std::string_view span_example = "a time worked such as 09:10-11:40 or 2 h 30 min";

// An end before the beginning is the next day's only where that is plain: begun in the evening, ended by
// early morning. Else the two were more likely swapped.
Read<FlagValue> read_clock_span(std::string_view text, std::int64_t began, std::int64_t ended) {
  constexpr std::int64_t evening = 18 * 60;
  constexpr std::int64_t morning = 6 * 60;
  constexpr std::int64_t day = 24 * 60;
  bool const over_midnight = ended < began && began >= evening && ended <= morning;
  if (ended <= began && !over_midnight)
    return refuse(flag_fault(
        FaultCode::contradiction, text,
        "the beginning before the end; over midnight only from 18:00 or later to 06:00 or earlier"));
  std::int64_t const minutes = ended - began + (over_midnight ? day : 0);
  return FlagValue(WorkSpan{{minutes * 60}, clock_text(began), clock_text(ended)});
}

Read<FlagValue> read_length_of_work(std::string_view text) {
  constexpr std::int64_t most = 24 * 3600;
  auto const time = read_duration(text);
  if (!time) return refuse(flag_fault(time.error().front().code, text, std::string(span_example)));
  if (time->n <= 0 || time->n > most)
    return refuse(flag_fault(FaultCode::out_of_range, text, "more than nothing, and at most 24 h at once"));
  return FlagValue(WorkSpan{*time, {}, {}});
}

}  // namespace

Read<FlagValue> read_day(std::string_view text) {
  auto const date = read_date(text);
  if (!date) return tl::unexpected(date.error());
  // What is reckoned from a day (how long an offer holds, when a job is done) is to have four digits too.
  int const year = static_cast<int>(std::chrono::year_month_day{*date}.year());
  if (year < 1900 || year > 2999)
    return refuse(flag_fault(FaultCode::out_of_range, text, "a day of the years 1900 to 2999"));
  return FlagValue(*date);
}

Read<FlagValue> read_clock(std::string_view text) {
  auto const digit = [&](std::size_t i) { return text[i] >= '0' && text[i] <= '9'; };
  bool const good = text.size() == 5 && digit(0) && digit(1) && text[2] == ':' && digit(3) && digit(4) &&
                    text.substr(0, 2) < "24" && text[3] < '6';
  if (!good) return refuse(flag_fault(FaultCode::bad_value, text, "a time of day such as 09:30"));
  return FlagValue(std::string(text));
}

Read<FlagValue> read_time(std::string_view text) {
  auto const time = read_duration(text);
  if (!time) return tl::unexpected(time.error());
  if (time->n < 0) return refuse(flag_fault(FaultCode::out_of_range, text, "no time, or more"));
  return FlagValue(*time);
}

Read<FlagValue> read_three_times(std::string_view text) {
  auto const times = read_times(text);
  if (!times) return tl::unexpected(times.error());
  return FlagValue(Spread3{times->low, times->likely, times->high});
}

// "8/12 h", or one duration for both. The middle of the three is not used.
Read<FlagValue> read_wait(std::string_view text) {
  std::string_view const example = "a wait such as 8/12 h, or one";
  std::size_t const slash = text.find('/');
  auto const last = read_duration(slash == std::string_view::npos ? text : text.substr(slash + 1));
  if (!last) return refuse(flag_fault(last.error().front().code, text, std::string(example)));
  if (slash == std::string_view::npos) return FlagValue(Spread3{*last, *last, *last});
  std::size_t const unit = text.find_last_not_of("abcdefghijklmnopqrstuvwxyz");
  std::string first(text.substr(0, slash));
  if (!first.empty() && first.back() >= '0' && first.back() <= '9') first += text.substr(unit + 1);
  auto const low = read_duration(first);
  if (!low) return refuse(flag_fault(low.error().front().code, text, std::string(example)));
  if (*low > *last || low->n < 0)
    return refuse(flag_fault(FaultCode::contradiction, text, "the shorter wait first, the longer one last"));
  return FlagValue(Spread3{*low, *low, *last});
}

Read<FlagValue> read_span(std::string_view text) {
  if (text.find(':') == std::string_view::npos) return read_length_of_work(text);
  for (std::string_view const dash : {"-", "\xE2\x80\x93"}) {  // a hyphen, or an en dash
    std::size_t const at = text.find(dash);
    if (at == std::string_view::npos) continue;
    auto const trimmed = [](std::string_view part) {
      while (part.starts_with(' ')) part.remove_prefix(1);
      while (part.ends_with(' ')) part.remove_suffix(1);
      return part;
    };
    auto const began = minute_of_day(trimmed(text.substr(0, at)));
    auto const ended = minute_of_day(trimmed(text.substr(at + dash.size())));
    if (began && ended) return read_clock_span(text, *began, *ended);
  }
  return refuse(flag_fault(FaultCode::bad_value, text, std::string(span_example)));
}

}  // namespace endband::cli
