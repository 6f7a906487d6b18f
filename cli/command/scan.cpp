#include "cli/command/scan.h"

#include "cli/command/command.h"

#include <algorithm>

namespace endband::cli {

Flag const* known_flag(std::string_view name) {
  auto const is_it = [&](Flag const& flag) {
    return flag.name == name || (name.size() == 2 && flag.letter != '\0' && name[1] == flag.letter);
  };
  for (Flag const& flag : global_flags())
    if (is_it(flag)) return &flag;
  for (Command const& command : commands())
    for (Flag const& flag : command.flags)
      if (is_it(flag)) return &flag;
  return nullptr;
}

std::string_view flag_name(std::string_view word) { return word.substr(0, word.find('=')); }

bool looks_like_flag(std::string_view word) {
  if (word.size() < 2 || word[0] != '-') return false;
  bool const number = (word[1] >= '0' && word[1] <= '9') || word[1] == '.' || word[1] == ',';
  return !number;
}

Scan scan(std::span<std::string const> line) {
  Scan result;
  bool only_words = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    std::string const& word = line[i];
    if (only_words || !looks_like_flag(word)) {
      result.words.push_back(i);
      continue;
    }
    if (word == "--") {
      only_words = true;
      continue;
    }
    if (word == "-h" || word == "--help") result.help = true;
    Flag const* flag = known_flag(flag_name(word));
    if (flag == nullptr || flag->type == FlagType::on) continue;
    if (word.find('=') < word.size() - 1) continue;
    bool const has_value = !word.ends_with('=') && i + 1 < line.size() && line[i + 1] != "--" &&
                           !(looks_like_flag(line[i + 1]) && known_flag(flag_name(line[i + 1])) != nullptr);
    if (has_value)
      ++i;
    else
      result.faults.push_back({FaultCode::bad_command,
                               {"", 0, 0, std::string(flag_name(word))},
                               "",
                               "its value, " + std::string(placeholder(flag->type)),
                               {}});
  }
  return result;
}

}  // namespace endband::cli
