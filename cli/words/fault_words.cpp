#include "cli/words/fault_words.h"

#include "cli/document/text.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

// What was found may bring its own quotes, from a file, or be a key with its value.
std::string quoted(std::string_view text) {
  bool const has_own = text.size() > 1 && text.back() == '"' &&
                       (text.front() == '"' || text.find(" = \"") != std::string_view::npos);
  return has_own ? printable(text) : "\"" + printable(text) + "\"";
}

// What the fault is about: what stood there, or else the key or flag.
std::string subject(Fault const& fault) {
  if (!fault.found.empty()) return quoted(fault.found);
  return fault.where.field.empty() ? fault.where.source : fault.where.field;
}

std::string with_reason(std::string text, std::string_view join, std::string const& reason) {
  if (reason.empty()) return text;
  return text + std::string(join) + reason;
}

std::string command_sentence(Fault const& fault) {
  if (!fault.found.empty()) return fmt::format("{} is not {}", quoted(fault.found), fault.expected);
  if (fault.where.field.empty()) return "say what to do: " + fault.expected;
  return fmt::format("{} is missing: {}", fault.where.field, fault.expected);
}

std::string file_sentence(Fault const& fault) {
  switch (fault.code) {
    case FaultCode::file_missing:
      return with_reason(fault.found.empty() ? "no such file" : fault.found, "; needed is ", fault.expected);
    case FaultCode::file_unusable:
      return with_reason(fault.found.empty() ? "cannot be read or written" : fault.found, "; needed is ",
                         fault.expected);
    case FaultCode::not_a_workshop: return with_reason("is not a workshop, or is damaged", ": ", fault.found);
    case FaultCode::newer_workshop:
      return with_reason("was written by a newer endband; use that one", ": ", fault.found);
    default: return with_reason("another program is writing to it; try again in a moment", ": ", fault.found);
  }
}

std::string material_sentence(Fault const& fault) {
  std::string const it = subject(fault);
  switch (fault.code) {
    case FaultCode::unknown_material:
      return with_reason("no material has the code " + it, "; needed is ",
                         fault.near.empty() ? fault.expected : "");
    case FaultCode::wrong_kind:
      return with_reason(it + " is of the wrong kind", "; here one needs ", fault.expected);
    case FaultCode::missing_property:
      if (fault.found.empty()) return with_reason(fault.where.field + " is missing", ": ", fault.expected);
      return fmt::format("{} lacks its {}; endband material change {} says it", it, fault.expected,
                         fault.found);
    case FaultCode::no_price:
      return with_reason(it + " has no price in force on that day", "; needed is ", fault.expected);
    case FaultCode::currency_mismatch:
      return with_reason(it + " is in another currency than the workshop's", "; needed is ", fault.expected);
    default: return with_reason(it + " does not fit", "; it may be ", fault.expected);
  }
}

std::string workshop_sentence(Fault const& fault) {
  std::string const it = subject(fault);
  switch (fault.code) {
    case FaultCode::missing_step:
      return fmt::format(
          "the step library has no times for {0}; endband steps set {0} --set-up ... --each ...",
          fault.where.field);
    case FaultCode::missing_setting:
      return fmt::format("the workshop has no setting {}; say it with: endband {}", fault.where.field,
                         fault.expected);
    case FaultCode::bad_goal: return with_reason(it + " cannot be reached", "; needed is ", fault.expected);
    case FaultCode::too_large:
      return with_reason("a number grew too large to be right", "; needed is ", fault.expected);
    case FaultCode::unknown_code:
      return it + " is not known" + (fault.expected.empty() ? "" : " as " + fault.expected);
    case FaultCode::already_exists: return with_reason(it + " is taken", "; needed is ", fault.expected);
    case FaultCode::rule_refused: return with_reason(it + " is refused", ": ", fault.expected);
    case FaultCode::changed_meanwhile:
      return with_reason(it + " was changed while this was computed", "; ", fault.expected);
    default: return with_reason(it, "; right would be ", fault.expected);
  }
}

std::string value_sentence(Fault const& fault) {
  std::string const it = subject(fault);
  switch (fault.code) {
    case FaultCode::bad_syntax: return with_reason("cannot read " + it, ": ", fault.expected);
    case FaultCode::unknown_key:
      return with_reason("there is no key " + it, "; ", fault.near.empty() ? fault.expected : "");
    case FaultCode::missing_key:
      return with_reason(fmt::format("{} is missing", fault.where.field), ": ", fault.expected);
    case FaultCode::missing_unit: return with_reason(it + " has no unit", "; write ", fault.expected);
    case FaultCode::wrong_unit: return with_reason(it + " has the wrong unit", "; write ", fault.expected);
    case FaultCode::ambiguous_number:
      return with_reason(it + " can be read in two ways", "; write ", fault.expected);
    case FaultCode::out_of_range: return with_reason(it + " is out of range", "; it may be ", fault.expected);
    case FaultCode::contradiction:
      if (std::string_view const none = "no such key: "; fault.expected.starts_with(none))
        return it + " has no place here: " + fault.expected.substr(none.size());
      return with_reason(it + " cannot be right", "; needed is ", fault.expected);
    case FaultCode::refused_part:
      return with_reason("there can be no " + printable(fault.found), ": ", fault.expected);
    default: return with_reason(it + " is not right", "; needed is ", fault.expected);
  }
}

std::string did_you_mean(std::vector<std::string> const& near) {
  std::string text;
  for (std::size_t i = 0; i < near.size(); ++i)
    text += (i == 0 ? "did you mean " : i + 1 == near.size() ? " or " : ", ") + quoted(near[i]);
  return text.empty() ? text : text + "?";
}

std::string place(Where const& where) {
  std::string text = "endband: ";
  if (!where.source.empty()) text += printable(where.source) + (where.line > 0 ? ":" : ": ");
  if (where.line > 0) text += fmt::format("{}:{}: ", where.line, std::max(where.column, 1));
  return text;
}

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

// Of a long line what stands around the place that is marked, cut between letters.
constexpr std::size_t longest_line = 120, shown_before = 40;

struct Shown {
  std::string_view line;
  std::size_t at = 0;
  bool cut_before = false, cut_after = false;
};
bool within_letter(std::string_view text, std::size_t at) {
  return at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U;
}
Shown around(std::string_view line, std::size_t at) {
  if (line.size() <= longest_line) return {line, at};
  std::size_t begin = at > shown_before ? at - shown_before : 0;
  std::size_t end = std::min(line.size(), begin + longest_line);
  // A letter has four bytes at most: where none begins so near, the text is broken, and any place will do.
  for (int i = 1; i < 4 && begin < at && within_letter(line, begin); ++i) ++begin;
  for (int i = 1; i < 4 && within_letter(line, end); ++i) --end;
  return {line.substr(begin, end - begin), at - begin, begin > 0, end < line.size()};
}

// Where a value in quotes says what was found, that is marked, and else the whole of it, also where `found`
// says more than stands there.
struct Marked {
  std::size_t at = 0, length = 0;
};
Marked marked_in(std::string_view line, std::size_t at, std::string_view found) {
  std::string_view const rest = line.substr(at);
  if (rest.starts_with(found)) return {at, found.size()};
  std::size_t const closing = rest.starts_with('"') ? rest.find('"', 1) : std::string_view::npos;
  if (closing == std::string_view::npos) return {at, 0};
  bool const part = !found.empty() && found.size() + 1 < closing;
  std::size_t const within = part ? rest.substr(0, closing).find(found) : std::string_view::npos;
  if (within != std::string_view::npos) return {at + within, found.size()};
  return {at, closing + 1};
}

// The line of the source, and carets under what was found. Tabs count one column, as they are shown.
std::string shown_line(Fault const& fault, std::string const& text) {
  std::string_view const whole = line_of(text, fault.where.line);
  std::size_t at = 0;
  for (int i = 1; i < fault.where.column && at < whole.size(); ++i) next_code_point(whole, at);
  Marked const marked = marked_in(whole, at, fault.found);
  Shown const shown = around(whole, marked.at);
  std::string const line =
      (shown.cut_before ? "..." : "") + printable(shown.line) + (shown.cut_after ? "..." : "");
  std::size_t const before =
      display_width(printable(shown.line.substr(0, shown.at))) + (shown.cut_before ? 3 : 0);
  std::size_t const width = display_width(printable(shown.line.substr(shown.at, marked.length)));
  std::string result =
      fmt::format("{:>4} | {}\n     | {}{}", fault.where.line, line, std::string(before, ' '),
                  std::string(std::max<std::size_t>(width, 1), '^'));
  if (!fault.near.empty()) result += " " + did_you_mean(fault.near);
  return result + "\n";
}

bool tells_field(Fault const& fault) {
  return !fault.where.field.empty() && fault.where.line == 0 && !fault.found.empty();
}

}  // namespace

std::string sentence(Fault const& fault) {
  switch (fault.code) {
    case FaultCode::bad_command: return command_sentence(fault);
    case FaultCode::bad_value:
    case FaultCode::wrong_type: return fmt::format("{} is not {}", subject(fault), fault.expected);
    case FaultCode::bad_syntax:
    case FaultCode::unknown_key:
    case FaultCode::missing_key:
    case FaultCode::missing_unit:
    case FaultCode::wrong_unit:
    case FaultCode::ambiguous_number:
    case FaultCode::out_of_range:
    case FaultCode::contradiction:
    case FaultCode::refused_part: return value_sentence(fault);
    case FaultCode::unknown_material:
    case FaultCode::wrong_kind:
    case FaultCode::missing_property:
    case FaultCode::no_price:
    case FaultCode::currency_mismatch:
    case FaultCode::does_not_fit: return material_sentence(fault);
    case FaultCode::missing_step:
    case FaultCode::missing_setting:
    case FaultCode::bad_goal:
    case FaultCode::too_large:
    case FaultCode::unknown_code:
    case FaultCode::already_exists:
    case FaultCode::rule_refused:
    case FaultCode::changed_meanwhile:
    case FaultCode::broken_invariant: return workshop_sentence(fault);
    case FaultCode::file_missing:
    case FaultCode::file_unusable:
    case FaultCode::not_a_workshop:
    case FaultCode::newer_workshop:
    case FaultCode::workshop_busy: return file_sentence(fault);
  }
  return {};
}

std::string faults_text(std::span<Fault const> faults, SourceText const& source, FaultStyle const& style) {
  constexpr std::size_t most_told = 40;  // more than anybody puts right at once
  std::string out;
  for (Fault const& fault : faults.first(std::min(faults.size(), most_told))) {
    out += place(fault.where);
    if (tells_field(fault)) out += fault.where.field + ": ";
    out += printable(sentence(fault));
    std::string const* text = fault.where.line > 0 ? source(fault.where.source) : nullptr;
    if (text == nullptr && !fault.near.empty()) out += "; " + did_you_mean(fault.near);
    out += '\n';
    if (text != nullptr) out += shown_line(fault, *text);
  }
  if (faults.size() > most_told) out += fmt::format("and {} more\n", faults.size() - most_told);
  if (faults.size() > 1 || style.saves_nothing)
    out += fmt::format("{} problem{}{}.\n", faults.size(), faults.size() == 1 ? "" : "s",
                       style.saves_nothing ? ", nothing saved" : "");
  return out;
}

Json faults_json(std::span<Fault const> faults) {
  auto const one = [](Fault const& fault) {
    return Json::Object{{"code", fault_row(fault.code).name}, {"exit", fault_row(fault.code).exit},
                        {"message", sentence(fault)},         {"source", fault.where.source},
                        {"line", fault.where.line},           {"column", fault.where.column},
                        {"field", fault.where.field},         {"found", fault.found},
                        {"expected", fault.expected},         {"near", json_words(fault.near)}};
  };
  return Json::Object{{"schema", "endband/fault/1"}, {"faults", json_array(faults, one)}};
}

int exit_code(std::span<Fault const> faults) {
  int code = 1;
  for (Fault const& fault : faults) code = std::max(code, fault_row(fault.code).exit);
  return code;
}

}  // namespace endband::cli
