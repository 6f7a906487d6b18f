// Every key of a parsed description looked up in the table of keys, every value read by its row.
#include "engine/description/raw.h"
#include "engine/description/text.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband {
namespace {

constexpr std::size_t most_rows = 100;
constexpr std::size_t near_at_most = 3;

std::string_view last_part(std::string_view path) { return path.substr(path.rfind('.') + 1); }

class Walker {
 public:
  Walker(std::span<KeyRow const> keys, BookText& text, std::vector<Fault>& faults)
      : keys_(keys), text_(text), faults_(faults) {}

  // `prefix` is "" or ends with a point: "text.", "lines[].".
  void table(Raw const& raw, std::string const& prefix, int row) {
    for (RawMember const& member : raw.members) {
      std::string const path = prefix + member.key;
      if (KeyRow const* key = key_named(keys_, path))
        leaf(*key, member.value, row);
      else if (starts_some(path + "."))
        inner_table(member, path);
      else if (starts_some(path + "[]."))
        rows(member, path);
      else
        unknown(member, prefix, row);
    }
  }

 private:
  std::span<KeyRow const> keys_;
  BookText& text_;
  std::vector<Fault>& faults_;

  bool starts_some(std::string_view prefix) const {
    return std::any_of(keys_.begin(), keys_.end(),
                       [&](KeyRow const& row) { return row.path.starts_with(prefix); });
  }

  // "lines[2].width": a person counts tables from one.
  static std::string field(std::string_view path, int row) {
    std::string text = shown(path);
    if (std::size_t const at = text.find("[]"); row >= 0 && at != std::string::npos)
      text.replace(at, 2, fmt::format("[{}]", row + 1));
    return text;
  }

  Where where(TextPlace place, std::string_view path, int row) const {
    return {text_.source, place.line, place.column, field(path, row)};
  }

  void fault(FaultCode code, Where where, std::string found, std::string expected,
             std::vector<std::string> near = {}) {
    faults_.push_back({code, std::move(where), std::move(found), std::move(expected), std::move(near)});
  }

  void leaf(KeyRow const& key, Raw const& raw, int row) {
    auto value = value_of(key, raw);
    if (value) {
      text_.entries.push_back(
          {std::string(key.path), row, std::move(*value), where(raw.place, key.path, row)});
      return;
    }
    for (Fault& told : value.error()) {
      told.where = where({told.where.line, told.where.column}, key.path, row);
      faults_.push_back(std::move(told));
    }
  }

  // That a table stands there is said too: an empty [clasps] asks for clasps.
  void heading(std::string const& path, int row, TextPlace place) {
    text_.entries.push_back({path, row, Value(true), where(place, path, row)});
  }

  void inner_table(RawMember const& member, std::string const& path) {
    if (member.value.is != Raw::Is::table)
      return fault(FaultCode::wrong_type, where(member.place, path, -1), shown(member.value.text),
                   fmt::format("one table, headed [{}]", path));
    heading(path, -1, member.place);
    table(member.value, path + ".", -1);
  }

  void rows(RawMember const& member, std::string const& path) {
    auto const& items = member.value.items;
    bool const tables =
        member.value.is == Raw::Is::list &&
        std::all_of(items.begin(), items.end(), [](Raw const& item) { return item.is == Raw::Is::table; });
    if (!tables)
      return fault(FaultCode::wrong_type, where(member.place, path, -1), shown(member.value.text),
                   fmt::format("tables, each headed [[{}]]", path));
    if (items.size() > most_rows)
      return fault(FaultCode::out_of_range, where(member.place, path, -1),
                   fmt::format("{} tables", items.size()),
                   fmt::format("at most {} of [[{}]]", most_rows, path));
    for (std::size_t i = 0; i < items.size(); ++i) {
      int const row = static_cast<int>(i);
      heading(path + "[]", row, items[i].place);
      table(items[i], path + "[].", row);
    }
  }

  void unknown(RawMember const& member, std::string const& prefix, int row) {
    fault(FaultCode::unknown_key, where(member.place, prefix + member.key, row), shown(member.key),
          keys_below(prefix), near(member.key, prefix));
  }

  // "[spine] has adhesive, lining, paper"
  std::string keys_below(std::string const& prefix) const {
    std::string text = prefix.empty() ? "the first lines have " : heading_of(prefix) + " has ";
    bool first = true;
    for (KeyRow const& row : keys_) {
      bool const here =
          row.path.starts_with(prefix) && row.path.find('.', prefix.size()) == std::string_view::npos;
      if (!here) continue;
      text += fmt::format("{}{}", first ? "" : ", ", row.path.substr(prefix.size()));
      first = false;
    }
    return text;
  }

  static std::string heading_of(std::string_view prefix) {
    prefix.remove_suffix(1);
    if (!prefix.ends_with("[]")) return fmt::format("[{}]", prefix);
    prefix.remove_suffix(2);
    return fmt::format("[[{}]]", prefix);
  }

  // First the same word in other tables, then what is near in this one, as it is written there; only where
  // there is neither, what is near anywhere.
  std::vector<std::string> near(std::string const& key, std::string const& prefix) const {
    std::vector<std::string_view> here;
    std::vector<std::string> found;
    for (KeyRow const& row : keys_) {
      if (row.path.starts_with(prefix)) {
        std::string_view const rest = row.path.substr(prefix.size());
        std::string_view const part = rest.substr(0, rest.find_first_of(".["));
        if (std::find(here.begin(), here.end(), part) == here.end()) here.push_back(part);
      }
      if (last_part(row.path) == key) found.emplace_back(row.path);
    }
    std::vector<std::string> const in_table = nearest(key, here);
    found.insert(found.end(), in_table.begin(), in_table.end());
    if (found.empty()) found = near_anywhere(key);
    if (found.size() > near_at_most) found.resize(near_at_most);
    return found;
  }

  std::vector<std::string> near_anywhere(std::string const& key) const {
    std::vector<std::string_view> words;
    for (KeyRow const& row : keys_) words.push_back(last_part(row.path));
    std::vector<std::string> found;
    for (std::string const& word : nearest(key, words))
      for (KeyRow const& row : keys_)
        if (last_part(row.path) == word && std::find(found.begin(), found.end(), row.path) == found.end())
          found.emplace_back(row.path);
    return found;
  }
};

}  // namespace

void check(Raw const& root, std::span<KeyRow const> keys, BookText& text, std::vector<Fault>& faults) {
  Walker(keys, text, faults).table(root, "", -1);
}

}  // namespace endband
