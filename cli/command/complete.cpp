#include "cli/command/complete.h"

#include "cli/command/command.h"
#include "cli/command/parse.h"
#include "cli/command/scan.h"
#include "cli/command/words.h"
#include "cli/document/text.h"
#include "db/workshop.h"

#include <algorithm>
#include <cstdlib>
#include <optional>

namespace endband::cli {
namespace {

// What stands before the word that is typed.
struct Before {
  std::vector<std::string> said;        // words that are no flags
  std::vector<std::string_view> flags;  // by name
  Flag const* waiting = nullptr;        // a flag whose value is to come
  bool only_words = false;              // behind "--"
  std::optional<std::string> workshop;
};

bool is_named(Flag const& flag, std::string_view name) {
  return flag.name == name || (name.size() == 2 && flag.letter != '\0' && name[1] == flag.letter);
}

Before before_of(std::span<std::string const> words) {
  Before before;
  for (std::size_t i = 0; i < words.size(); ++i) {
    std::string const& word = words[i];
    if (before.only_words || !looks_like_flag(word)) {
      before.said.push_back(word);
      continue;
    }
    before.only_words = word == "--";
    std::string_view const name = flag_name(word);
    Flag const* const flag = known_flag(name);
    if (flag == nullptr) continue;
    before.flags.push_back(flag->name);
    bool const has_value = name.size() < word.size();
    if (flag->type == FlagType::on) continue;
    if (!has_value && i + 1 == words.size()) {
      before.waiting = flag;
      continue;
    }
    std::string const value = has_value ? word.substr(name.size() + 1) : words[++i];
    if (flag->name == "--workshop") before.workshop = value;
  }
  return before;
}

// A shell leaves "~/" to whom it hands the words.
std::string at_home(std::string const& path) {
  char const* const home = std::getenv("HOME");
  return home != nullptr && path.starts_with("~/") ? home + path.substr(1) : path;
}

class Completing {
 public:
  Completing(Before const& before, std::string const& typed, std::string const& usual)
      : before_(before), path_(at_home(before.workshop.value_or(usual))) {
    result_.typed = typed;
    if (before.said.size() > 1) command_ = find_command(before.said[0], before.said[1]);
  }

  Completion result() {
    std::string const& typed = result_.typed;
    std::string_view const name = flag_name(typed);
    bool const of_flag = !before_.only_words && looks_like_flag(typed);
    if (before_.waiting != nullptr)
      values(type_of(before_.waiting->name), typed, "");
    else if (of_flag && name.size() < typed.size())
      value_behind(std::string(name));
    else if (of_flag || (typed == "-" && !before_.only_words))
      flags();
    else
      words();
    return std::move(result_);
  }

 private:
  // A name that two commands share may be of two types.
  FlagType type_of(std::string_view name) const {
    if (command_ != nullptr)
      for (Flag const& flag : command_->flags)
        if (is_named(flag, name)) return flag.type;
    Flag const* const flag = known_flag(name);
    return flag == nullptr ? FlagType::on : flag->type;
  }

  void values(FlagType type, std::string_view typed, std::string const& in_front) {
    if (type == FlagType::file || type == FlagType::book) result_.files = Completion::Files::files;
    if (type == FlagType::folder) result_.files = Completion::Files::folders;
    std::optional<db::Workshop> workshop;
    try {
      workshop = db::Workshop::look(path_);
    } catch (std::exception const&) {  // damaged, busy or somebody else's: a keystroke is no time to say so
    }
    for (Offer& offer : offered(type, typed, workshop ? &*workshop : nullptr)) {
      offer.word.insert(0, in_front);
      result_.offers.push_back(std::move(offer));
    }
  }

  void value_behind(std::string const& name) {
    values(type_of(name), std::string_view(result_.typed).substr(name.size() + 1), name + "=");
  }

  void offer(std::string_view word, std::string_view about) {
    if (word.starts_with(result_.typed)) result_.offers.push_back({std::string(word), std::string(about)});
  }

  void flags() {
    auto const known = command_ != nullptr ? flags_of(*command_)
                                           : std::vector<Flag>(global_flags().begin(), global_flags().end());
    for (Flag const& flag : known) {
      bool const said = std::ranges::find(before_.flags, flag.name) != before_.flags.end();
      if (!said || flag.many) offer(flag.name, flag.help);
    }
  }

  void verbs(std::string const& noun) {
    for (Command const& command : commands())
      if (command.noun == noun) offer(command.verb, command.summary);
  }

  void words() {
    auto const& said = before_.said;
    bool const helps = !said.empty() && said[0] == "help";
    if (said.empty() || (helps && said.size() == 1)) {
      for (NounRow const& row : noun_table())
        if (!helps || !row.own) offer(row.noun, row.about);
    } else if (said[0] == "completion") {
      if (said.size() == 1)
        for (std::string_view const shell : shells()) offer(shell, "");
    } else if (said.size() == 1 || (helps && said.size() == 2)) {
      verbs(said.back());
    } else if (command_ != nullptr) {
      word_of(*command_);
    }
  }

  void word_of(Command const& command) {
    std::size_t const at = before_.said.size() - 2;
    auto const& words = command.words;
    if (at < words.size() || (!words.empty() && words.back().many))
      return values(words[std::min(at, words.size() - 1)].type, result_.typed, "");
    if (result_.typed.empty()) flags();
  }

  Before const& before_;
  std::string path_;
  Command const* command_ = nullptr;
  Completion result_;
};

}  // namespace

Completion complete(std::span<std::string const> words, std::string const& usual) noexcept try {
  if (words.empty()) return {};
  Before const before = before_of(words.first(words.size() - 1));
  return Completing(before, words.back(), usual).result();
} catch (std::exception const&) {
  return {};
}

std::vector<std::string> typed_words(std::string_view line) {
  constexpr char cursor = '\x01';  // no word has one
  for (std::string_view const closing : {"", "'", "\""}) {
    auto words = split_words(std::string(line) + cursor + std::string(closing));
    if (!words || words->empty()) continue;
    std::string& last = words->back();
    if (auto const at = last.find(cursor); at != std::string::npos) last.erase(at);
    words->erase(words->begin());
    return std::move(*words);
  }
  return {};
}

std::string completion_text(Completion const& completion) {
  std::string text = completion.files == Completion::Files::files     ? "files\n"
                     : completion.files == Completion::Files::folders ? "folders\n"
                                                                      : "words\n";
  text += printable(completion.typed) + "\n";
  for (Offer const& offer : completion.offers) {
    text += printable(offer.word);
    if (!offer.about.empty()) text += "\t" + printable(offer.about);
    text += "\n";
  }
  return text;
}

}  // namespace endband::cli
