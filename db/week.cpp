#include "db/week.h"

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

namespace endband::db {
namespace {

constexpr std::array<std::string_view, 7> days{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
constexpr std::array<std::string_view, 7> full_days{"monday", "tuesday",  "wednesday", "thursday",
                                                    "friday", "saturday", "sunday"};
constexpr std::string_view example = "days and their hours, such as Mon-Fri 09:00-12:30 13:30-17:00";
constexpr std::string_view stretch_example = "hours such as 09:00-12:30, from 00:00 to 24:00";
constexpr std::int64_t hour = 3600;
constexpr std::int64_t minute = 60;
constexpr std::int64_t day_end = 24 * hour;

Fault fault(FaultCode code, std::string_view found, std::string_view expected) {
  return {code, {}, std::string(found), std::string(expected), {}};
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// "Mon", "mon", "Monday", "Tues": three letters or more of the name.
std::optional<std::size_t> day_named(std::string_view word) {
  std::string lower(word);
  for (char& c : lower)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  if (lower.size() < 3) return std::nullopt;
  for (std::size_t i = 0; i < full_days.size(); ++i)
    if (full_days[i].starts_with(lower)) return i;
  return std::nullopt;
}

// Words, where a dash binds what stands on its two sides: "9 - 17" is one.
std::vector<std::string> words_of(std::string_view text) {
  constexpr std::string_view en_dash = "\xE2\x80\x93";
  std::vector<std::string> words;
  bool bound = false;  // the last word waits for what comes after its dash
  bool open = false;   // no blank since the last word
  for (std::size_t at = 0; at < text.size();) {
    bool const en = text.substr(at).starts_with(en_dash);
    char const c = text[at];
    at += en ? en_dash.size() : 1;
    if (en || c == '-') {
      if (words.empty()) words.emplace_back();
      words.back() += '-';
      bound = true;
    } else if (c == ' ' || c == '\t' || c == ',' || c == ';') {
      open = false;
    } else {
      if (words.empty() || (!open && !bound)) words.emplace_back();
      words.back() += c;
      bound = false;
      open = true;
    }
  }
  return words;
}

// "9", "09:00", "9.30", "24:00": seconds from midnight; -1: not a time, -2: none of a day.
std::int64_t time_of_day(std::string_view text) {
  std::size_t const mark = text.find_first_of(":.");
  std::string_view const hours = text.substr(0, mark);
  std::string_view const minutes = mark == std::string_view::npos ? "00" : text.substr(mark + 1);
  auto const number = [](std::string_view digits) {
    if (digits.empty() || digits.size() > 2 || !std::all_of(digits.begin(), digits.end(), is_digit))
      return -1;
    return digits.size() == 1 ? digits[0] - '0' : (digits[0] - '0') * 10 + (digits[1] - '0');
  };
  if (number(hours) < 0 || number(minutes) < 0 || minutes.size() != 2) return -1;
  std::int64_t const seconds = number(hours) * hour + number(minutes) * minute;
  return number(minutes) > 59 || seconds > day_end ? -2 : seconds;
}

Read<Stretch> read_stretch(std::string_view word) {
  std::size_t const dash = word.find('-');
  if (dash == std::string_view::npos) return refuse(fault(FaultCode::bad_value, word, stretch_example));
  Stretch const said{time_of_day(word.substr(0, dash)), time_of_day(word.substr(dash + 1))};
  if (said.begin == -1 || said.end == -1) return refuse(fault(FaultCode::bad_value, word, stretch_example));
  if (said.begin < 0 || said.end < 0) return refuse(fault(FaultCode::out_of_range, word, stretch_example));
  if (said.begin >= said.end)
    return refuse(
        fault(FaultCode::contradiction, word,
              "the beginning before the end, such as 09:00-17:00; a night's hours are of two days"));
  return said;
}

// The days from the first to the last, over Sunday where the last is earlier in the week.
Read<std::vector<std::size_t>> read_days(std::string_view word) {
  std::size_t const dash = word.find('-');
  std::string_view const first_word = word.substr(0, dash);
  std::string_view const last_word = dash == std::string_view::npos ? first_word : word.substr(dash + 1);
  auto const first = day_named(first_word);
  auto const last = day_named(last_word);
  if (!first || !last) {
    Fault wrong = fault(FaultCode::bad_value, first ? last_word : first_word, "a day, Mon to Sun");
    if (wrong.found.empty()) wrong.found = word;
    wrong.near = nearest(wrong.found, days);
    return refuse(std::move(wrong));
  }
  std::vector<std::size_t> all{*first};
  for (std::size_t day = *first; day != *last;) {
    day = (day + 1) % days.size();
    all.push_back(day);
  }
  return all;
}

class Reader {
 public:
  Read<WorkingWeek> read(std::string_view text) {
    for (std::string const& word : words_of(text)) {
      if (is_digit(word.front()))
        take_stretch(word);
      else
        take_days(word);
    }
    end_group();
    if (!said_ && faults_.empty()) faults_.push_back(fault(FaultCode::bad_value, text, example));
    if (!faults_.empty()) return tl::unexpected(std::move(faults_));
    for (auto& day : week_) join(day);
    return week_;
  }

 private:
  void take_days(std::string const& word) {
    if (hours_) end_group();
    auto more = read_days(word);
    group_word_ = word;
    said_ = true;
    if (!more) {
      add(more.error());
      unknown_ = true;
      return;
    }
    group_.insert(group_.end(), more->begin(), more->end());
  }

  void take_stretch(std::string const& word) {
    auto const stretch = read_stretch(word);
    hours_ = true;
    if (!stretch) return add(stretch.error());
    if (group_.empty() && !unknown_) {
      faults_.push_back(fault(FaultCode::bad_value, word, "days with hours, such as Mon-Fri " + word));
      said_ = true;
      return;
    }
    for (std::size_t const day : group_) {
      for (Stretch const& other : week_.at(day))
        if (stretch->begin < other.end && other.begin < stretch->end) {
          faults_.push_back(fault(FaultCode::contradiction, word,
                                  "hours of " + std::string(days.at(day)) + " that do not overlap"));
          return;
        }
      week_.at(day).push_back(*stretch);
    }
  }

  void end_group() {
    if (!group_.empty() && !hours_)
      faults_.push_back(fault(FaultCode::bad_value, group_word_,
                              "days with hours, such as " + group_word_ + " 09:00-17:00"));
    group_.clear();
    hours_ = unknown_ = false;
  }

  void add(std::vector<Fault> const& faults) { faults_.insert(faults_.end(), faults.begin(), faults.end()); }

  static void join(std::vector<Stretch>& day) {
    std::sort(day.begin(), day.end(), [](Stretch a, Stretch b) { return a.begin < b.begin; });
    std::vector<Stretch> joined;
    for (Stretch const& stretch : day) {
      if (!joined.empty() && joined.back().end == stretch.begin)
        joined.back().end = stretch.end;
      else
        joined.push_back(stretch);
    }
    day = std::move(joined);
  }

  WorkingWeek week_;
  std::vector<std::size_t> group_;  // days that wait for their hours
  std::string group_word_;
  bool hours_ = false;    // of this group something was said
  bool unknown_ = false;  // a day of this group is not known: its hours are not blamed
  bool said_ = false;
  std::vector<Fault> faults_;
};

std::string time_text(std::int64_t seconds) {
  auto const two = [](std::int64_t n) { return (n < 10 ? "0" : "") + std::to_string(n); };
  return two(seconds / hour) + ":" + two(seconds / minute % 60);
}

std::vector<std::string> groups(WorkingWeek const& week, std::string_view between) {
  std::vector<std::string> all;
  for (std::size_t day = 0; day < days.size();) {
    std::size_t last = day;
    while (last + 1 < days.size() && week.at(last + 1) == week.at(day)) ++last;
    if (!week.at(day).empty()) {
      std::string text(days.at(day));
      if (last > day) text += '-' + std::string(days.at(last));
      std::string_view join = " ";
      for (Stretch const& stretch : week.at(day)) {
        text += std::string(join) + time_text(stretch.begin) + '-' + time_text(stretch.end);
        join = between;
      }
      all.push_back(std::move(text));
    }
    day = last + 1;
  }
  return all;
}

}  // namespace

Read<WorkingWeek> read_week(std::string_view text) { return Reader().read(text); }

std::string week_text(WorkingWeek const& week) {
  std::string text;
  for (std::string const& group : groups(week, " ")) text += (text.empty() ? "" : ", ") + group;
  return text;
}

std::vector<std::string> week_lines(WorkingWeek const& week) { return groups(week, ", "); }

}  // namespace endband::db
