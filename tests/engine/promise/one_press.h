// A small bench that can be worked by hand: one pair of hands, Monday to Friday 09:00-12:00 and 13:00-17:00,
// one press.
#pragma once

#include "engine/promise/promise.h"

namespace endband::one_press {

inline constexpr std::int64_t minute = 60, hour = 3'600, day = 86'400;
inline constexpr Date monday = std::chrono::sys_days{std::chrono::year{2026} / 11 / 30};

inline Step step(OperationKind kind, std::string place = "", std::int64_t wait = 0) {
  Step made;
  made.kind = kind;
  made.wait_low = made.wait_high = Duration{wait};
  made.place = std::move(place);
  return made;
}

inline StepLibrary library() {
  using enum OperationKind;
  return {{step(fold_sheets), step(press_sections, "press", 12 * hour), step(sew_pamphlet),
           step(final_press, "press", 24 * hour), step(pack_parcel), step(post_parcel)}};
}

inline Bench bench() {
  Person ada;
  ada.code = "ada";
  for (std::size_t weekday = 0; weekday < 5; ++weekday)
    ada.week[weekday] = {{9 * hour, 12 * hour}, {13 * hour, 17 * hour}};
  return {{ada}, {{"press", "a press", 1}}};
}

inline WorkLine line(OperationKind kind, Part part, std::int64_t seconds, std::int64_t wait = 0) {
  WorkLine made;
  made.kind = kind;
  made.part = part;
  made.count = {1000};
  made.mean_seconds = made.low_seconds = made.high_seconds = Ratio(seconds);
  made.wait_low = made.wait_high = Duration{wait};
  return made;
}

// Two hours of folding, half an hour and a night in the press, three hours of sewing, a quarter of an hour
// and a day in the press, half an hour of packing, an hour to the post.
inline BenchOrder order(std::string name, std::optional<Date> due = std::nullopt) {
  using enum OperationKind;
  BenchOrder made;
  made.name = std::move(name);
  made.due = due;
  made.work.lines = {line(fold_sheets, Part::text_block, 2 * hour),
                     line(press_sections, Part::text_block, 30 * minute, 12 * hour),
                     line(sew_pamphlet, Part::sewing, 3 * hour),
                     line(final_press, Part::whole_book, 15 * minute, 24 * hour),
                     line(pack_parcel, Part::packing, 30 * minute),
                     line(post_parcel, Part::packing, hour)};
  return made;
}

inline BenchOrder asked(std::string name) {
  BenchOrder made = order(std::move(name));
  made.asked = true;
  return made;
}

// So many days from that Monday, at a time of day.
inline schedule::Time at(int days, int hours, int minutes = 0) {
  return days * day + hours * hour + minutes * minute;
}

}  // namespace endband::one_press
