#include "cli/command/help.h"

#include "cli/commands/sheet_columns.h"
#include "cli/document/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace endband::cli {
namespace {

struct Stage {
  std::string_view title, nouns;
};
constexpr std::array stages{
    Stage{"Describe a book", "book"},
    Stage{"Quote it", "quote"},
    Stage{"Sell it", "listing"},
    Stage{"Mind the shelf", "stock"},
    Stage{"Make it", "job"},
    Stage{"Look back", "margins"},
    Stage{"Keep what a price needs", "material customer outlet rates bench steps"},
    Stage{"The workshop", "workshop"},
};

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
  for (Flag const& flag : flags) {
    std::string help(flag.help);
    auto const names = choices(flag.type);
    if (!names.empty() && flag.type != FlagType::currency && flag.type != FlagType::operation) {
      help += ": ";
      for (std::size_t i = 0; i < names.size(); ++i) help += (i == 0 ? "" : ", ") + std::string(names[i]);
    }
    into.rows.emplace_back("  " + flag_words(flag), help);
  }
}

// In the words of a header; what must be there first.
KeyValues columns_of(Command const& command) {
  KeyValues rows;
  for (bool const needed : {true, false})
    for (SheetColumn const& column : sheet_columns(command)) {
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
  codes.rows.emplace_back("  0", "done");
  if (!command.refused_when.empty()) codes.rows.emplace_back("  1", std::string(command.refused_when));
  codes.rows.emplace_back("  2", "the command line or the input file has to be changed");
  codes.rows.emplace_back("  3", "a file or the workshop cannot be read or written");
  codes.rows.emplace_back("  4", "a mistake in endband itself");
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
  auto const column_json = [](SheetColumn const& column) {
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

Document short_help() {
  Document document;
  document.paragraph("endband works out what a hand-bound book costs and what to charge for it.");
  document.add(
      Verbatim{"From nothing to a quote:\n"
               "  endband workshop new --sample                        an invented workshop to try\n"
               "  endband book start raised-cords -o book.toml         a description to change\n"
               "  endband quote make book.toml --customer otter-stage  its price, kept with a number\n"});
  KeyValues nouns;
  nouns.rows = {{"  book", "start a description, measure the book it describes"},
                {"  quote", "make, list, show, explain"},
                {"  listing", "what a book leaves you, outlet by outlet, and what is listed where"},
                {"  stock", "what lies on the shelf, comes and goes"},
                {"  job", "what was accepted: its goods, hours, payments"},
                {"  margins", "what past jobs earned, and why not what was quoted"},
                {"  material", "what is bought, its figures and its prices"},
                {"  customer", "who asks"},
                {"  outlet", "places where books are sold, and what they take"},
                {"  rates", "tax, exchange and carriage, all your own"},
                {"  bench", "who works when, days off, presses and drying places"},
                {"  steps", "how long each step of the work takes"},
                {"  workshop", "the file all of it is kept in, and its settings"}};
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
  for (Stage const& stage : stages) {
    document.heading(std::string(stage.title), 2);
    KeyValues rows;
    for (Command const& command : commands())
      if (stage.nouns.find(command.noun) != std::string_view::npos)
        rows.rows.emplace_back(pad_right("  " + command_name(command), widest + 2),
                               std::string(command.summary));
    document.add(std::move(rows));
  }
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
