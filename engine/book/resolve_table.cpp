#include "engine/book/resolve_table.h"

#include <fmt/format.h>

namespace endband {
namespace {

// "lines[2].width"
std::string field(std::size_t index, std::size_t row) {
  std::string path(path_of(index));
  if (std::size_t const at = path.find("[]"); at != std::string::npos)
    path.replace(at, 2, fmt::format("[{}]", row + 1));
  return path;
}

}  // namespace

double number(Row const& row, std::size_t index, double otherwise) {
  Entry const* const entry = row.find(index);
  return entry == nullptr ? otherwise : number_of(key_table::rows[index].row.type, entry->value);
}

int whole(Row const& row, std::size_t index, int otherwise) {
  Entry const* const entry = row.find(index);
  return entry == nullptr ? otherwise : static_cast<int>(std::get<std::int64_t>(entry->value));
}

std::string words(Row const& row, std::size_t index) {
  Entry const* const entry = row.find(index);
  return entry == nullptr ? std::string() : std::get<std::string>(entry->value);
}

bool Table::complete(std::size_t i, std::initializer_list<std::size_t> needed) {
  bool whole_row = true;
  for (std::size_t const index : needed) {
    if (rows_.rows[i].find(index) != nullptr) continue;
    Where where = rows_.rows[i].where;
    where.field = field(index, i);
    to_.fault(FaultCode::missing_key, std::move(where), {},
              fmt::format("{} = ..., {}", path_of(index).substr(path_of(index).rfind('.') + 1),
                          key_table::rows[index].row.help));
    whole_row = false;
  }
  return whole_row;
}

void Table::refuse_key(std::size_t i, std::size_t index, std::string_view expected) {
  if (Entry const* const entry = rows_.rows[i].find(index))
    to_.fault(FaultCode::contradiction, entry->where,
              value_text(key_table::rows[index].row.type, entry->value), std::string(expected));
}

}  // namespace endband
