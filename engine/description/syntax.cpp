// What people write who do not know TOML, and what would be right instead.
#include "engine/description/syntax.h"

#include "engine/description/advice.h"
#include "engine/description/text.h"
#include "engine/money/numeral.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband {
namespace {

constexpr std::size_t most_bytes = 1U << 20U;
constexpr int most_key_parts = 8;

Fault syntax_fault(TextPlace place, std::string found, std::string expected) {
  return {.code = FaultCode::bad_syntax,
          .where = {.source = {}, .line = place.line, .column = place.column, .field = {}},
          .found = std::move(found),
          .expected = std::move(expected),
          .near = {}};
}

// Follows strings and comments, and counts the points of keys between them.
class DepthScan {
 public:
  explicit DepthScan(std::string_view text) : text_(text) {}

  std::optional<TextPlace> too_deep() {
    while (at_ < text_.size()) {
      char const c = text_[at_];
      if (c == '"' || c == '\'') {
        skip_string(c);
      } else if (c == '#') {
        at_ = std::min(text_.find('\n', at_), text_.size());
      } else {
        if (c == '.' && ++points_ >= most_key_parts) return place();
        if (std::string_view("=,[]{}\n").find(c) != std::string_view::npos) points_ = 0;
        ++at_;
      }
    }
    return std::nullopt;
  }

 private:
  std::string_view text_;
  std::size_t at_ = 0;
  int points_ = 0;

  TextPlace place() const {
    std::string_view const before = text_.substr(0, at_);
    std::size_t const line_start = before.rfind('\n') + 1;  // npos + 1 is 0
    return {static_cast<int>(std::count(before.begin(), before.end(), '\n')) + 1,
            static_cast<int>(code_points(before.substr(line_start))) + 1};
  }

  void skip_string(char quote) {
    std::string const three(3, quote);
    bool const many_lines = text_.substr(at_).starts_with(three);
    at_ += many_lines ? 3 : 1;
    while (at_ < text_.size()) {
      if (text_[at_] == '\\' && quote == '"') {
        at_ += 2;
      } else if (many_lines ? text_.substr(at_).starts_with(three) : text_[at_] == quote) {
        at_ += many_lines ? 3 : 1;
        // Up to two quotes more belong to the end of a string of many lines.
        for (int more = 0; many_lines && more < 2 && at_ < text_.size() && text_[at_] == quote; ++more) ++at_;
        return;
      } else if (!many_lines && text_[at_] == '\n') {
        return;
      } else {
        ++at_;
      }
    }
  }
};

std::string_view line_of(std::string_view text, int number) {
  for (int i = 1; i < number; ++i) {
    std::size_t const end = text.find('\n');
    if (end == std::string_view::npos) return {};
    text.remove_prefix(end + 1);
  }
  std::string_view line = text.substr(0, text.find('\n'));
  if (line.ends_with('\r')) line.remove_suffix(1);
  return line;
}

}  // namespace

std::optional<Fault> refused_before_parsing(std::string_view text) {
  if (text.size() > most_bytes) {
    Fault fault = syntax_fault({}, fmt::format("{} bytes", text.size()), "a description of at most 1 MiB");
    fault.code = FaultCode::out_of_range;
    return fault;
  }
  if (auto const place = first_bad_byte(text))
    return syntax_fault(*place, "a byte that is no letter", "a text file saved as UTF-8");
  if (auto const place = DepthScan(text).too_deep())
    return syntax_fault(*place, "a key of many parts", "a key of one part, below the heading of its table");
  return std::nullopt;
}

Fault explain_syntax(std::string_view text, TextPlace place, std::string_view said) {
  // What is wrong with a line is often noticed only at its end, where the next begins.
  for (int line = place.line; line >= std::max(1, place.line - 1); --line) {
    std::string_view const written = line_of(text, line);
    if (auto const advice = advise(written, said)) {
      auto const before = static_cast<int>(code_points(written.substr(0, advice->at)));
      Fault fault = syntax_fault({line, before + 1}, shown(advice->found), advice->expected);
      fault.where.field = shown(advice->key);
      return fault;
    }
  }
  return syntax_fault(place, shown(trimmed(line_of(text, place.line))),
                      "one key to a line with its value, such as height = \"250 mm\"");
}

}  // namespace endband
