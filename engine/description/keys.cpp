#include "engine/description/description.h"

#include <algorithm>

namespace endband {

KeyRow const* key_named(std::span<KeyRow const> keys, std::string_view path) {
  auto const it = std::find_if(keys.begin(), keys.end(), [&](KeyRow const& row) { return row.path == path; });
  return it == keys.end() ? nullptr : &*it;
}

Entry const* BookText::find(std::string_view key, int row) const {
  auto const it = std::find_if(entries.begin(), entries.end(),
                               [&](Entry const& entry) { return entry.row == row && entry.key == key; });
  return it == entries.end() ? nullptr : &*it;
}

int BookText::rows(std::string_view table) const {
  int count = 0;
  for (Entry const& entry : entries)
    if (entry.row >= 0 && entry.key.starts_with(table) && entry.key.substr(table.size()).starts_with("[]"))
      count = std::max(count, entry.row + 1);
  return count;
}

}  // namespace endband
