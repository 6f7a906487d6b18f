// The keys of a description, as everybody sees them.
#include "engine/book/keys.h"

#include <algorithm>
#include <numeric>

namespace endband {
namespace {

constexpr auto plain_rows = [] {
  std::array<KeyRow, key_count> rows;
  for (std::size_t i = 0; i < key_count; ++i) rows[i] = key_table::rows[i].row;
  return rows;
}();

// Indices of the rows in the order of their paths, to be searched by halving.
constexpr auto by_path = [] {
  std::array<std::size_t, key_count> order;
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(),
            [](std::size_t a, std::size_t b) { return plain_rows[a].path < plain_rows[b].path; });
  return order;
}();

constexpr bool paths_differ() {
  for (std::size_t i = 1; i < key_count; ++i)
    if (plain_rows[by_path[i - 1]].path == plain_rows[by_path[i]].path) return false;
  return true;
}
static_assert(paths_differ());

}  // namespace

std::span<KeyRow const> description_keys() { return plain_rows; }

std::optional<std::size_t> find_key(std::string_view path) {
  auto const it = std::lower_bound(
      by_path.begin(), by_path.end(), path,
      [](std::size_t row, std::string_view wanted) { return plain_rows[row].path < wanted; });
  if (it == by_path.end() || plain_rows[*it].path != path) return std::nullopt;
  return *it;
}

}  // namespace endband
