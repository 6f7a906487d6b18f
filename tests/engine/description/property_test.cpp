// Random descriptions: what is written is read back, and no bytes whatever break the reader.
#include "tests/engine/description/few_keys.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <algorithm>

using namespace endband;

namespace {

std::string words() {
  static std::vector<std::string> const letters{"a", "Z", " ",      "'",      "\"",        "\\",
                                                "#", "=", "\u00e9", "\u9769", "\U0001F4D5"};
  std::string text = "x";
  for (int i = *rc::gen::inRange(0, 40); i > 0; --i) text += *rc::gen::elementOf(letters);
  return text;
}

Ratio ratio_in(KeyRow const& row) {
  auto const thousandth = [](double value) { return static_cast<std::int64_t>(value * 1000); };
  return {*rc::gen::inRange(thousandth(row.least), thousandth(row.most) + 1), 1000};
}

std::int64_t whole_in(KeyRow const& row, double base) {
  return *rc::gen::inRange(static_cast<std::int64_t>(row.least * base),
                           static_cast<std::int64_t>(row.most * base) + 1);
}

Amount any_amount() {
  return {*rc::gen::element(Dimension::length, Dimension::area, Dimension::mass, Dimension::volume,
                            Dimension::count),
          *rc::gen::inRange<std::int64_t>(1, 10'000'000)};
}

Times any_times() {
  std::array<std::int64_t, 3> seconds;
  for (auto& s : seconds) s = *rc::gen::inRange<std::int64_t>(0, 3'600'000);
  std::sort(seconds.begin(), seconds.end());
  return {{seconds[0]}, {seconds[1]}, {seconds[2]}};
}

Value any_value(KeyRow const& row) {
  switch (row.type) {
    case ValueType::length: return whole_in(row, 1e3);
    case ValueType::thickness: return whole_in(row, 1e6);
    case ValueType::duration: return whole_in(row, 60);
    case ValueType::mass: return whole_in(row, 1e3);
    case ValueType::density:
    case ValueType::count: return whole_in(row, 1);
    case ValueType::number:
    case ValueType::share:
    case ValueType::angle: return ratio_in(row);
    case ValueType::times: return any_times();
    case ValueType::amount: return any_amount();
    case ValueType::money: return std::to_string(*rc::gen::inRange(0, 1'000'000)) + ".25";
    case ValueType::code: return std::string("code-") + std::to_string(*rc::gen::inRange(0, 1000));
    case ValueType::codes:
      return row.choices.empty() ? std::vector<std::string>{"silk-red", "silk-cream"}
                                 : std::vector<std::string>{"dye"};
    case ValueType::words: return words();
    case ValueType::choice: return std::string(*rc::gen::element("blind", "leaf"));
    case ValueType::flag: return *rc::gen::arbitrary<bool>();
    case ValueType::thread: return ThreadNumber{*rc::gen::inRange(1, 100), *rc::gen::inRange(1, 9)};
    case ValueType::date: return Date(std::chrono::days(*rc::gen::inRange(0, 40'000)));
  }
  throw std::logic_error("a type without values");
}

struct Said {
  KeyRow const* row;
  Value value;
};

// Some of the plain keys, each with a value.
std::vector<Said> any_description() {
  std::vector<Said> said{{&few_keys::rows[0], Value(std::int64_t{1})}};
  for (KeyRow const& row : std::span(few_keys::rows).subspan(1))
    if (row.path.find("[]") == std::string_view::npos && *rc::gen::arbitrary<bool>())
      said.push_back({&row, any_value(row)});
  return said;
}

std::string text_of(std::vector<Said> const& said) {
  std::string text;
  for (Said const& s : said)
    text += std::string(s.row->path) + " = " + value_text(s.row->type, s.value) + "\n";
  return text;
}

void mutate(std::string& text) {
  static constexpr char marks[] = "\"'=[]{}.,#\n\r\t \\0159eE+-_:\x00\x7F\xC3\xE2\xF0\xFF\xEF\xBB\xBF";
  static std::string const bytes(marks, sizeof marks - 1);
  for (int edits = *rc::gen::inRange(1, 8); edits > 0; --edits) {
    auto const at = static_cast<std::size_t>(*rc::gen::inRange<int>(0, static_cast<int>(text.size()) + 1));
    char const byte = *rc::gen::oneOf(rc::gen::elementOf(bytes), rc::gen::arbitrary<char>());
    switch (*rc::gen::inRange(0, 4)) {
      case 0: text.insert(at, 1, byte); break;
      case 1:
        if (at < text.size()) text[at] = byte;
        break;
      case 2: text.erase(at, 1); break;
      default: text.insert(at, text.substr(at / 2, 30)); break;
    }
  }
}

void require_sound(std::string const& text) {
  auto const read = few_keys::read(text);
  if (read) return;
  RC_ASSERT(!read.error().empty());
  int last = 0;
  for (Fault const& fault : read.error()) {
    RC_ASSERT(fault.where.line >= last);
    RC_ASSERT(fault.where.line == 0 || fault.where.column >= 1);
    RC_ASSERT(!fault.expected.empty());
    last = fault.where.line;
  }
}

}  // namespace

TEST_CASE("a random description is read back as it was written") {
  CHECK(rc::check([] {
    auto const said = any_description();
    auto const text = few_keys::read(text_of(said));
    if (!text) RC_FAIL(text.error().front().expected);
    for (Said const& s : said) {
      Entry const* const entry = text->find(s.row->path);
      RC_ASSERT(entry != nullptr);
      RC_ASSERT((entry->value == s.value));
    }
  }));
}

TEST_CASE("a description with bytes changed is read or refused, never broken") {
  CHECK(rc::check([] {
    std::string text = text_of(any_description());
    mutate(text);
    require_sound(text);
  }));
}

TEST_CASE("any bytes are read or refused") {
  CHECK(rc::check([](std::string const& bytes) { require_sound(bytes); }));
  CHECK(rc::check([](std::string const& bytes) { require_sound("endband = 1\nx = " + bytes); }));
}
