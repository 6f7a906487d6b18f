#include "engine/commission/options.h"

#include "engine/money/numeral.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <stdexcept>

namespace endband {
namespace {

constexpr std::size_t near_at_most = 3;

// Keys that say the same in different ways: who says one anew no longer says the others.
constexpr std::array<std::array<std::string_view, 3>, 2> same_said{
    {{"leather", "cover.material", ""}, {"pages", "text.sheets", "text.sections"}}};

bool can_change(std::string_view path) {
  return path.find("[]") == std::string_view::npos && !path.starts_with("quote.") && path != "endband";
}

// Where a change ends: at a semicolon that stands in no quotes.
std::size_t end_of_change(std::string_view text) {
  bool in_quotes = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '"') in_quotes = !in_quotes;
    if (text[i] == ';' && !in_quotes) return i;
  }
  return text.size();
}

std::string_view between(std::string_view text, char first, char last) {
  bool const stands = text.size() >= 2 && text.front() == first && text.back() == last;
  return stands ? text.substr(1, text.size() - 2) : text;
}

// "250 mm" of "\"250 mm\"", and red, white of ["red", "white"].
std::string bare(ValueType type, std::string_view text) {
  if (type != ValueType::codes) return std::string(between(text, '"', '"'));
  std::string codes(between(text, '[', ']'));
  std::erase(codes, '"');
  return codes;
}

// First the same word in some table, then what is near.
std::vector<std::string> near_keys(std::string_view key, std::span<KeyRow const> keys) {
  std::vector<std::string_view> known;
  std::vector<std::string> found;
  for (KeyRow const& row : keys) {
    if (!can_change(row.path)) continue;
    known.push_back(row.path);
    if (row.path.ends_with(key) && row.path.substr(0, row.path.size() - key.size()).ends_with('.'))
      found.emplace_back(row.path);
  }
  for (std::string& word : nearest(key, known)) found.push_back(std::move(word));
  if (found.size() > near_at_most) found.resize(near_at_most);
  return found;
}

class OptionReader {
 public:
  OptionReader(BookText const& said, std::span<KeyRow const> keys) : said_(said), keys_(keys) {}

  Read<std::vector<Option>> read() {
    std::vector<Option> options;
    for (int row = 0; row < said_.rows("options"); ++row) options.push_back(option(row));
    if (!faults_.empty()) return tl::unexpected(std::move(faults_));
    return options;
  }

 private:
  Option option(int row) {
    Option option;
    if (Entry const* const heading = said_.find("options[]", row)) option.where = heading->where;
    option.words = words("options[].words", row, option.where);
    if (Entry const* const either = said_.find("options[].either", row))
      option.either = std::get<std::string>(either->value);
    std::string const text = words("options[].change", row, option.where);
    if (Entry const* const change = said_.find("options[].change", row)) {
      option.where = change->where;
      read_changes(text, option);
    }
    return option;
  }

  std::string words(std::string_view path, int row, Where where) {
    if (Entry const* const entry = said_.find(path, row)) return std::get<std::string>(entry->value);
    std::string_view const part = path.substr(path.rfind('.') + 1);
    where.field = fmt::format("options[{}].{}", row + 1, part);
    KeyRow const* const key = key_named(keys_, path);
    fault(FaultCode::missing_key, where, {},
          fmt::format("{} = ...{}{}", part, key == nullptr ? "" : ", ", key == nullptr ? "" : key->help));
    return {};
  }

  void read_changes(std::string_view text, Option& option) {
    for (std::string_view rest = text; !rest.empty();) {
      std::size_t const end = end_of_change(rest);
      if (std::string_view const change = trimmed(rest.substr(0, end)); !change.empty())
        read_change(change, option);
      rest.remove_prefix(std::min(end + 1, rest.size()));
    }
    if (trimmed(text).find_first_not_of("; ") == std::string_view::npos)
      fault(FaultCode::bad_value, option.where, std::string(text), "key = value; key = value");
  }

  void read_change(std::string_view change, Option& option) {
    std::size_t const equals = change.find('=');
    if (equals == std::string_view::npos)
      return fault(FaultCode::bad_value, option.where, std::string(change), "key = value; key = value");
    std::string const path(trimmed(change.substr(0, equals)));
    KeyRow const* const key = key_named(keys_, path);
    if (key == nullptr)
      return fault(FaultCode::unknown_key, option.where, path, "a key of the book description",
                   near_keys(path, keys_));
    if (!can_change(path))
      return fault(FaultCode::contradiction, option.where, path,
                   "a key of the book, and of no table that is repeated");
    auto const same = [&](Entry const& entry) { return entry.key == path; };
    if (std::any_of(option.changes.begin(), option.changes.end(), same))
      return fault(FaultCode::contradiction, option.where, std::string(change), "one value of " + path);
    take(*key, trimmed(change.substr(equals + 1)), option);
  }

  void take(KeyRow const& key, std::string_view text, Option& option) {
    Read<Value> value = read_value(key, bare(key.type, text), option.where);
    if (value)
      option.changes.push_back({std::string(key.path), -1, std::move(*value), option.where});
    else
      faults_.insert(faults_.end(), value.error().begin(), value.error().end());
  }

  void fault(FaultCode code, Where const& where, std::string found, std::string expected,
             std::vector<std::string> near = {}) {
    faults_.push_back({code, where, std::move(found), std::move(expected), std::move(near)});
  }

  BookText const& said_;
  std::span<KeyRow const> keys_;
  std::vector<Fault> faults_;
};

bool says_the_same(std::string_view a, std::string_view b) {
  auto const holds = [](auto const& row, std::string_view key) {
    return std::find(row.begin(), row.end(), key) != row.end();
  };
  return std::any_of(same_said.begin(), same_said.end(),
                     [&](auto const& row) { return a != b && holds(row, a) && holds(row, b); });
}

// A part that the option does without is not spoken of any more; parts that were not there before are not
// there after it either.
void apply_without(Entry const& change, std::vector<Entry>& entries) {
  auto parts = std::get<std::vector<std::string>>(change.value);
  std::erase_if(entries, [&](Entry const& entry) {
    return std::any_of(parts.begin(), parts.end(), [&](std::string const& part) {
      return entry.key.starts_with(part + ".") || entry.key.starts_with(part + "[]");
    });
  });
  auto const said =
      std::find_if(entries.begin(), entries.end(), [](Entry const& entry) { return entry.key == "without"; });
  if (said == entries.end()) return entries.push_back(change);
  for (std::string const& part : std::get<std::vector<std::string>>(said->value))
    if (std::find(parts.begin(), parts.end(), part) == parts.end()) parts.push_back(part);
  *said = change;
  said->value = std::move(parts);
}

void apply(Entry const& change, std::vector<Entry>& entries) {
  if (change.key == "without") return apply_without(change, entries);
  std::erase_if(entries, [&](Entry const& entry) { return says_the_same(entry.key, change.key); });
  auto const it = std::find_if(entries.begin(), entries.end(),
                               [&](Entry const& entry) { return entry.key == change.key; });
  if (it == entries.end())
    entries.push_back(change);
  else
    *it = change;
}

void check_one_of_each(std::span<Option const* const> taken) {
  for (std::size_t i = 0; i < taken.size(); ++i)
    for (std::size_t j = i + 1; j < taken.size(); ++j)
      if (!taken[i]->either.empty() && taken[i]->either == taken[j]->either)
        throw std::logic_error("two options of which one can be taken: " + taken[i]->either);
}

}  // namespace

Read<std::vector<Option>> options_of(BookText const& said, std::span<KeyRow const> keys) {
  return OptionReader(said, keys).read();
}

BookText with_options(BookText const& said, std::span<Option const* const> taken) {
  check_one_of_each(taken);
  BookText text = said;
  for (Option const* const option : taken)
    for (Entry const& change : option->changes) apply(change, text.entries);
  return text;
}

std::vector<OptionGroup> groups_of(std::span<Option const> options) {
  std::vector<OptionGroup> groups;
  for (Option const& option : options) {
    auto const same = [&](OptionGroup const& group) {
      return !option.either.empty() && group.front()->either == option.either;
    };
    if (auto const it = std::find_if(groups.begin(), groups.end(), same); it != groups.end())
      it->push_back(&option);
    else
      groups.push_back({&option});
  }
  return groups;
}

std::vector<Option const*> taken_of(std::span<OptionGroup const> groups, Choices const& choices) {
  if (choices.size() != groups.size()) throw std::logic_error("choices of other groups");
  std::vector<Option const*> taken;
  for (std::size_t i = 0; i < groups.size(); ++i)
    if (choices[i] != 0) taken.push_back(groups[i].at(static_cast<std::size_t>(choices[i] - 1)));
  return taken;
}

}  // namespace endband
