#include "cli/commands/steps_words.h"

#include <fmt/format.h>

namespace endband::cli {

// One unit for the three, as they are typed: "5/10/20 min", "1 min 30 s" apart.
std::string times_words(Spread3 const& times) {
  if (times.low == times.high) return duration_text(times.low);
  auto const three = [&](std::int64_t unit, std::string_view name) {
    return fmt::format("{}/{}/{} {}", times.low.n / unit, times.likely.n / unit, times.high.n / unit, name);
  };
  auto const whole = [&](std::int64_t unit) {
    return times.low.n % unit == 0 && times.likely.n % unit == 0 && times.high.n % unit == 0;
  };
  if (whole(3600)) return three(3600, "h");
  return whole(60) ? three(60, "min") : three(1, "s");
}

std::string wait_words(Duration low, Duration high) {
  if (high.n == 0) return "";
  if (low == high) return duration_text(low);
  auto const two = [&](std::int64_t unit, std::string_view name) {
    return fmt::format("{}/{} {}", low.n / unit, high.n / unit, name);
  };
  if (low.n % 3600 == 0 && high.n % 3600 == 0) return two(3600, "h");
  return low.n % 60 == 0 && high.n % 60 == 0 ? two(60, "min") : two(1, "s");
}

std::string step_name(OperationKind kind) { return std::string(operation_row(kind).name); }

std::vector<std::string> step_names(std::vector<OperationKind> const& kinds) {
  std::vector<std::string> names;
  for (OperationKind const kind : kinds) names.push_back(step_name(kind));
  return names;
}

}  // namespace endband::cli
