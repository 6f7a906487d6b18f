#include "engine/description/advice.h"

#include "engine/money/numeral.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace endband {
namespace {

constexpr auto none = std::string_view::npos;

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
bool is_plain(char c) { return is_letter(c) || is_digit(c) || c == '-' || c == '_'; }

// A line in its parts; outside of strings all: the first '=' or ':', and what stands before a comment.
struct Parts {
  std::size_t equals = none;
  std::size_t colon = none;
  std::size_t end = 0;             // where a comment begins, or the line ends
  std::size_t open_string = none;  // where a string begins that does not end
};

Parts parts_of(std::string_view line) {
  Parts parts;
  parts.end = line.size();
  for (std::size_t at = 0; at < line.size(); ++at) {
    char const c = line[at];
    if (c == '"' || c == '\'') {
      std::size_t close = at + 1;
      while (close < line.size() && line[close] != c) close += line[close] == '\\' && c == '"' ? 2U : 1U;
      if (close >= line.size()) {
        parts.open_string = at;
        return parts;
      }
      at = close;
    } else if (c == '#') {
      parts.end = at;
      return parts;
    } else if (c == '=' && parts.equals == none) {
      parts.equals = at;
    } else if (c == ':' && parts.colon == none) {
      parts.colon = at;
    }
  }
  return parts;
}

struct Better {
  std::string value;  // as it should be; empty: only `why` is known
  std::string why;
};

// --- values: each looks for one mistake

constexpr std::array<std::pair<std::string_view, std::string_view>, 18> curly{{{"\u201c", "\""},
                                                                               {"\u201d", "\""},
                                                                               {"\u201e", "\""},
                                                                               {"\u201f", "\""},
                                                                               {"\u00ab", "\""},
                                                                               {"\u00bb", "\""},
                                                                               {"\u2039", "\""},
                                                                               {"\u203a", "\""},
                                                                               {"\u2018", "\""},
                                                                               {"\u2019", "\""},
                                                                               {"\u201a", "\""},
                                                                               {"\u201b", "\""},
                                                                               {"\uff02", "\""},
                                                                               {"\u301d", "\""},
                                                                               {"\u301e", "\""},
                                                                               {"\u301f", "\""},
                                                                               {"``", "\""},
                                                                               {"`", "\""}}};

std::optional<Better> curly_quotes(std::string_view value) {
  auto const starts = [&](auto const& pair) { return value.starts_with(pair.first); };
  if (std::none_of(curly.begin(), curly.end(), starts)) return std::nullopt;
  std::string text(value);
  // Only those around the words: within them a curly one is a letter like any other.
  for (auto const& [from, to] : curly)
    if (text.starts_with(from)) {
      text.replace(0, from.size(), to);
      break;
    }
  for (auto const& [from, to] : curly)
    if (text.ends_with(from)) {
      text.replace(text.size() - from.size(), from.size(), to);
      break;
    }
  if (text.size() < 2 || !text.ends_with('"')) text += '"';
  return Better{text, "straight quotes"};
}

std::optional<Better> truth(std::string_view value) {
  std::string word;
  for (char c : value) word += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  if (word == "yes" || word == "true" || word == "on" || word == "y") return Better{"true", "true or false"};
  if (word == "no" || word == "false" || word == "off" || word == "n")
    return Better{"false", "true or false"};
  return std::nullopt;
}

std::string in_quotes(std::string_view value) {
  std::string text = "\"";
  for (char c : value) {
    if (c == '"' || c == '\\') text += '\\';
    text += c;
  }
  return text + '"';
}

// "11 3/4\"" is inches, whose sign is the quote that ends a string.
std::optional<Better> inches(std::string_view value) {
  std::string_view inner = value;
  if (inner.starts_with('"')) inner.remove_prefix(1);
  if (inner.empty() || !is_digit(inner.front()) || !inner.ends_with('"')) return std::nullopt;
  while (inner.ends_with('"')) inner.remove_suffix(1);
  if (inner.find('"') != none) return std::nullopt;
  bool const opened = value.starts_with('"');
  if (opened && !value.ends_with("\"\"")) return std::nullopt;
  bool const number = std::all_of(inner.begin(), inner.end(), [](char c) {
    return is_digit(c) || std::string_view(" ./,").find(c) != none;
  });
  if (!number) return std::nullopt;
  return Better{fmt::format("\"{} in\"", trimmed(inner)), "inches are written in"};
}

std::optional<Better> number(std::string_view value) {
  auto const numeral = read_numeral(value);
  if (!numeral) return std::nullopt;
  std::string_view const rest = trimmed(value.substr(numeral->length));
  if (rest.empty() && numeral->ambiguous)
    return Better{"", both_readings(*numeral, "") + ", without a separator of thousands"};
  if (rest.empty() && numeral->mark == ',')
    return Better{decimal_text(numeral->digits, numeral->decimals), "a point before the decimals"};
  if (rest.empty()) return Better{decimal_text(numeral->digits, numeral->decimals), "a plain number"};
  bool const unit =
      is_letter(rest.front()) || rest.front() == '%' || static_cast<unsigned char>(rest.front()) >= 0x80U;
  bool const fraction = rest.front() == '/' || is_digit(rest.front());
  if (!unit && !fraction) return std::nullopt;
  return Better{in_quotes(value), "a number with more than digits stands in quotes"};
}

// 25.11.2026, 2026-13-45
std::optional<Better> date(std::string_view value) {
  bool const digits = std::all_of(value.begin(), value.end(), [](char c) {
    return is_digit(c) || std::string_view("-./").find(c) != none;
  });
  auto const marks = std::count_if(value.begin(), value.end(), [](char c) { return !is_digit(c); });
  bool const sized = value.size() >= 8 && value.size() <= 10;
  if (!digits || marks != 2 || !sized || !is_digit(value.front())) return std::nullopt;
  return Better{"", "a day of the calendar, written year-month-day: 2026-11-25"};
}

std::optional<Better> open_quotes(std::string_view value, bool is_open) {
  if (!is_open || value.empty() || (value.front() != '"' && value.front() != '\'')) return std::nullopt;
  char const quote = value.front();
  return Better{std::string(value) + quote, "a quote at the end too"};
}

std::optional<Better> escapes(std::string_view value, std::string_view said) {
  if (value.find('\\') == none || said.find("escape") == none) return std::nullopt;
  std::string text;
  for (char c : value) {
    if (c == '\\') text += '\\';
    text += c;
  }
  return Better{text, "a backslash is written twice"};
}

std::optional<Better> after_string(std::string_view value) {
  if (value.empty() || value.front() != '"') return std::nullopt;
  std::size_t const close = value.find('"', 1);
  if (close == none || trimmed(value.substr(close + 1)).empty()) return std::nullopt;
  if (value.ends_with('"'))
    return Better{in_quotes(value.substr(1, value.size() - 2)), "a quote within words is written \\\""};
  return Better{std::string(value.substr(0, close + 1)), "one value to a line; remarks stand after #"};
}

// [goat-green, silk-red]
std::optional<Better> list(std::string_view value) {
  if (!value.starts_with('[') || value.starts_with("[[")) return std::nullopt;
  bool const closed = value.ends_with(']');
  std::string_view rest = value.substr(1, value.size() - (closed ? 2 : 1));
  std::string text;
  while (!rest.empty()) {
    std::size_t const comma = std::min(rest.find(','), rest.size());
    std::string_view const item = trimmed(rest.substr(0, comma));
    rest.remove_prefix(std::min(comma + 1, rest.size()));
    if (item.empty()) continue;
    bool const bare = std::all_of(item.begin(), item.end(), is_plain) && is_letter(item.front());
    text += (text.empty() ? "" : ", ") + (bare ? in_quotes(item) : std::string(item));
  }
  text = '[' + text + ']';
  if (text == value) return std::nullopt;
  return Better{text, closed ? "each code in quotes, commas between" : "a list ends with ]"};
}

std::optional<Better> bare_words(std::string_view value) {
  bool const high = !value.empty() && static_cast<unsigned char>(value.front()) >= 0x80U;
  if (value.empty() || !(is_letter(value.front()) || high)) return std::nullopt;
  std::string_view words = value;
  while (words.ends_with('"') || words.ends_with('\'') || words.ends_with(',') || words.ends_with(';'))
    words.remove_suffix(1);
  return Better{in_quotes(words), "words stand in quotes"};
}

std::optional<Better> better_value(std::string_view value, bool is_open, std::string_view said) {
  if (value.empty()) return Better{"", "a value after the ="};
  if (auto better = curly_quotes(value)) return better;
  if (auto better = truth(value)) return better;
  if (auto better = inches(value)) return better;
  if (auto better = open_quotes(value, is_open)) return better;
  if (auto better = escapes(value, said)) return better;
  if (auto better = after_string(value)) return better;
  if (auto better = list(value)) return better;
  if (auto better = date(value)) return better;
  if (auto better = number(value)) return better;
  if (value.front() == '.' && value.size() > 1 && is_digit(value[1]))
    return Better{'0' + std::string(value), "a digit before the point"};
  return bare_words(value);
}

// --- lines

std::string told(std::string_view key, Better const& better) {
  if (better.value.empty()) return better.why;
  return fmt::format("{} = {} ({})", key, better.value, better.why);
}

Advice heading(std::string_view line, std::size_t start) {
  std::string_view const whole = trimmed(line);
  std::string name;
  for (char c : whole)
    if (is_plain(c) || c == '.') name += c;
  bool const repeated = whole.starts_with("[[");
  return {start, {}, std::string(whole), repeated ? fmt::format("[[{}]]", name) : fmt::format("[{}]", name)};
}

// `height: "250 mm"` and `height "250 mm"`
Advice without_equals(std::string_view line, std::size_t start, std::size_t colon) {
  std::string_view const whole = trimmed(line);
  std::size_t split = colon;
  if (split == none) split = std::min(line.find_first_of(" \t", start), line.size());
  std::string const key(trimmed(line.substr(start, split - start)));
  std::string_view const value = trimmed(line.substr(std::min(split + 1, line.size())));
  if (value.empty()) return {start, key, std::string(whole), fmt::format("{} = and a value", key)};
  auto const better = better_value(value, false, {});
  bool const mend = better && !better->value.empty() && (is_letter(value.front()) || is_digit(value.front()));
  return {colon == none ? start : colon, key, std::string(whole),
          fmt::format("{} = {} (= between key and value)", key, mend ? better->value : std::string(value))};
}

}  // namespace

std::optional<Advice> advise(std::string_view line, std::string_view said) {
  std::size_t const start = line.find_first_not_of(" \t");
  if (start == none || line[start] == '#') return std::nullopt;
  Parts const parts = parts_of(line);
  bool const twice =
      said.find("redefin") != none || said.find("already") != none || said.find("duplicate") != none;
  if (twice) {
    std::string const key(trimmed(line.substr(start, std::min(parts.equals, parts.end) - start)));
    return Advice{start, key, key, "each key and each table once"};
  }
  std::string_view const used = line.substr(0, parts.end);
  if (line[start] == '[') return heading(used, start);
  if (parts.equals == none || parts.colon < parts.equals) return without_equals(used, start, parts.colon);
  std::string const key(trimmed(used.substr(start, parts.equals - start)));
  std::string_view const value = trimmed(used.substr(parts.equals + 1));
  std::size_t const at = value.empty() ? parts.equals : static_cast<std::size_t>(value.data() - line.data());
  auto const better = better_value(value, parts.open_string != none, said);
  if (!better || (!value.empty() && better->value == value))
    return std::nullopt;  // what is wrong is not here
  return Advice{at, key, std::string(value.empty() ? trimmed(used) : value), told(key, *better)};
}

}  // namespace endband
