#include "cli/command/help.h"

#include "cli/commands/spreadsheet_columns.h"
#include "cli/document/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace endband::cli {
namespace {

struct OwnRow {
  std::string_view noun, words, summary;
};
constexpr std::array own_table{
    OwnRow{"help", "help [NOUN [VERB]]", "All commands, those of a noun, or one with its examples and flags"},
    OwnRow{"help", "help --man", "The manual page, for man"},
    OwnRow{"completion", "completion SHELL", "A script with which bash, zsh or fish completes commands"},
};

KeyValues own_rows(std::string_view noun) {
  KeyValues rows;
  for (OwnRow const& row : own_table)
    if (noun.empty() || row.noun == noun)
      rows.rows.emplace_back("  " + std::string(row.words), std::string(row.summary));
  return rows;
}

std::string usage(Command const& command) {
  std::string line = "endband " + command_name(command);
  for (Word const& word : command.words)
    line += fmt::format(" {}{}{}{}", word.needed ? "" : "[", word.name, word.many ? " ..." : "",
                        word.needed ? "" : "]");
  return line + (command.flags.empty() ? "" : " [flags]");
}

std::string flag_words(Flag const& flag) {
  std::string text = flag.letter == '\0' ? "" : fmt::format("-{}, ", flag.letter);
  text += flag.name;
  if (flag.type != FlagType::on)
    text += fmt::format(" {}{}", placeholder(flag.type), flag.many ? " ..." : "");
  return text;
}

void add_flags(KeyValues& into, std::span<Flag const> flags) {
  for (Flag const& flag : flags) into.rows.emplace_back("  " + flag_words(flag), flag_help(flag));
}

// In the words of a header; what must be there first.
KeyValues columns_of(Command const& command) {
  KeyValues rows;
  for (bool const needed : {true, false})
    for (SpreadsheetColumn const& column : sheet_columns(command)) {
      if (column.needed != needed) continue;
      Flag const& flag = column.flag;
      std::string help(flag.help);
      if (auto const names = choices(flag.type); !names.empty() && flag.type != FlagType::currency)
        help += fmt::format(": {}", fmt::join(names, ", "));
      if (needed) help += "; always";
      rows.rows.emplace_back(fmt::format("  {} {}", column_name(flag.name),
                                         flag.type == FlagType::on ? "yes" : placeholder(flag.type)),
                             help);
    }
  return rows;
}

KeyValues exits(Command const& command) {
  KeyValues codes;
  for (ExitRow const& row : exit_table()) {
    bool const refused = row.code == 1;
    if (refused && command.refused_when.empty()) continue;
    codes.rows.emplace_back("  " + std::to_string(row.code),
                            std::string(refused ? command.refused_when : row.words));
  }
  return codes;
}

KeyValues verbs(std::string_view noun) {
  KeyValues rows;
  for (Command const& command : commands())
    if (command.noun == noun)
      rows.rows.emplace_back("  " + command_name(command), std::string(command.summary));
  return rows;
}

Json flag_json(Flag const& flag) {
  auto const name = [](std::string_view word) { return Json(word); };
  return Json::Object{{"name", flag.name},
                      {"letter", flag.letter == '\0' ? Json() : Json(std::string(1, flag.letter))},
                      {"value", flag.type == FlagType::on ? Json() : Json(placeholder(flag.type))},
                      {"choices", json_array(choices(flag.type), name)},
                      {"help", flag.help}};
}

Json command_json(Command const& command) {
  auto const word_json = [](Word const& word) {
    return Json(
        Json::Object{{"name", word.name}, {"help", word.help}, {"needed", word.needed}, {"many", word.many}});
  };
  auto const column_json = [](SpreadsheetColumn const& column) {
    return Json(
        Json::Object{{"name", column_name(column.flag.name)},
                     {"value", column.flag.type == FlagType::on ? "yes" : placeholder(column.flag.type)},
                     {"help", column.flag.help},
                     {"needed", column.needed}});
  };
  auto const example = [](std::string_view text) { return Json("endband " + std::string(text)); };
  return Json::Object{{"noun", command.noun},
                      {"verb", command.verb},
                      {"summary", command.summary},
                      {"about", command.about},
                      {"usage", usage(command)},
                      {"words", json_array(command.words, word_json)},
                      {"flags", json_array(flags_of(command), flag_json)},
                      {"columns", json_array(sheet_columns(command), column_json)},
                      {"examples", json_array(command.examples, example)},
                      {"refused_when", command.refused_when},
                      {"writes", command.writes},
                      {"answer_schema", schema_name(command)}};
}

}  // namespace

std::span<Stage const> stages() {
  static constexpr std::array table{
      Stage{"Describe a book", "book"},
      Stage{"Quote it", "quote"},
      Stage{"Sell it", "listing"},
      Stage{"Mind the shelf", "stock"},
      Stage{"Make it", "job"},
      Stage{"Look back", "margins"},
      Stage{"Keep what a price needs", "material customer outlet rates bench steps"},
      Stage{"The workshop", "workshop"},
  };
  return table;
}

std::span<ExitRow const> exit_table() {
  static constexpr std::array table{
      ExitRow{0, "done"},
      ExitRow{1, "refused by a rule, or a check found a fault"},
      ExitRow{2, "the command line or the input file has to be changed"},
      ExitRow{3, "a file or the workshop cannot be read or written"},
      ExitRow{4, "a mistake in endband itself"},
  };
  return table;
}

std::string flag_help(Flag const& flag) {
  bool const told =
      flag.type == FlagType::kind || flag.type == FlagType::sold_by || flag.type == FlagType::charging;
  std::string help(flag.help);
  if (!told) return help;
  auto const names = choices(flag.type);
  for (std::size_t i = 0; i < names.size(); ++i) help += (i == 0 ? ": " : ", ") + std::string(names[i]);
  return help;
}

Document short_help() {
  Document document;
  document.paragraph("endband works out what a hand-bound book costs and what to charge for it.");
  document.add(
      Verbatim{"From nothing to a quote:\n"
               "  endband workshop new --sample                        an invented workshop\n"
               "  endband book start raised-cords -o book.toml         a description to change\n"
               "  endband quote make book.toml --customer otter-stage  its price, numbered\n"});
  KeyValues nouns;
  for (NounRow const& row : noun_table())
    if (!row.own) nouns.rows.emplace_back("  " + std::string(row.noun), std::string(row.about));
  document.add(Verbatim{"\nCommands:\n"}).add(nouns);
  document.add(Verbatim{"All commands: endband help    One of them: endband help quote make\n"});
  return document;
}

Document overview() {
  Document document;
  document.paper = true;
  document.heading("endband NOUN VERB ...");
  std::size_t widest = 0;
  for (Command const& command : commands()) widest = std::max(widest, command_name(command).size());
  for (Stage const& stage : stages()) {
    document.heading(std::string(stage.title), 2);
    KeyValues rows;
    for (Command const& command : commands())
      if (stage.nouns.find(command.noun) != std::string_view::npos)
        rows.rows.emplace_back(pad_right("  " + command_name(command), widest + 2),
                               std::string(command.summary));
    document.add(std::move(rows));
  }
  document.heading("The program itself", 2).add(own_rows({}));
  document.heading("On every command, before or after it", 2);
  KeyValues flags;
  add_flags(flags, global_flags());
  document.add(std::move(flags));
  document.paragraph(
      "The workshop's file: --workshop, else ENDBAND_WORKSHOP, else $XDG_DATA_HOME/endband/workshop.db. "
      "Two examples and every flag of a command: endband help NOUN VERB.");
  return document;
}

Document noun_help(std::string_view noun) {
  Document document;
  document.paper = true;
  document.heading("endband " + std::string(noun));
  if (noun == "help") return std::move(document.add(own_rows(noun)));
  if (noun == "completion") {
    document.add(own_rows(noun));
    document.add(
        Verbatim{"\nWhere each looks for it, for you alone:\n"
                 "  endband completion bash > ~/.local/share/bash-completion/completions/endband\n"
                 "  endband completion zsh > ~/.zfunc/_endband     (~/.zfunc being in your fpath)\n"
                 "  endband completion fish > ~/.config/fish/completions/endband.fish\n"});
    return document;
  }
  document.add(verbs(noun));
  document.add(Verbatim{"More: endband help " + std::string(noun) + " VERB\n"});
  return document;
}

Document command_help(Command const& command) {
  Document document;
  document.paper = true;
  document.heading(std::string(command.summary));
  std::string examples;
  for (std::string_view example : command.examples) examples += "  endband " + std::string(example) + "\n";
  document.add(Verbatim{examples});
  if (!command.about.empty()) document.paragraph(std::string(command.about));
  document.heading("Usage", 2).add(Verbatim{"  " + usage(command) + "\n"});
  KeyValues words;
  for (Word const& word : command.words)
    words.rows.emplace_back("  " + std::string(word.name), std::string(word.help));
  if (!words.rows.empty()) document.add(std::move(words));
  KeyValues flags;
  add_flags(flags, flags_of(command));
  document.heading("Flags", 2).add(std::move(flags));
  if (auto columns = columns_of(command); !columns.rows.empty())
    document.heading("Columns", 2).add(std::move(columns));
  document.heading("Exit codes", 2).add(exits(command));
  return document;
}

Json help_json(std::string_view noun, Command const* command) {
  Json::Array rows;
  for (Command const& row : commands()) {
    bool const asked = command != nullptr ? &row == command : noun.empty() || row.noun == noun;
    if (asked) rows.push_back(command_json(row));
  }
  return Json::Object{{"schema", "endband/help/1"}, {"commands", std::move(rows)}};
}

}  // namespace endband::cli
