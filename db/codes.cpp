#include "db/codes.h"

#include <algorithm>

namespace endband::db {
namespace {

constexpr std::size_t longest_code = 60;

}  // namespace

std::optional<Fault> check_code(std::string_view code, Where const& where) {
  auto const allowed = [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-'; };
  if (!code.empty() && code.size() <= longest_code && code.front() != '-' &&
      std::all_of(code.begin(), code.end(), allowed))
    return std::nullopt;
  return Fault{FaultCode::bad_value,
               where,
               std::string(code),
               "lower-case letters, digits and '-', at most " + std::to_string(longest_code),
               {}};
}

std::vector<std::string> near_codes(std::string_view code, std::span<std::string const> known) {
  std::vector<std::string_view> const views(known.begin(), known.end());
  return nearest(code, views);
}

}  // namespace endband::db
