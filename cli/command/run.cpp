#include "cli/command/run.h"

#include "cli/command/complete.h"
#include "cli/command/help.h"
#include "cli/command/man.h"
#include "cli/command/scan.h"
#include "cli/command/words.h"
#include "cli/completion/scripts.h"
#include "cli/document/terminal.h"
#include "cli/process/failure_report.h"
#include "cli/version.h"
#include "cli/words/fault_words.h"
#include "db/undo.h"
#include "engine/commission/commission.h"

#include <cxxabi.h>
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <typeinfo>
#include <utility>

namespace endband::cli {
namespace {

constexpr int exit_internal = 4;

std::optional<std::string> named_workshop(Globals const& globals, Surroundings const& around) {
  if (globals.workshop) return globals.workshop;
  if (around.workshop && !around.workshop->empty()) return around.workshop;
  return std::nullopt;
}

// A relative XDG path is to be ignored (XDG Base Directory Specification 0.8).
std::string folder_of_ours(std::optional<std::string> const& xdg, Surroundings const& around,
                           std::string_view usual) {
  bool const said = xdg && xdg->starts_with('/');
  return (said ? *xdg : around.home.value_or("") + std::string(usual)) + "/endband";
}

std::string usual_workshop(Surroundings const& around) {
  return folder_of_ours(around.data_home, around, "/.local/share") + "/workshop.db";
}

std::string kind_of(std::exception const& error) {
  int status = 0;
  char* const name = abi::__cxa_demangle(typeid(error).name(), nullptr, nullptr, &status);
  std::string const kind = name != nullptr ? name : typeid(error).name();
  std::free(name);
  return kind;
}

// The line as one could type it again, without the workshop's path, which is private to the machine.
std::string as_typed(std::vector<std::string> const& words) {
  std::vector<std::string> kept;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] == "--workshop")
      ++i;
    else if (!words[i].starts_with("--workshop="))
      kept.push_back(words[i]);
  }
  return join_words(kept);
}

// Some commands write only where a flag says so, and an export to "-" is only shown.
bool asks_to_write(Command const& command, Args const& args) {
  if (!command.writes || (!command.shows_with.empty() && args.has(command.shows_with))) return false;
  auto const says_so = [&](std::string_view flag) {
    return !flag.empty() && args.has(flag) && !(flag == "--output" && args.text(flag) == "-");
  };
  return command.writes_with.front().empty() || std::ranges::any_of(command.writes_with, says_so);
}

// The rows of a list: its document has one array of objects.
std::string json_lines(Json const& document) {
  std::string out;
  for (auto const& [key, value] : std::get<Json::Object>(document.value()))
    if (auto const* rows = std::get_if<Json::Array>(&value.value()))
      for (Json const& row : *rows)
        if (std::holds_alternative<Json::Object>(row.value())) out += json_text(row, false);
  return out;
}

Json with_schema(std::string schema, Json const& document) {
  Json::Object members{{"schema", std::move(schema)}};
  auto const& rest = std::get<Json::Object>(document.value());
  members.insert(members.end(), rest.begin(), rest.end());
  return members;
}

class Runner {
 public:
  Runner(std::vector<std::string> const& words, Surroundings const& around)
      : words_(words), around_(around) {}

  Outcome outcome() {
    try {
      auto line = parse_line(words_);
      if (!line) return refused(line.error());
      command_ = line->command;
      switch (line->asks) {
        case Line::Asks::nothing: return shown(short_help(), help_json({}, nullptr), line->globals);
        case Line::Asks::help: return help(*line);
        case Line::Asks::man: return plain_text("man", "page", man_page(), *line);
        case Line::Asks::completion:
          return plain_text("completion", "script", std::string(completion_script(line->shell)), *line);
        case Line::Asks::version: return version(line->globals);
        case Line::Asks::run: return ran(*line);
      }
    } catch (db::StoreError const& error) {
      return refused({{error.code, {context_.workshop_path, 0, 0, ""}, error.what(), "", {}}});
    } catch (Overflow const&) {
      return refused({{FaultCode::too_large, {source(), 0, 0, ""}, "", "smaller numbers", {}}});
    } catch (std::exception const& error) {
      return failed(error);
    }
    return {};
  }

 private:
  std::string source() const { return command_ == nullptr ? "" : command_name(*command_); }

  TerminalStyle out_style() const {
    bool const colour = around_.out_is_terminal && around_.colour && !has_switch(words_, "--no-color");
    return {around_.width, around_.out_is_terminal, colour};
  }

  // For another program to read, byte by byte.
  Outcome plain_text(std::string_view name, std::string_view key, std::string text, Line const& line) const {
    if (line.globals.json)
      text = json_text(Json::Object{{"schema", fmt::format("endband/{}/1", name)}, {std::string(key), text}},
                       true);
    return {0, std::move(text), "", false, false};
  }

  // Said in short, and kept where it can be passed on.
  Outcome failed(std::exception const& error) const {
    Failure failure{around_.now_utc, "", "", {}, kind_of(error), error.what()};
    if (command_ != nullptr) {
      failure.noun = command_->noun;
      failure.verb = command_->verb;
    }
    for (std::string const& word : words_)
      if (Flag const* const flag = looks_like_flag(word) ? known_flag(flag_name(word)) : nullptr;
          flag != nullptr)
        failure.flags.emplace_back(flag->name);
    auto const path = keep_report(folder_of_ours(around_.state_home, around_, "/.local/state"), failure);
    std::string text = fmt::format("endband: a mistake in endband itself, nothing saved: {}\n", error.what());
    if (path)
      text += fmt::format(
          "What is known of it is in {}, without names and figures of yours: please send it to whoever you "
          "have "
          "endband from, and say what you did.\n",
          *path);
    return {exit_internal, "", std::move(text), false, false};
  }

  Outcome shown(Document const& document, Json const& json, Globals const& globals) const {
    return {0, globals.json ? json_text(json, true) : to_terminal(document, out_style()), "", false,
            !globals.no_pager};
  }

  Outcome help(Line const& line) const {
    Document document;
    if (line.command != nullptr)
      document = command_help(*line.command);
    else if (!line.noun.empty())
      document = noun_help(line.noun);
    else
      document = overview();
    return shown(document, help_json(line.noun, line.command), line.globals);
  }

  Outcome version(Globals const& globals) const {
    Document document;
    document.add(Verbatim{fmt::format("endband {}\nworkshop schema {}\nengine rules {}\n", program_version,
                                      db::schema_version, engine_rules)});
    Json const json = Json::Object{{"schema", "endband/version/1"},
                                   {"name", "endband"},
                                   {"version", program_version},
                                   {"workshop_schema", db::schema_version},
                                   {"engine_rules", engine_rules}};
    return shown(document, json, globals);
  }

  Outcome ran(Line const& line) {
    Globals const& globals = line.globals;
    auto const named = named_workshop(globals, around_);
    context_.usual_place = !named;
    context_.workshop_path = named.value_or(usual_workshop(around_));
    context_.on = globals.on.value_or(around_.today);
    context_.at_utc = globals.at ? date_text(context_.on) + "T" + *globals.at + ":00Z" : around_.now_utc;
    context_.typed = as_typed(words_);
    context_.dry_run = globals.dry_run;
    context_.yes = globals.yes;
    writes_ = asks_to_write(*command_, line.args);
    auto const answer = command_->run(context_, line.args);
    if (!answer) return refused(answer.error());
    Outcome result;
    result.saved = writes_ && !context_.dry_run;
    result.may_page = !globals.no_pager;
    if (globals.jsonl)
      result.out = json_lines(answer->json());
    else if (globals.json)
      result.out = json_text(with_schema(schema_name(*command_), answer->json()), true);
    else
      result.out = to_terminal(for_a_person(answer->document(), result.saved), out_style());
    result.exit = answer->exit();
    return result;
  }

  // Whoever looks on is told how to take back what was written, where that can be.
  Document for_a_person(Document document, bool saved) {
    if (saved && around_.out_is_terminal && (command_->noun != "workshop" || command_->verb == "set"))
      if (auto const entry = entry_to_take_back())
        document.notice(NoticeKind::note,
                        fmt::format("To take this back: endband workshop undo {} --yes", *entry));
    return document;
  }

  // Tried and rolled back: some of what is written cannot be undone. What fails here is no failure of the
  // command.
  std::optional<std::int64_t> entry_to_take_back() try {
    auto const workshop = context_.workshop();
    if (!workshop) return std::nullopt;
    auto const last = db::last_standing(**workshop);
    db::EntryInfo info = context_.entry();
    if (!last || last->command != info.command || last->at_utc != info.at_utc) return std::nullopt;
    info.undoes = last->seq;
    db::Writing writing(**workshop, info);
    if (!db::undo(writing, last->seq)) return std::nullopt;
    return last->seq;
  } catch (std::exception const&) {
    return std::nullopt;
  }

  Outcome refused(std::vector<Fault> const& given) const {
    std::vector<Fault> faults = given;
    for (Fault& fault : faults)
      if (fault.where.source.empty()) fault.where.source = source();
    Outcome result;
    result.exit = exit_code(faults);
    if (asks_for_json(words_)) {
      result.err = json_text(faults_json(faults), true);
      return result;
    }
    FaultStyle const style{.saves_nothing = writes_, .person = around_.err_is_terminal};
    result.err = faults_text(
        faults, [this](std::string_view name) { return context_.source_text(name); }, style);
    auto const of_workshop = [&](FaultCode code) {
      return std::any_of(faults.begin(), faults.end(), [&](Fault const& fault) {
        return fault.code == code && fault.where.source == context_.workshop_path;
      });
    };
    if (of_workshop(FaultCode::not_a_workshop))
      result.err +=
          "If it was your workshop, its last backup can take its place: endband help workshop backup\n";
    if (of_workshop(FaultCode::file_missing))
      result.err +=
          "Make one with: endband workshop new --name \"Your bindery\" --currency EUR\n"
          "or try an invented one: endband workshop new --sample\n";
    return result;
  }

  std::vector<std::string> const& words_;
  Surroundings const& around_;
  Context context_;
  Command const* command_ = nullptr;
  bool writes_ = false;  // what was asked for would have written something
};

// `complete [--line] -- WORDS...`: of the shells' scripts, and so of no table.
std::optional<Outcome> completed(std::vector<std::string> const& words, Surroundings const& around) {
  if (words.empty() || words[0] != "complete") return std::nullopt;
  bool const is_line = words.size() == 4 && words[1] == "--line" && words[2] == "--";
  if (!is_line && (words.size() < 3 || words[1] != "--")) return Outcome{};
  std::vector<std::string> const typed =
      is_line ? typed_words(words[3]) : std::vector<std::string>(words.begin() + 2, words.end());
  std::string const usual = named_workshop({}, around).value_or(usual_workshop(around));
  return Outcome{0, completion_text(complete(typed, usual)), "", false, false};
}

}  // namespace

Outcome run_line(std::vector<std::string> const& words, Surroundings const& surroundings) {
  if (auto outcome = completed(words, surroundings)) return std::move(*outcome);
  return Runner(words, surroundings).outcome();
}

}  // namespace endband::cli
