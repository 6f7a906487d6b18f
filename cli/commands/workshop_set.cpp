// Sets named values of the workshop, from a day on.
#include "cli/commands/changed.h"
#include "cli/commands/commands.h"
#include "db/settings.h"

namespace endband::cli {
namespace {

Fields fields_of(std::vector<db::Setting> const& settings) {
  Fields fields;
  for (db::Setting const& setting : settings) fields.emplace_back(setting.name, setting.value);
  return fields;
}

Read<std::vector<db::Setting>> settings_said(db::Workshop& workshop, Args const& args, Date from) {
  std::vector<db::Setting> settings;
  std::vector<Fault> faults;
  for (std::size_t i = 0; i < args.word_count(); ++i) {
    std::string const& word = args.word(i);
    std::size_t const equals = word.find('=');
    if (equals == std::string::npos) {
      faults.push_back({FaultCode::bad_command,
                        args.where("NAME=VALUE"),
                        word,
                        "a setting and its value, such as goal.margin=\"35 %\"",
                        {}});
      continue;
    }
    auto setting = db::check_setting(workshop, word.substr(0, equals), word.substr(equals + 1));
    if (!setting) {
      faults.insert(faults.end(), setting.error().begin(), setting.error().end());
      continue;
    }
    setting->valid_from = from;
    settings.push_back(std::move(*setting));
  }
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return settings;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  Date const from = args.get<Date>("--from").value_or(context.on);
  auto const said = settings_said(**workshop, args, from);
  if (!said) return tl::unexpected(said.error());
  Changed view{.deed = Deed::set,
               .noun = "workshop",
               .code = "",
               .changes = changes_between(fields_of(db::settings(**workshop, from)), fields_of(*said)),
               .from = from,
               .dry_run = context.dry_run,
               .next = "endband workshop show"};
  if (view.changes.empty()) return Answer(std::move(view));
  auto const done = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<bool> {
    for (db::Setting const& setting : *said) db::set(writing, setting);
    return true;
  });
  if (!done) return tl::unexpected(done.error());
  return Answer(std::move(view));
}

}  // namespace

Command workshop_set() {
  return {.noun = "workshop",
          .verb = "set",
          .summary = "Set how the workshop counts: its year, prices, tax, habits",
          .about =
              "`endband workshop show` lists the names. Quotes that are made keep what was in force. "
              "default.KEY=VALUE is the value of a description's key when nobody says it.",
          .words = {{.name = "NAME=VALUE",
                     .type = FlagType::setting,
                     .help = "a setting and its value",
                     .needed = true,
                     .many = true}},
          .flags = {{"--from", FlagType::date, "in force from this day; else from today"}},
          .examples = {"workshop set goal.margin=\"35 %\" least.charge=60",
                       "workshop set overhead.rent=4200 --from 2027-01-01 --dry-run"},
          .refused_when = "",
          .writes = true,
          .lists = false,
          .run = run};
}

}  // namespace endband::cli
