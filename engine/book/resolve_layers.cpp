#include "engine/book/resolve_layers.h"

#include <algorithm>

namespace endband {
namespace {

constexpr std::string_view row_mark = "[]";

// "lines" of "lines[].width" and of "lines[]".
std::string_view table_of_row(std::string_view key) { return key.substr(0, key.find(row_mark)); }

bool in_table(std::string_view key, std::string_view table) {
  if (!key.starts_with(table)) return false;
  std::string_view const rest = key.substr(table.size());
  return rest.empty() || rest.front() == '.' || rest.starts_with(row_mark);
}

}  // namespace

Entry const* Row::find(std::size_t key_index) const {
  auto const it =
      std::find_if(cells.begin(), cells.end(), [&](auto const& cell) { return cell.first == key_index; });
  return it == cells.end() ? nullptr : it->second;
}

Layers::Layers(std::span<Layer const> layers) : layers_(layers) {
  if (!layers.empty()) source_ = layers.front().text->source;
  for (std::size_t i = layers.size(); i-- > 0;) {
    take(layers[i], i);
    take_rows(layers[i]);
  }
}

void Layers::take(Layer const& layer, std::size_t index) {
  for (Entry const& entry : layer.text->entries)
    if (entry.row < 0)
      if (auto const at = find_key(entry.key)) hits_[*at] = {&entry, layer.origin, index};
}

void Layers::take_rows(Layer const& layer) {
  std::vector<std::pair<std::string_view, Rows>> taken;
  for (Entry const& entry : layer.text->entries) {
    if (entry.row < 0) continue;
    std::string_view const table = table_of_row(entry.key);
    auto it = std::find_if(taken.begin(), taken.end(), [&](auto const& rows) { return rows.first == table; });
    if (it == taken.end()) it = taken.insert(it, {table, Rows{layer.origin, {}}});
    auto& rows = it->second.rows;
    auto const row = static_cast<std::size_t>(entry.row);
    if (rows.size() <= row) rows.resize(row + 1);
    if (rows[row].where.line == 0) rows[row].where = entry.where;
    if (auto const at = find_key(entry.key)) rows[row].cells.emplace_back(*at, &entry);
  }
  for (auto& table : taken) {
    auto const it =
        std::find_if(rows_.begin(), rows_.end(), [&](auto const& old) { return old.first == table.first; });
    if (it == rows_.end())
      rows_.push_back(std::move(table));
    else
      it->second = std::move(table.second);
  }
}

Rows const& Layers::rows(std::string_view table) const {
  static Rows const none;
  auto const it =
      std::find_if(rows_.begin(), rows_.end(), [&](auto const& rows) { return rows.first == table; });
  return it == rows_.end() ? none : it->second;
}

bool Layers::flag(std::size_t key_index) const {
  Hit const& hit = hits_[key_index];
  return hit && std::get<bool>(hit.entry->value);
}

bool Layers::asked_for(std::string_view table) const {
  return std::any_of(layers_.begin(), layers_.end(), [&](Layer const& layer) {
    if (layer.origin != Origin::said && layer.origin != Origin::model) return false;
    auto const& entries = layer.text->entries;
    return std::any_of(entries.begin(), entries.end(),
                       [&](Entry const& entry) { return in_table(entry.key, table); });
  });
}

std::vector<Hit> Layers::all(std::size_t key_index) const {
  std::vector<Hit> hits;
  for (std::size_t i = 0; i < layers_.size(); ++i)
    if (Entry const* const entry = layers_[i].text->find(path_of(key_index)))
      hits.push_back({entry, layers_[i].origin, i});
  return hits;
}

}  // namespace endband
