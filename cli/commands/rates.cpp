// The workshop's own dated tables: tax classes, exchange, carriage.
#include "cli/commands/changed.h"
#include "cli/commands/commands.h"
#include "cli/commands/text_read.h"
#include "cli/words/selling_words.h"
#include "cli/words/values.h"
#include "db/outlets.h"
#include "db/settings.h"
#include "engine/pricing/terms_text.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

std::string setting_on(db::Workshop& workshop, std::string_view name, Date on) {
  for (db::Setting const& setting : db::settings(workshop, on))
    if (setting.name == name) return setting.value;
  return "";
}

// Settings by another name: what is checked and how it is kept is theirs.
Read<Answer> set_rates(Context& context, Args const& args, std::string noun, std::string code,
                       std::vector<std::pair<std::string, std::string>> const& values) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  Date const from = args.get<Date>("--from").value_or(context.on);
  Changed view{.deed = Deed::set,
               .noun = std::move(noun),
               .code = std::move(code),
               .changes = {},
               .from = from,
               .dry_run = context.dry_run,
               .next = "endband rates list"};
  std::vector<db::Setting> settings;
  for (auto const& [name, value] : values) {
    auto setting = db::check_setting(**workshop, name, value);
    if (!setting) return tl::unexpected(located(setting, args.where(name)).error());
    setting->valid_from = from;
    auto changes = changes_between({{name, setting_on(**workshop, name, from)}}, {{name, setting->value}});
    view.changes.insert(view.changes.end(), changes.begin(), changes.end());
    settings.push_back(std::move(*setting));
  }
  if (view.changes.empty()) return Answer(std::move(view));
  auto const done = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<bool> {
    for (db::Setting const& setting : settings) db::set(writing, setting);
    return true;
  });
  if (!done) return tl::unexpected(done.error());
  return Answer(std::move(view));
}

Read<Answer> run_tax(Context& context, Args const& args) {
  auto const code = text_code(args);
  if (!code) return tl::unexpected(code.error());
  return set_rates(context, args, "tax class", *code, {{"tax-rate." + *code, percent(args.word<Ratio>(1))}});
}

Read<Answer> run_exchange(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  Currency const currency = args.word<Currency>(0);
  if (currency == (*workshop)->currency())
    return refuse({FaultCode::rule_refused,
                   args.where("CURRENCY"),
                   std::string(currency.code()),
                   "a currency other than the workshop's",
                   {}});
  Ratio const rate = args.word<Ratio>(1);
  if (rate <= Ratio(0))
    return refuse({FaultCode::out_of_range,
                   args.where("RATE"),
                   number(rate),
                   fmt::format("{} for one {}, more than 0", (*workshop)->currency().code(), currency.code()),
                   {}});
  std::string code(currency.code());
  for (char& letter : code) letter = static_cast<char>(letter - 'A' + 'a');
  std::vector<std::pair<std::string, std::string>> values{{"exchange." + code, ratio_text(rate)}};
  if (auto const spread = args.get<Ratio>("--taken"))
    values.emplace_back("exchange-spread." + code, percent(*spread));
  return set_rates(context, args, "exchange", std::string(currency.code()), values);
}

Fields fields_of(CarriageService const& service) {
  Fields fields{{"name", service.name},
                {"divisor", service.divisor == Ratio(0) ? "" : number(service.divisor) + " cm3 a kilogram"},
                {"sides", service.divisor == Ratio(0) ? "" : std::string(side_rounding_name(service.sides))},
                {"mass-step", service.step.n == 0 ? "" : mass_words(service.step)},
                {"longest", service.longest ? millimetres(*service.longest) : ""},
                {"cover", service.cover.minor == 0 ? "" : money_text(service.cover)},
                {"excess", service.excess.minor == 0 ? "" : money_text(service.excess)}};
  for (CarriageZone const& zone : service.zones)
    for (CarriageBand const& band : zone.bands)
      fields.emplace_back(fmt::format("{}, up to {}", zone_words(zone), mass_words(band.up_to)),
                          money_text(band.price));
  for (InsuranceBand const& band : service.insurance)
    fields.emplace_back("insured up to " + money_text(band.up_to), money_text(band.price));
  return fields;
}

Read<Answer> run_carriage(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto const code = text_code(args);
  if (!code) return tl::unexpected(code.error());
  Date const from = args.get<Date>("--from").value_or(context.on);
  auto const before = db::text_in_force(**workshop, db::TextOf::carriage, *code, from);
  bool const gone = args.has("--gone");
  if (gone == (args.word_count() > 1) || (gone && !before))
    return refuse({FaultCode::bad_command,
                   args.where("FILE"),
                   "",
                   "a file with its table, or --gone for one that is there",
                   {}});
  Fields then, now;
  std::string text;
  if (before) then = fields_of(read_carriage(before->text, *code, *code, (*workshop)->currency()).value());
  if (!gone) {
    auto said = carriage_said(context, **workshop, *code, args.word(1));
    if (!said) return tl::unexpected(std::move(said.error()));
    now = fields_of(said->service);
    text = std::move(said->text);
  }
  Changed view{.deed = before ? Deed::changed : Deed::added,
               .noun = "carriage",
               .code = *code,
               .changes = all_changes_between(then, std::move(now)),
               .from = from,
               .dry_run = context.dry_run,
               .next = "endband rates list"};
  if (view.changes.empty()) return Answer(std::move(view));
  auto const done = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<bool> {
    db::set_text(writing, db::TextOf::carriage, *code, text, from);
    return true;
  });
  if (!done) return tl::unexpected(done.error());
  return Answer(std::move(view));
}

struct Rate {
  std::string kind, name, value;
  Date since;
};
struct RateList {
  std::vector<Rate> rates;
  std::string example;  // --example: a carriage table to start from
};

Json rate_json(Rate const& rate) {
  return Json::Object{
      {"kind", rate.kind}, {"name", rate.name}, {"value", rate.value}, {"since", date_text(rate.since)}};
}
Json to_json(RateList const& view) { return Json::Object{{"rates", json_array(view.rates, rate_json)}}; }

Document to_document(RateList const& view) {
  Document document;
  if (!view.example.empty()) return document.add(Verbatim{view.example});
  if (view.rates.empty())
    return document.paragraph("No rates yet. All of them are yours to enter.").next("endband help rates");
  Table table{{{"Rate"}, {"Of"}, {"Is"}, {"Since", Align::left, 1}}, {}};
  for (Rate const& rate : view.rates) table.add({rate.kind, rate.name, rate.value, date_text(rate.since)});
  document.add(std::move(table));
  return document.paragraph("Computed with the rates given; no tax advice.");
}

std::string bands_words(CarriageService const& service) {
  std::size_t bands = 0;
  for (CarriageZone const& zone : service.zones) bands += zone.bands.size();
  return fmt::format("{}: {} prices in {} zones", service.name, bands, service.zones.size());
}

Read<Answer> run_list(Context& context, Args const& args) {
  if (args.has("--example")) return Answer(RateList{{}, std::string(carriage_example())});
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  RateList view;
  for (db::Setting const& setting : db::settings(**workshop, context.on)) {
    auto const family = [&](std::string_view name, std::string kind) {
      if (!setting.name.starts_with(name)) return;
      view.rates.push_back(
          {std::move(kind), setting.name.substr(name.size()), setting.value, setting.valid_from});
    };
    if (setting.name == "tax.rate")
      view.rates.push_back({"tax", "goods at large", setting.value, setting.valid_from});
    family("tax-rate.", "tax");
    family("tax-class.", "tax class");
    family("exchange.", "exchange");
    family("exchange-spread.", "exchange spread");
  }
  for (db::TextVersion const& version : db::texts_in_force(**workshop, db::TextOf::carriage, context.on))
    view.rates.push_back(
        {"carriage", version.code,
         bands_words(
             read_carriage(version.text, version.code, version.code, (*workshop)->currency()).value()),
         version.valid_from});
  return Answer(std::move(view));
}

}  // namespace

Command rates_tax() {
  return {.noun = "rates",
          .verb = "tax",
          .summary = "Set the rate of a tax class, from a day on",
          .about =
              "workshop set tax-class.box=CLASS says which component of a quote, or carriage, is of a class; "
              "all else bears tax.rate. Computed with the rates given; no tax advice.",
          .words = {{"CLASS", FlagType::tax_class, "a name of yours, such as reduced"},
                    {"RATE", FlagType::share, "its rate"}},
          .flags = {{"--from", FlagType::date, "in force from this day; else from today"}},
          .examples = {"rates tax reduced \"7 %\"", "rates tax reduced \"9 %\" --from 2027-01-01 --dry-run"},
          .refused_when = "",
          .writes = true,
          .lists = false,
          .run = run_tax};
}

Command rates_exchange() {
  return {.noun = "rates",
          .verb = "exchange",
          .summary = "Set what a unit of another currency is worth, from a day on",
          .about = "",
          .words = {{"CURRENCY", FlagType::currency, "three letters, such as USD"},
                    {"RATE", FlagType::number, "of the workshop's money for one of it"}},
          .flags = {{"--taken", FlagType::share, "what changing it takes"},
                    {"--from", FlagType::date, "in force from this day; else from today"}},
          .examples = {"rates exchange USD 0.92 --taken \"2 %\"",
                       "rates exchange CHF 1.05 --from 2027-01-01 --dry-run"},
          .refused_when = "it is the workshop's own currency",
          .writes = true,
          .lists = false,
          .run = run_exchange};
}

Command rates_carriage() {
  return {
      .noun = "rates",
      .verb = "carriage",
      .summary = "Set what a carriage service takes, from a day on",
      .about = "endband rates list --example prints a table to start from.",
      .words = {{"CODE", FlagType::service, "the service's code, such as parcel-post"},
                {"FILE", FlagType::file, "its table, or - for standard input", false}},
      .flags = {{"--gone", FlagType::on, "it is not used any more"},
                {"--from", FlagType::date, "in force from this day; else from today"}},
      .examples = {"rates carriage parcel carriage.toml", "rates carriage parcel carriage.toml --dry-run"},
      .refused_when = "",
      .writes = true,
      .lists = false,
      .run = run_carriage};
}

Command rates_list() {
  return {.noun = "rates",
          .verb = "list",
          .summary = "List tax, exchange and carriage in force",
          .about = "",
          .words = {},
          .flags = {{"--example", FlagType::on, "a carriage table to start from"}},
          .examples = {"rates list", "rates list --jsonl"},
          .refused_when = "",
          .writes = false,
          .lists = true,
          .run = run_list};
}

}  // namespace endband::cli
