#include "engine/cutting/geometry/path_text.h"

#include <charconv>
#include <system_error>

namespace endband::cutting::drawing {

namespace {

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f'; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

}  // namespace

void PathText::skip_space() {
  while (!at_end() && is_space(text_[at_])) ++at_;
}

void PathText::skip_space_and_comma() {
  skip_space();
  if (at_end() || text_[at_] != ',') return;
  ++at_;
  skip_space();
}

bool PathText::at_number() const {
  if (at_end()) return false;
  char const c = text_[at_];
  return is_digit(c) || c == '.' || c == '-' || c == '+';
}

char PathText::command() { return text_[at_++]; }

std::size_t PathText::digits_from(std::size_t at) const {
  while (at < text_.size() && is_digit(text_[at])) ++at;
  return at;
}

std::optional<double> PathText::number() {
  auto const is = [&](std::size_t at, std::string_view any) {
    return at < text_.size() && any.find(text_[at]) != std::string_view::npos;
  };
  std::size_t const digits = is(at_, "+-") ? at_ + 1 : at_;
  std::size_t end = digits_from(digits);
  std::size_t count = end - digits;
  if (is(end, ".")) {
    std::size_t const fraction_end = digits_from(end + 1);
    count += fraction_end - end - 1;
    end = fraction_end;
  }
  if (count == 0) return std::nullopt;
  if (is(end, "eE")) {
    std::size_t const power = is(end + 1, "+-") ? end + 2 : end + 1;
    if (digits_from(power) > power) end = digits_from(power);
  }
  char const* const first = text_.data() + (text_[at_] == '+' ? digits : at_);
  double value = 0;
  std::from_chars_result const read = std::from_chars(first, text_.data() + end, value);
  if (read.ec != std::errc{} || read.ptr != text_.data() + end) return std::nullopt;
  at_ = end;
  return value;
}

std::optional<bool> PathText::flag() {
  if (at_end() || (text_[at_] != '0' && text_[at_] != '1')) return std::nullopt;
  return text_[at_++] == '1';
}

bool PathText::another_set() {
  std::size_t const before = at_;
  skip_space_and_comma();
  if (at_number()) return true;
  at_ = before;
  skip_space();
  return false;
}

}  // namespace endband::cutting::drawing
