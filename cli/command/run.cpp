#include "cli/command/run.h"

#include "cli/command/help.h"
#include "cli/command/words.h"
#include "cli/document/terminal.h"
#include "cli/version.h"
#include "cli/words/fault_words.h"
#include "engine/commission/commission.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace endband::cli {
namespace {

constexpr int exit_internal = 4;

std::optional<std::string> named_workshop(Globals const& globals, Surroundings const& around) {
  if (globals.workshop) return globals.workshop;
  if (around.workshop && !around.workshop->empty()) return around.workshop;
  return std::nullopt;
}

std::string usual_workshop(Surroundings const& around) {
  // A relative XDG path is to be ignored (XDG Base Directory Specification 0.8).
  if (around.data_home && around.data_home->starts_with('/'))
    return *around.data_home + "/endband/workshop.db";
  return around.home.value_or("") + "/.local/share/endband/workshop.db";
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
        case Line::Asks::version: return version(line->globals);
        case Line::Asks::run: return ran(*line);
      }
    } catch (db::StoreError const& error) {
      return refused({{error.code, {context_.workshop_path, 0, 0, ""}, error.what(), "", {}}});
    } catch (Overflow const&) {
      return refused({{FaultCode::too_large, {source(), 0, 0, ""}, "", "smaller numbers", {}}});
    } catch (std::exception const& error) {
      return {exit_internal, "",
              fmt::format("endband: a mistake in endband itself, nothing saved: {}\n", error.what()), false};
    }
    return {};
  }

 private:
  std::string source() const { return command_ == nullptr ? "" : command_name(*command_); }

  TerminalStyle out_style() const {
    return {around_.width, around_.out_is_terminal, around_.out_is_terminal && around_.colour};
  }

  Outcome shown(Document const& document, Json const& json, Globals const& globals) const {
    return {0, globals.json ? json_text(json, true) : to_terminal(document, out_style()), "", false};
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
    writes_ = command_->writes && (command_->writes_with.empty() || line.args.has(command_->writes_with));
    auto const answer = command_->run(context_, line.args);
    if (!answer) return refused(answer.error());
    Outcome result;
    result.saved = writes_ && !context_.dry_run;
    if (globals.jsonl)
      result.out = json_lines(answer->json());
    else if (globals.json)
      result.out = json_text(with_schema(schema_name(*command_), answer->json()), true);
    else
      result.out = to_terminal(answer->document(), out_style());
    result.exit = answer->exit();
    return result;
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
    bool const no_workshop = std::any_of(faults.begin(), faults.end(), [&](Fault const& fault) {
      return fault.code == FaultCode::file_missing && fault.where.source == context_.workshop_path;
    });
    if (no_workshop)
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

}  // namespace

Outcome run_line(std::vector<std::string> const& words, Surroundings const& surroundings) {
  return Runner(words, surroundings).outcome();
}

}  // namespace endband::cli
