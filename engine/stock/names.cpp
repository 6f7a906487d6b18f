// What lots and movements are called.
#include "engine/stock/stock.h"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <stdexcept>

namespace endband {
namespace {

constexpr std::array<std::string_view, 12> movement_names{
    "opening", "received", "found",   "used",         "cut-away", "spoiled",
    "kept",    "scrapped", "missing", "written-down", "custody",  "given-back"};
constexpr std::array<std::string_view, 2> formula_names{"first-in-first-out", "moving-average"};
constexpr std::array<std::string_view, 5> source_names{"received", "opening", "found", "kept", "custody"};

template <class Names, class Enum>
std::string_view name_of(Names const& names, Enum value) {
  auto const index = static_cast<std::size_t>(value);
  if (index >= names.size()) throw std::logic_error("a name is asked of no value of its enum");
  return names[index];
}

}  // namespace

std::string_view movement_name(MovementKind kind) { return name_of(movement_names, kind); }
std::string_view formula_name(CostFormula formula) { return name_of(formula_names, formula); }
std::string_view source_name(LotSource source) { return name_of(source_names, source); }

std::string mark_text(LotMark mark) { return fmt::format("{}{}", mark.letter, mark.number); }

Read<LotMark> read_mark(std::string_view text) {
  auto const wrong = [text] {
    return refuse({FaultCode::bad_value,
                   {},
                   std::string(text),
                   "the mark of a lot, such as L12, or of a skin, such as K3",
                   {}});
  };
  if (text.size() < 2) return wrong();
  char const first = text.front();
  LotMark mark;
  mark.letter = first == 'l' ? 'L' : first == 'k' ? 'K' : first;
  if (mark.letter != 'L' && mark.letter != 'K') return wrong();
  std::string_view const digits = text.substr(1);
  // from_chars alone would take a sign; leading zeros are no mark that was ever written.
  if (digits.front() < '1' || digits.front() > '9') return wrong();
  auto const [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), mark.number);
  if (error != std::errc{} || end != digits.data() + digits.size()) return wrong();
  return mark;
}

}  // namespace endband
