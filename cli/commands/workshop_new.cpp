// Makes a workshop: an empty one with its step library, an invented one to try, or one that was written as
// text.
#include "cli/command/parse.h"
#include "cli/command/words.h"
#include "cli/commands/commands.h"
#include "cli/commands/shop_parts.h"
#include "cli/commands/workshop_text.h"
#include "cli/process/unfinished.h"
#include "cli/sample/sample.h"
#include "db/customers.h"
#include "db/files.h"
#include "db/materials.h"
#include "db/steps.h"
#include "db/workshop.h"

#include <fmt/format.h>
#include <unistd.h>

#include <filesystem>

namespace endband::cli {
namespace {

namespace fs = std::filesystem;

// The sample workshop's founding day: all that it starts with holds from then.
constexpr Date sample_since = std::chrono::sys_days{std::chrono::year{2026} / 1 / 5};
constexpr std::string_view sample_name = "Alder Lane Bindery";
constexpr std::string_view sample_currency = "EUR";

struct Founding {
  std::string name;
  Currency currency;
  bool sample = false;
  std::optional<std::string> from;  // a workshop's text, which says all the rest
};

struct Founded {
  std::string path;
  Founding founding;
  std::size_t steps = 0, materials = 0, customers = 0;
  std::int64_t rows = 0;  // read out of a text
  bool dry_run = false;
};

Json to_json(Founded const& view) {
  return Json::Object{{"dry_run", view.dry_run},
                      {"path", view.path},
                      {"name", view.founding.name},
                      {"currency", view.founding.currency.code()},
                      {"sample", view.founding.sample},
                      {"from", view.founding.from},
                      {"rows", view.founding.from ? Json(view.rows) : Json()},
                      {"steps", static_cast<std::int64_t>(view.steps)},
                      {"materials", static_cast<std::int64_t>(view.materials)},
                      {"customers", static_cast<std::int64_t>(view.customers)}};
}

Document to_document(Founded const& view) {
  Document document;
  document.paragraph(fmt::format("{} the workshop {} in {}: {}.{}", view.dry_run ? "Would make" : "Made",
                                 view.founding.name, view.founding.currency.code(), view.path,
                                 view.dry_run ? " Nothing is saved." : ""));
  document.paragraph(fmt::format("It has {} steps with times, {} materials and {} customers.{}", view.steps,
                                 view.materials, view.customers,
                                 view.founding.sample ? " Nobody and nothing in it exists." : ""));
  if (view.founding.from)
    document.paragraph(fmt::format("All {} rows of {} are in it, and it checks as sound.", view.rows,
                                   *view.founding.from == "-" ? standard_input : *view.founding.from));
  if (view.dry_run) return document;
  if (view.founding.from) return document.next("endband workshop show"), document;
  if (view.founding.sample) return document.next("endband book start raised-cords -o book.toml"), document;
  return document.next("endband workshop set year.pay=24000 year.hours=\"1100 h\""), document;
}

Read<Founding> founding_said(Args const& args) {
  Founding founding;
  std::vector<Fault> faults;
  bool const sample = args.has("--sample");
  founding.from = args.text("--from-text");
  if (founding.from) {
    for (std::string_view flag : {"--name", "--currency", "--sample"})
      if (args.has(flag))
        faults.push_back({FaultCode::bad_command,
                          args.where(flag),
                          std::string(flag),
                          "for a workshop from its text, which says it",
                          {}});
    if (!faults.empty()) return tl::unexpected(std::move(faults));
    return founding;
  }
  for (std::string_view flag : {"--name", "--currency"}) {
    if (sample && args.has(flag))
      faults.push_back({FaultCode::bad_command,
                        args.where(flag),
                        std::string(flag),
                        "for a sample, which has its own",
                        {}});
    if (!sample && !args.has(flag))
      faults.push_back({FaultCode::bad_command,
                        args.where(flag),
                        "",
                        flag == "--name" ? "the workshop's name" : "the currency it counts in, such as EUR",
                        {}});
  }
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  founding.sample = sample;
  founding.name = sample ? std::string(sample_name) : *args.text("--name");
  founding.currency = sample ? read_currency(sample_currency).value() : *args.get<Currency>("--currency");
  return founding;
}

// Runs a built-in file through the command table, as if each line were typed.
Read<bool> run_file(Context& context, CommandFile const& file) {
  auto const lines = split_commands(file.text, file.name);
  if (!lines) return tl::unexpected(lines.error());
  for (CommandLine const& line : *lines) {
    auto const parsed = parse_line(line.words);
    if (!parsed) return tl::unexpected(parsed.error());
    if (parsed->asks != Line::Asks::run) throw std::logic_error("a built-in line that asks for no command");
    context.typed = join_words(line.words);
    auto const answer = parsed->command->run(context, parsed->args);
    if (!answer) return tl::unexpected(answer.error());
  }
  return true;
}

// The store works in a temporary file of its own, until the file has our name.
Read<db::Workshop> create(std::string const& path, Founding const& founding, std::string const& at_utc,
                          Date day) {
  SignalsWait const wait;
  return db::Workshop::create(path, founding.currency, founding.name, at_utc, day);
}

Founded founded(Context const& context, Founding founding, db::Workshop& workshop, Date shown) {
  return Founded{.path = context.workshop_path,
                 .founding = std::move(founding),
                 .steps = db::load_steps(workshop, shown).steps.size(),
                 .materials = db::list_materials(workshop, shown, std::nullopt).size(),
                 .customers = db::list_customers(workshop).size(),
                 .dry_run = context.dry_run};
}

Read<Founded> read_back(Context& context, Founding founding, std::string const& path) {
  auto text = TextLines::open(*founding.from, "a workshop's text, as endband workshop export writes it");
  if (!text) return tl::unexpected(std::move(text.error()));
  auto read = read_workshop(*text, path);
  if (!read) return tl::unexpected(std::move(read.error()));
  founding.name = setting_in_force(read->workshop, "maker.name", context.on);
  founding.currency = read->workshop.currency();
  Founded view = founded(context, std::move(founding), read->workshop, context.on);
  view.rows = read->rows;
  return view;
}

Read<Founded> found(Context& context, Founding const& founding, std::string const& path) {
  if (founding.from) return read_back(context, founding, path);
  Date const day = founding.sample ? sample_since : context.on;
  Context inner;
  inner.on = day;
  inner.at_utc = context.at_utc;
  auto workshop = create(path, founding, context.at_utc, day);
  if (!workshop) return tl::unexpected(std::move(workshop.error()));
  inner.hold(std::move(*workshop));
  if (auto const ran = run_file(inner, starter_steps()); !ran) return tl::unexpected(ran.error());
  if (founding.sample)
    if (auto const ran = run_file(inner, sample_workshop()); !ran) return tl::unexpected(ran.error());
  auto const open = inner.workshop();
  return founded(context, founding, **open, std::max(context.on, day));
}

// The usual place is ours to make; a folder that was named has to be there.
Read<bool> make_usual_folder(Context const& context) {
  if (!context.usual_place) return true;
  fs::path const folder = fs::path(context.workshop_path).parent_path();
  std::error_code error;
  if (fs::create_directories(folder, error)) fs::permissions(folder, fs::perms::owner_all, error);
  if (error) return refuse({FaultCode::file_unusable, {folder.string(), 0, 0, ""}, error.message(), "", {}});
  return true;
}

std::string trial_path(Context const& context) {
  std::string const unique = fmt::format(".unfinished-{}", getpid());
  if (context.dry_run) return (fs::temp_directory_path() / ("endband" + unique)).string();
  return context.workshop_path + unique;
}

Read<Answer> run(Context& context, Args const& args) {
  auto const founding = founding_said(args);
  if (!founding) return tl::unexpected(founding.error());
  std::string const& path = context.workshop_path;
  if (std::error_code error; fs::exists(path, error))
    return refuse(
        {FaultCode::already_exists, {path, 0, 0, ""}, path, "another name, by --workshop FILE", {}});
  if (auto left = db::left_beside(path)) return refuse(*std::move(left));
  if (!context.dry_run)
    if (auto const made = make_usual_folder(context); !made) return tl::unexpected(made.error());
  Unfinished file(trial_path(context));
  auto founded = found(context, *founding, file.path());
  if (!founded) return tl::unexpected(founded.error());
  if (!context.dry_run) {
    db::move_into_place(file.path(), path);
    file.done();
  }
  return Answer(std::move(*founded));
}

}  // namespace

Command workshop_new() {
  return {
      .noun = "workshop",
      .verb = "new",
      .summary = "Make a workshop: the file in which all is kept",
      .about =
          "A new workshop knows how long each step takes by common practice. --sample fills it with invented "
          "materials, prices, customers and settings to try things on. --from-text makes anew the workshop "
          "that "
          "endband "
          "workshop export wrote, with all its past: all of it, or nothing.",
      .words = {},
      .flags = {{"--name", FlagType::words, "as it stands on a quote"},
                {"--currency", FlagType::currency, "the one it counts in, for ever: EUR"},
                {"--sample", FlagType::on, "an invented workshop; brings its own name and currency"},
                {"--from-text", FlagType::file, "the text of a workshop; - for standard input"}},
      .examples = {"workshop new --sample --workshop sample.db",
                   "workshop new --name \"My Bindery\" --currency EUR --workshop mine.db --dry-run"},
      .refused_when =
          "the file is there already, or the -wal of one that is gone; or the text of a workshop does not "
          "check as sound",
      .writes = true,
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
