// Any text as each measure: read or refused in words, and what is written of it is read as the same.
// The first byte says which measure.
#include "engine/description/description.h"
#include "engine/measure/measure.h"
#include "engine/money/money.h"
#include "tests/fuzz/target.h"

#include <array>
#include <string>
#include <string_view>

using namespace endband;
using endband::fuzz::require;

namespace {

template <class T>
bool good(Read<T> const& read) {
  if (!read)
    require(!read.error().empty() && !read.error().front().expected.empty(),
            "a fault says what would be right");
  return read.has_value();
}

void length(std::string_view text) {
  if (auto const read = read_length(text); good(read))
    require(read_length(length_mm(*read) + " mm") == *read, "a length is read as it was written");
}
void area(std::string_view text) {
  if (auto const read = read_area(text); good(read))
    require(read_area(area_cm2(*read) + " cm2") == *read, "an area is read as it was written");
}
void duration(std::string_view text) {
  if (auto const read = read_duration(text); good(read))
    require(read_duration(duration_text(*read)) == *read, "a duration is read as it was written");
}
void date(std::string_view text) {
  if (auto const read = read_date(text); good(read))
    require(read_date(date_text(*read)) == *read, "a date is read as it was written");
}
void ratio(std::string_view text) {
  if (auto const read = read_ratio(text); good(read))
    require(read_ratio(ratio_text(*read)) == *read, "a ratio is read as it was written");
}
void money(std::string_view text) {
  for (char const* code : {"EUR", "JPY", "BHD", "CLF"}) {
    Currency const currency = read_currency(code).value();
    if (auto const read = read_money(text, currency); good(read))
      require(read_money(money_text(*read), currency) == *read, "money is read as it was written");
  }
}
void amount(std::string_view text) {
  if (auto const read = read_amount(text); good(read))
    require(!amount_text(*read).empty(), "an amount has a text");
}
void times(std::string_view text) {
  if (auto const read = read_times(text); good(read))
    require(read->low.n >= 0 && read->low.n <= read->likely.n && read->likely.n <= read->high.n,
            "times rise");
}
void others(std::string_view text) {
  good(read_mass(text));
  good(read_volume(text));
  good(read_thickness(text));
  good(read_count(text));
  good(read_sheet_size(text));
  good(read_money_with_currency(text));
  good(read_currency(text));
  if (auto const read = read_thread_number(text); good(read))
    require(tex(*read) > Ratio(0), "a thread weighs something");
}

constexpr std::array readers{length, area, duration, date, ratio, money, amount, times, others};

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size) {
  if (size == 0) return 0;
  std::string_view const text(reinterpret_cast<char const*>(data) + 1, size - 1);
  try {
    readers[data[0] % readers.size()](text);
  } catch (Overflow const&) {  // told as too large where a command ends
  }
  return 0;
}
