#include "cli/command/args.h"

#include <algorithm>
#include <sstream>

namespace endband::cli {

std::optional<std::vector<std::string>> Args::codes(std::string_view flag) const {
  auto const said = text(flag);
  if (!said) return std::nullopt;
  std::vector<std::string> once;
  std::istringstream words(*said);  // read_flag parts them by blanks
  for (std::string code; words >> code;)
    if (std::ranges::find(once, code) == once.end()) once.push_back(code);
  return once;
}

}  // namespace endband::cli
