#include "cli/command/parse.h"

#include "cli/command/scan.h"
#include "cli/document/text.h"

#include <CLI/CLI.hpp>

#include <algorithm>

namespace endband::cli {
namespace {

Fault command_fault(std::string source, std::string field, std::string found, std::string expected) {
  return {FaultCode::bad_command,
          {std::move(source), 0, 0, std::move(field)},
          std::move(found),
          std::move(expected),
          {}};
}

std::string join_or(std::vector<std::string_view> const& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i)
    text += (i == 0 ? "" : i + 1 == words.size() ? " or " : ", ") + std::string(words[i]);
  return text;
}

std::vector<std::string_view> nouns() {
  std::vector<std::string_view> result;
  for (NounRow const& row : noun_table()) result.push_back(row.noun);
  return result;
}

std::vector<std::string_view> verbs_of(std::string_view noun) {
  std::vector<std::string_view> result;
  for (Command const& command : commands())
    if (command.noun == noun) result.push_back(command.verb);
  return result;
}

Fault unknown_noun(std::string const& noun) {
  Fault fault = command_fault("", "", noun, "a command");
  fault.near = nearest(noun, nouns());
  if (fault.near.empty()) fault.expected += ": " + join_or(nouns());
  return fault;
}

Fault unknown_verb(std::string const& noun, std::string const& verb) {
  auto const verbs = verbs_of(noun);
  if (verb.empty()) return command_fault(noun, "", "", join_or(verbs));
  Fault fault = command_fault(noun, "", verb, "something that " + noun + " does");
  fault.near = nearest(verb, verbs);
  if (fault.near.empty()) fault.expected += ": " + join_or(verbs);
  return fault;
}

bool same_noun(std::string_view noun) {
  auto const known = nouns();
  return std::find(known.begin(), known.end(), noun) != known.end();
}

// What the library made of one line: for each flag and for the words, the texts that were given.
struct Texts {
  std::vector<std::vector<std::string>> of_flag;  // in the order of flags_of
  std::vector<std::string> words;
  std::vector<std::string> left_over;  // flags that the command does not have
};

CLI::Option* declare(CLI::App& app, Flag const& flag) {
  std::string names(flag.name);
  if (flag.letter != '\0') names = std::string("-") + flag.letter + "," + names;
  if (flag.type == FlagType::on) return app.add_flag(names)->disable_flag_override();
  return app.add_option(names)->expected(1)->allow_extra_args(false)->multi_option_policy(
      CLI::MultiOptionPolicy::TakeAll);
}

// "--json=no": a switch is on when it is there, and takes no value.
std::optional<Fault> switch_with_value(std::string const& source, std::vector<Flag> const& flags,
                                       std::vector<std::string> const& line) {
  for (std::string const& word : line) {
    if (word == "--") break;
    std::string_view const name = flag_name(word);
    for (Flag const& flag : flags)
      if (flag.type == FlagType::on && name == flag.name && name.size() < word.size())
        return command_fault(source, "", word, std::string(name) + ", which stands alone");
  }
  return std::nullopt;
}

Read<Texts> split(std::string const& source, std::vector<Flag> const& flags, std::vector<std::string> line) {
  if (auto fault = switch_with_value(source, flags, line)) return refuse(std::move(*fault));
  CLI::App app;
  app.set_help_flag();
  app.allow_extras();
  std::vector<CLI::Option*> options;
  for (Flag const& flag : flags) options.push_back(declare(app, flag));
  std::reverse(line.begin(), line.end());
  try {
    app.parse(std::move(line));
  } catch (CLI::ParseError const& error) {
    return refuse(command_fault(source, "", error.what(), "what the command line may be"));
  }
  Texts texts;
  for (CLI::Option* option : options) texts.of_flag.push_back(option->results());
  // The library has its own mind about words that stand by their place; to it they are left over, as they
  // were.
  bool only_words = false;
  for (std::string& word : app.remaining()) {
    if (!only_words && word == "--")
      only_words = true;
    else
      (only_words || !looks_like_flag(word) ? texts.words : texts.left_over).push_back(std::move(word));
  }
  return texts;
}

class Reader {
 public:
  Reader(Command const& command, Texts const& texts)
      : command_(command), source_(command_name(command)), flags_(flags_of(command)), texts_(texts) {}

  Read<Line> line() {
    refuse_left_over();
    read_flags();
    read_words();
    if (!faults_.empty()) return tl::unexpected(std::move(faults_));
    Line line;
    line.command = &command_;
    line.globals = globals();
    line.args = Args(source_, std::move(words_), std::move(values_));
    return line;
  }

 private:
  void refuse_left_over() {
    for (std::string const& word : texts_.left_over) {
      std::vector<std::string_view> names;
      for (Flag const& flag : flags_) names.push_back(flag.name);
      std::string const name(flag_name(word));
      Fault fault = command_fault(source_, "", name, "a flag of " + source_);
      fault.near = nearest(name, names);
      faults_.push_back(std::move(fault));
    }
  }

  void take(FlagType type, std::string const& text, std::string_view field, std::vector<FlagValue>& into) {
    auto value = located(read_flag(type, text), {source_, 0, 0, std::string(field)});
    if (value)
      into.push_back(std::move(*value));
    else
      faults_.insert(faults_.end(), value.error().begin(), value.error().end());
  }

  void read_flags() {
    for (std::size_t i = 0; i < flags_.size(); ++i) {
      auto const& given = texts_.of_flag[i];
      if (given.empty()) continue;
      if (flags_[i].many) {
        values_.emplace(flags_[i].name, lines_of(flags_[i], given));
        continue;
      }
      if (given.size() > 1 && flags_[i].type != FlagType::on) {
        faults_.push_back(
            command_fault(source_, std::string(flags_[i].name), given.back(), "the only value of it"));
        continue;
      }
      std::vector<FlagValue> value;
      take(flags_[i].type, given.front(), flags_[i].name, value);
      if (!value.empty()) values_.emplace(flags_[i].name, std::move(value.front()));
    }
  }

  std::string lines_of(Flag const& flag, std::vector<std::string> const& given) {
    std::vector<FlagValue> values;
    for (std::string const& text : given) take(flag.type, text, flag.name, values);
    std::string lines;
    for (FlagValue const& value : values) lines += (lines.empty() ? "" : "\n") + std::get<std::string>(value);
    return lines;
  }

  void read_words() {
    std::size_t at = 0;
    for (Word const& word : command_.words) {
      if (at == texts_.words.size() && word.needed)
        faults_.push_back(command_fault(source_, std::string(word.name), "", std::string(word.help)));
      for (bool first = true; at < texts_.words.size() && (first || word.many); first = false)
        take(word.type, texts_.words[at++], word.name, words_);
    }
    // Behind an unknown flag, what would be its value stands here too: one slip is told once.
    for (; at < texts_.words.size() && texts_.left_over.empty(); ++at)
      faults_.push_back(command_fault(source_, "", texts_.words[at], "a word that " + source_ + " takes"));
  }

  Globals globals() const {
    Globals result;
    auto const given = [&](char const* name) { return values_.contains(name); };
    Args const args(source_, {}, values_);
    result.workshop = args.text("--workshop");
    result.on = args.get<Date>("--on");
    result.at = args.text("--at");
    result.json = given("--json");
    result.jsonl = given("--jsonl");
    result.no_pager = given("--no-pager");
    result.no_colour = given("--no-color");
    result.dry_run = given("--dry-run");
    result.yes = given("--yes");
    return result;
  }

  Command const& command_;
  std::string source_;
  std::vector<Flag> flags_;
  Texts const& texts_;
  std::vector<Fault> faults_;
  std::vector<FlagValue> words_;
  std::map<std::string, FlagValue, std::less<>> values_;
};

// What of the line holds without a command.
Globals globals_of(std::span<std::string const> words) {
  Globals globals;
  globals.json = asks_for_json(words);
  globals.no_pager = has_switch(words, "--no-pager");
  globals.no_colour = has_switch(words, "--no-color");
  return globals;
}

// `completion SHELL`.
Read<Line> completion_line(std::span<std::string const> words, Scan const& seen) {
  constexpr std::string_view noun = "completion";
  Line line;
  line.asks = Line::Asks::completion;
  line.globals = globals_of(words);
  if (seen.words.size() == 1) return refuse(command_fault(std::string(noun), "", "", "bash, zsh or fish"));
  std::string const& shell = words[seen.words[1]];
  auto const found = std::ranges::find(shells(), shell);
  if (found == shells().end()) {
    Fault fault =
        command_fault(std::string(noun), "", shell, "a shell with a script here: bash, zsh or fish");
    fault.near = nearest(shell, shells());
    return refuse(std::move(fault));
  }
  if (seen.words.size() > 2)
    return refuse(command_fault(std::string(noun), "", words[seen.words[2]], "a word that completion takes"));
  line.shell = *found;
  return line;
}

// `help`, `help NOUN`, `help NOUN VERB`, `help --man`, and -h anywhere.
Read<Line> help_line(std::span<std::string const> words) {
  Line line;
  line.asks = has_switch(words, "--man") ? Line::Asks::man : Line::Asks::help;
  line.globals = globals_of(words);
  Scan const seen = scan(words);
  std::vector<std::string> about;
  for (std::size_t place : seen.words) about.push_back(words[place]);
  if (!about.empty() && about.front() == "help") about.erase(about.begin());
  if (about.empty() || line.asks == Line::Asks::man) return line;
  auto const row = std::ranges::find(noun_table(), about[0], &NounRow::noun);
  if (row == noun_table().end()) return refuse(unknown_noun(about[0]));
  line.noun = row->noun;
  if (about.size() == 1 || row->own) return line;
  line.command = find_command(about[0], about[1]);
  if (line.command == nullptr) return refuse(unknown_verb(about[0], about[1]));
  return line;
}

}  // namespace

bool has_switch(std::span<std::string const> words, std::string_view name) {
  for (std::string const& word : words) {
    if (word == "--") return false;
    if (word == name) return true;
  }
  return false;
}

bool asks_for_json(std::span<std::string const> words) {
  return has_switch(words, "--json") || has_switch(words, "--jsonl");
}

Read<Line> parse_line(std::span<std::string const> words) {
  for (std::string const& word : words)
    if (!is_utf8(word)) return refuse({FaultCode::bad_value, {}, printable(word), "text in UTF-8", {}});
  Scan const seen = scan(words);
  bool const version = std::find(words.begin(), words.end(), "--version") != words.end();
  if (seen.help || (!seen.words.empty() && words[seen.words[0]] == "help")) return help_line(words);
  if (version || seen.words.empty()) {
    Line line;
    line.asks = version ? Line::Asks::version : Line::Asks::nothing;
    line.globals = globals_of(words);
    for (std::string const& word : words)
      if (!version && looks_like_flag(word) && known_flag(flag_name(word)) == nullptr)
        return refuse(command_fault("", "", word, "a flag of endband; endband help lists them"));
    if (!seen.faults.empty()) return tl::unexpected(seen.faults);
    return line;
  }
  std::string const noun = words[seen.words[0]];
  if (!same_noun(noun)) return refuse(unknown_noun(noun));
  if (noun == "completion") return completion_line(words, seen);
  std::string const verb = seen.words.size() > 1 ? words[seen.words[1]] : "";
  Command const* command = find_command(noun, verb);
  if (command == nullptr) return refuse(unknown_verb(noun, verb));
  if (!seen.faults.empty()) {
    auto faults = seen.faults;
    for (Fault& fault : faults) fault.where.source = command_name(*command);
    return tl::unexpected(std::move(faults));
  }
  std::vector<std::string> rest;
  for (std::size_t i = 0; i < words.size(); ++i)
    if (i != seen.words[0] && i != seen.words[1]) rest.push_back(words[i]);
  auto const texts = split(command_name(*command), flags_of(*command), std::move(rest));
  if (!texts) return tl::unexpected(texts.error());
  return Reader(*command, *texts).line();
}

}  // namespace endband::cli
