#include "cli/command/man.h"

#include "cli/command/command.h"
#include "cli/command/help.h"
#include "cli/document/text.h"
#include "cli/version.h"

#include <fmt/format.h>

#include <array>

namespace endband::cli {
namespace {

// Text as roff reads it; `exact`: every '-' is the one that is typed, not a hyphen.
std::string roff(std::string_view text, bool exact = false) {
  std::string out;
  bool line_begins = true;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t const start = at;
    char32_t const c = next_code_point(text, at);
    if (line_begins && (c == U'.' || c == U'\'')) out += "\\&";
    if (c == U'\\')
      out += "\\e";
    else if (c == U'-' && (exact || (start + 1 < text.size() && text[start + 1] == '-') ||
                           (start > 0 && text[start - 1] == '-')))
      out += "\\-";
    else if (c > 0x7E)
      out += fmt::format("\\[u{:04X}]", static_cast<std::uint32_t>(c));
    else
      out += text.substr(start, at - start);
    line_begins = c == U'\n';
  }
  return out;
}

std::string bold(std::string_view text) { return "\\fB" + roff(text, true) + "\\fR"; }
std::string slanted(std::string_view text) { return "\\fI" + roff(text, true) + "\\fR"; }

// Lines that an editor of the page would make; roff fills them anew. None may begin as a macro does.
std::string in_lines(std::string_view text) {
  constexpr std::size_t longest = 78;
  std::string out;
  std::size_t length = 0;
  while (!text.empty()) {
    std::size_t const end = std::min(text.find(' '), text.size());
    std::string word(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
    if (word.empty()) continue;
    bool const fits = length + 1 + word.size() <= longest;
    if (length > 0) out += fits ? ' ' : '\n';
    if (length > 0 && !fits && (word.front() == '.' || word.front() == '\'')) word.insert(0, "\\&");
    length = (length > 0 && fits ? length + 1 : 0) + word.size();
    out += word;
  }
  return out;
}

// `endband ...` within a sentence is what one types.
std::string prose(std::string_view text) {
  std::string out;
  for (bool typed = false; !text.empty(); typed = !typed) {
    std::size_t const tick = std::min(text.find('`'), text.size());
    std::string_view const part = text.substr(0, tick);
    out += typed ? bold(part) : roff(part);
    text.remove_prefix(std::min(tick + 1, text.size()));
  }
  return in_lines(out);
}

struct Named {
  std::string_view name, words;
};
constexpr std::array environment_table{
    Named{"ENDBAND_WORKSHOP", "the workshop's file, where --workshop names none"},
    Named{"XDG_DATA_HOME",
          "where the workshop is kept without either: $XDG_DATA_HOME/endband/workshop.db. A relative one is "
          "ignored; unset, it is ~/.local/share"},
    Named{"XDG_STATE_HOME",
          "where a report is kept when endband itself fails. A relative one is ignored; unset, it is "
          "~/.local/state"},
    Named{"HOME", "what ~ stands for here"},
    Named{"PAGER",
          "what shows an answer longer than the terminal, in words between blanks; unset, it is less -FIRX; "
          "empty, or cat: "
          "nothing"},
    Named{"NO_COLOR", "not empty: no bold and no colour, as with --no-color"},
    Named{"TERM", "dumb, or unset: no bold, no colour and no pager"},
    Named{"COLUMNS", "how wide an answer may be where the terminal does not say; else 80"},
    Named{"TZ", "the zone whose day is today"},
};
constexpr std::array file_table{
    Named{"~/.local/share/endband/workshop.db", "the workshop: all of it, in one SQLite file of mode 0600"},
    Named{"workshop.db.version-N.backup",
          "beside it: the workshop as it was before a newer endband changed its form"},
    Named{"~/.local/state/endband/failure-*.txt",
          "reports of failures of endband itself; without names and figures of yours"},
};

class Page {
 public:
  void section(std::string_view title) { line(".SH " + std::string(title)); }
  void part(std::string_view title) { line(".SS " + std::string(title)); }
  void line(std::string_view text) { (text_ += text) += '\n'; }
  void text(std::string_view words) { line(prose(words)); }
  void paragraph(std::string_view words) {
    line(".PP");
    text(words);
  }
  void item(std::string const& tag, std::string_view words) {
    line(".TP");
    line(tag);
    line(prose(words));
  }
  void examples(std::span<std::string_view const> commands) {
    line(".PP");
    line(".EX");
    for (std::string_view const command : commands) line(roff("endband " + std::string(command), true));
    line(".EE");
  }
  void flag(Flag const& flag) {
    std::string tag = flag.letter == '\0' ? "" : bold(std::string("-") + flag.letter) + ", ";
    tag += bold(flag.name);
    if (flag.type != FlagType::on) tag += " " + slanted(placeholder(flag.type)) + (flag.many ? " ..." : "");
    item(tag, flag_help(flag));
  }
  std::string take() { return std::move(text_); }

 private:
  std::string text_;
};

std::string usage(Command const& command) {
  std::string line = bold(command_name(command));
  for (Word const& word : command.words) {
    std::string const name = slanted(word.name) + (word.many ? " ..." : "");
    line += " " + (word.needed ? name : "[" + name + "]");
  }
  return line + (command.flags.empty() ? "" : " [" + slanted("flags") + "]");
}

// What it takes of the flags of every command, and when it refuses.
std::string last_words(Command const& command) {
  std::string words;
  if (command.writes) words += "Takes --dry-run and --yes. ";
  if (command.lists) words += "Takes --jsonl. ";
  if (!command.refused_when.empty()) words += fmt::format("Exit status 1: {}.", command.refused_when);
  return words;
}

void add_command(Page& page, Command const& command) {
  page.line(".TP");
  page.line(usage(command));
  page.text(std::string(command.summary) + ".");
  if (!command.about.empty()) page.text(command.about);
  page.line(".RS");
  for (Word const& word : command.words) page.item(slanted(word.name), word.help);
  for (Flag const& flag : command.flags) page.flag(flag);
  page.examples(command.examples);
  if (std::string const words = last_words(command); !words.empty()) page.paragraph(words);
  page.line(".RE");
}

void add_commands(Page& page) {
  page.section("COMMANDS");
  page.line("Flags and words may stand in any order behind the noun and the verb.");
  for (Stage const& stage : stages()) {
    page.part(stage.title);
    for (Command const& command : commands())
      if (stage.nouns.find(command.noun) != std::string_view::npos) add_command(page, command);
  }
  page.part("The program itself");
  page.item(
      bold("help") + " [" + slanted("NOUN") + " [" + slanted("VERB") + "]]",
      "All commands, those of a noun, or one with its examples and flags; so does -h wherever it stands.");
  page.item(bold("help --man"), "This page, for man.");
  page.item(bold("completion") + " " + slanted("SHELL"),
            "A script with which bash, zsh or fish completes these commands, and the codes and numbers of "
            "the workshop.");
}

void add_head(Page& page) {
  page.line(fmt::format(".TH ENDBAND 1 {} \"endband {}\"", program_date, program_version));
  page.section("NAME");
  page.line("endband \\- cost, price and keep the making of books bound by hand");
  page.section("SYNOPSIS");
  page.line(bold("endband") + " " + slanted("noun verb") + " [" + slanted("word") + " ...] [" +
            slanted("flags") + "]");
  page.line(".br");
  page.line(bold("endband help") + " [" + slanted("noun") + " [" + slanted("verb") + "]]");
  page.line(".br");
  page.line(bold("endband --version"));
  page.section("DESCRIPTION");
  page.text(
      "A binder describes a book in a short text file. Endband works out what it is made of, what that uses "
      "up, how it is cut, how long it takes, what it costs and what to charge; keeps the quote; and, when "
      "the "
      "book is made, keeps what it really took.");
  page.paragraph("Everything is kept in one file, the workshop. The nouns are the parts of it:");
  page.line(".PD 0");
  for (NounRow const& row : noun_table())
    if (!row.own) page.item(bold(row.noun), row.about);
  page.line(".PD");
  page.paragraph(
      "Each command that writes is one transaction: all of it is kept, or nothing. Answers stand on standard "
      "output, faults on standard error. No command asks anything, and none uses a network.");
}

void add_tail(Page& page) {
  page.section("OPTIONS");
  page.line("On every command, before or after it:");
  for (Flag const& flag : global_flags()) page.flag(flag);
  page.section("EXIT STATUS");
  for (ExitRow const& row : exit_table()) page.item(bold(std::to_string(row.code)), row.words);
  page.section("ENVIRONMENT");
  for (Named const& row : environment_table) page.item(bold(row.name), row.words);
  page.section("FILES");
  for (Named const& row : file_table) page.item(slanted(row.name), row.words);
  page.section("EXAMPLES");
  page.line("From nothing to a quote, in an invented workshop:");
  constexpr std::array<std::string_view, 3> first{"workshop new --sample",
                                                  "book start raised-cords -o book.toml",
                                                  "quote make book.toml --customer otter-stage"};
  page.examples(first);
  page.paragraph("What is to buy, as lines of JSON for another program:");
  constexpr std::array<std::string_view, 1> second{"stock to-buy --json"};
  page.examples(second);
  page.section("SEE ALSO");
  page.line(bold("less") + "(1), " + bold("sqlite3") + "(1)");
  page.paragraph(
      "The keys of a description are in description.md, and the guide in README.md, both in the folder of "
      "documents of the package, such as /usr/share/doc/endband.");
}

}  // namespace

std::string man_page() {
  Page page;
  add_head(page);
  add_commands(page);
  add_tail(page);
  return page.take();
}

}  // namespace endband::cli
