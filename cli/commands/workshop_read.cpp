// The workshop: show its settings, check the whole of it, read its log.
#include "cli/commands/commands.h"
#include "cli/words/fault_words.h"
#include "db/cutting.h"
#include "db/settings.h"
#include "db/workshop.h"

#include <fmt/format.h>

#include <cstdint>
#include <map>

namespace endband::cli {
namespace {

struct WorkshopCard {
  std::string path;
  Currency currency;
  Date on;
  std::vector<db::Setting> settings;
};

bool is_set(WorkshopCard const& view, std::string_view name) {
  for (db::Setting const& setting : view.settings)
    if (setting.name == name) return true;
  return false;
}

bool in_family(std::string_view name, std::string_view row) {
  return row.ends_with(".*") ? name.starts_with(row.substr(0, row.size() - 1)) : name == row;
}

Json to_json(WorkshopCard const& view) {
  auto const setting_json = [](db::Setting const& setting) {
    return Json(Json::Object{
        {"name", setting.name}, {"value", setting.value}, {"valid_from", date_text(setting.valid_from)}});
  };
  auto const row_json = [&](db::SettingRow const& row) {
    return Json(Json::Object{{"name", row.name}, {"fallback", row.fallback}, {"help", row.help}});
  };
  return Json::Object{{"path", view.path},
                      {"currency", view.currency.code()},
                      {"on", date_text(view.on)},
                      {"settings", json_array(view.settings, setting_json)},
                      {"known", json_array(db::setting_table(), row_json)}};
}

Document to_document(WorkshopCard const& view) {
  Document document;
  document.heading(
      fmt::format("Workshop {}, in {}, on {}", view.path, view.currency.code(), date_text(view.on)));
  Table table{{{"Setting"}, {"Value"}, {"Since", Align::left, 1}, {"What it is"}}, {}};
  for (db::SettingRow const& row : db::setting_table()) {
    for (db::Setting const& setting : view.settings)
      if (in_family(setting.name, row.name))
        table.add({setting.name, setting.value, date_text(setting.valid_from), std::string(row.help)});
    if (!row.name.ends_with(".*") && !is_set(view, row.name))
      table.add({std::string(row.name), row.fallback.empty() ? "(not set)" : std::string(row.fallback), "",
                 std::string(row.help)});
  }
  document.add(std::move(table));
  document.next("endband workshop set NAME=VALUE");
  return document;
}

Read<Answer> run_show(Context& context, Args const&) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  return Answer(WorkshopCard{(*workshop)->path(), (*workshop)->currency(), context.on,
                             db::settings(**workshop, context.on)});
}

struct CheckReport {
  std::vector<Fault> faults;
};

Json to_json(CheckReport const& view) {
  auto const fault_json = [](Fault const& fault) {
    return Json(Json::Object{{"code", fault_row(fault.code).name},
                             {"message", sentence(fault)},
                             {"source", fault.where.source},
                             {"field", fault.where.field},
                             {"found", fault.found},
                             {"expected", fault.expected}});
  };
  return Json::Object{{"sound", view.faults.empty()}, {"faults", json_array(view.faults, fault_json)}};
}

Document to_document(CheckReport const& view) {
  Document document;
  if (view.faults.empty()) {
    document.paragraph(
        "All is well: the file is sound, every quote adds up and replays to its own numbers, every cost has "
        "one home.");
    return document;
  }
  for (Fault const& fault : view.faults)
    document.notice(NoticeKind::warning,
                    fmt::format("{} {}: {}", fault.where.source, fault.where.field, sentence(fault)));
  document.paragraph(
      fmt::format("{} problem{} found.", view.faults.size(), view.faults.size() == 1 ? "" : "s"));
  return document;
}

Read<Answer> run_check(Context& context, Args const&) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  CheckReport report{db::check_with_plans(**workshop)};
  int const exit = report.faults.empty() ? 0 : 1;
  return Answer(std::move(report)).ending_with(exit);
}

struct Log {
  std::vector<db::EntryInfo> entries;  // newest first
  std::map<std::int64_t, std::int64_t>
      undone;  // what an entry was taken back by: newer, and so in the log too
};

std::int64_t undone_by(Log const& view, db::EntryInfo const& entry) {
  auto const found = view.undone.find(entry.seq);
  return found == view.undone.end() ? 0 : found->second;
}

std::string standing_text(Log const& view, db::EntryInfo const& entry) {
  if (entry.undoes != 0) return fmt::format("takes back {}", entry.undoes);
  std::int64_t const by = undone_by(view, entry);
  return by == 0 ? "" : fmt::format("taken back by {}", by);
}

Json to_json(Log const& view) {
  auto const number = [](std::int64_t seq) { return seq == 0 ? Json() : Json(seq); };
  auto const entry_json = [&](db::EntryInfo const& entry) {
    return Json(Json::Object{{"seq", entry.seq},
                             {"at_utc", entry.at_utc},
                             {"on", date_text(entry.on)},
                             {"command", entry.command},
                             {"program", entry.program},
                             {"undoes", number(entry.undoes)},
                             {"undone_by", number(undone_by(view, entry))}});
  };
  return Json::Object{{"entries", json_array(view.entries, entry_json)}};
}

Document to_document(Log const& view) {
  Document document;
  Table table{{{"Entry", Align::right}, {"When (UTC)", Align::left, 2}, {"Day", Align::left, 3}, {"Command"}},
              {}};
  if (!view.undone.empty()) table.columns.push_back({"Stands"});
  for (db::EntryInfo const& entry : view.entries) {
    std::vector<std::string> cells{std::to_string(entry.seq), entry.at_utc, date_text(entry.on),
                                   entry.command};
    if (!view.undone.empty()) cells.push_back(standing_text(view, entry));
    table.add(std::move(cells));
  }
  document.add(std::move(table));
  return document;
}

Read<Answer> run_log(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  int const last = static_cast<int>(args.get<std::int64_t>("--last").value_or(20));
  Log log{db::log_entries(**workshop, last), {}};
  for (db::EntryInfo const& entry : log.entries)
    if (entry.undoes != 0) log.undone.emplace(entry.undoes, entry.seq);
  return Answer(std::move(log));
}

}  // namespace

Command workshop_show() {
  return {.noun = "workshop",
          .verb = "show",
          .summary = "Show the workshop's settings of the day",
          .about = "Every setting there is, with its value in force or what stands when it was never set.",
          .words = {},
          .flags = {},
          .examples = {"workshop show", "workshop show --on 2026-10-01 --json"},
          .refused_when = "",
          .writes = false,
          .lists = false,
          .run = run_show};
}

Command workshop_check() {
  return {
      .noun = "workshop",
      .verb = "check",
      .summary = "Check all that is stored",
      .about =
          "The file itself, the sums of every quote, its replay to the same numbers, one home for each cost.",
      .words = {},
      .flags = {},
      .examples = {"workshop check", "workshop check --json"},
      .refused_when = "a fault is found",
      .writes = false,
      .lists = false,
      .run = run_check};
}

Command workshop_log() {
  return {.noun = "workshop",
          .verb = "log",
          .summary = "Show what was written, newest first",
          .about = "What was taken back stays in it, beside what took it back.",
          .words = {},
          .flags = {{"--last", FlagType::whole, "so many; else 20"}},
          .examples = {"workshop log", "workshop log --last 5 --jsonl"},
          .refused_when = "",
          .writes = false,
          .lists = true,
          .run = run_log};
}

}  // namespace endband::cli
