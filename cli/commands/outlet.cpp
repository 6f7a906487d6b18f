// Places where books are sold: add, change, list, show.
#include "cli/commands/changed.h"
#include "cli/commands/commands.h"
#include "cli/commands/outlet_seen.h"
#include "cli/commands/text_read.h"
#include "cli/words/selling_words.h"
#include "cli/words/values.h"
#include "db/outlets.h"
#include "engine/pricing/terms_text.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

Fields fields_of(Outlet const& outlet) {
  Fields fields{
      {"name", outlet.name},
      {"kind", std::string(outlet_kind_name(outlet.kind))},
      {"currency", std::string(outlet.currency.code())},
      {"discount", outlet.discount > Ratio(0) ? percent(outlet.discount) : ""},
      {"tax", outlet.tax_mode ? std::string(tax_mode_name(*outlet.tax_mode)) : ""},
      {"tax-rate", outlet.tax_rate ? percent(*outlet.tax_rate) : ""},
      {"tax-collected", outlet.collects_tax ? "by the place" : ""},
      {"cash-step", outlet.cash_step > 1 ? money_text({outlet.cash_step, outlet.currency}) : ""},
      {"price-step",
       outlet.points && outlet.points->step > 1 ? money_text({outlet.points->step, outlet.currency}) : ""},
      {"price-below",
       outlet.points && outlet.points->below > 0 ? money_text({outlet.points->below, outlet.currency}) : ""},
      {"paid-after", outlet.paid_after_days > 0 ? fmt::format("{} days", outlet.paid_after_days) : ""},
      {"days-to-sell", outlet.days_to_sell > 0 ? std::to_string(outlet.days_to_sell) : ""}};
  for (Fee const& fee : outlet.fees) fields.emplace_back("fee " + fee.name, fee_words(fee));
  std::vector<std::string> const returns = return_words(outlet.returns);
  for (std::size_t i = 0; i < returns.size(); ++i)
    fields.emplace_back(fmt::format("returns {}", i + 1), returns[i]);
  return fields;
}

Read<Answer> run_add(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto const code = text_code(args);
  if (!code) return tl::unexpected(code.error());
  Date const from = args.get<Date>("--from").value_or(context.on);
  if (db::text_in_force(**workshop, db::TextOf::outlet, *code, from))
    return refuse({FaultCode::rule_refused,
                   args.where("CODE"),
                   *code,
                   "a code that is free; endband outlet change " + *code + " FILE says its terms anew",
                   {}});
  auto said = outlet_said(context, **workshop, *code, args.word(1));
  if (!said) return tl::unexpected(std::move(said.error()));
  Changed view{.deed = Deed::added,
               .noun = "outlet",
               .code = *code,
               .changes = all_changes_between({}, fields_of(said->outlet)),
               .from = from,
               .dry_run = context.dry_run,
               .next = "endband listing price book.toml --through " + *code};
  auto const done = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<bool> {
    db::set_text(writing, db::TextOf::outlet, *code, said->text, from);
    return true;
  });
  if (!done) return tl::unexpected(done.error());
  return Answer(std::move(view));
}

Read<Answer> run_change(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  Date const from = args.get<Date>("--from").value_or(context.on);
  std::string const& code = args.word(0);
  auto const before = located(db::outlet_terms(**workshop, code, from), args.where("CODE"));
  if (!before) return tl::unexpected(before.error());
  bool const gone = args.has("--gone");
  if (gone == (args.word_count() > 1))
    return refuse({FaultCode::bad_command,
                   args.where("FILE"),
                   gone ? "a file and --gone" : "",
                   "a file with its terms, or --gone",
                   {}});
  Changed view{.deed = Deed::changed,
               .noun = "outlet",
               .code = code,
               .changes = {},
               .from = from,
               .dry_run = context.dry_run,
               .next = "endband outlet show " + code};
  std::string text;
  if (gone) {
    view.changes.push_back({"gone", std::nullopt, "yes"});
  } else {
    auto said = outlet_said(context, **workshop, code, args.word(1));
    if (!said) return tl::unexpected(std::move(said.error()));
    view.changes = all_changes_between(fields_of(before->outlet), fields_of(said->outlet));
    text = std::move(said->text);
  }
  if (view.changes.empty()) return Answer(std::move(view));
  auto const done = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<bool> {
    db::set_text(writing, db::TextOf::outlet, code, text, from);
    return true;
  });
  if (!done) return tl::unexpected(done.error());
  return Answer(std::move(view));
}

std::vector<OutletRow> outlets_in_force(db::Workshop& workshop, Date on) {
  std::vector<OutletRow> rows;
  for (db::OutletInForce& each : db::all_outlet_terms(workshop, on))
    rows.push_back({std::move(each.outlet), each.since});
  return rows;
}

Read<Answer> run_list(Context& context, Args const&) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  return Answer(OutletList{outlets_in_force(**workshop, context.on)});
}

Read<Answer> run_show(Context& context, Args const& args) {
  if (args.has("--example")) return Answer(OutletExample{std::string(outlet_example())});
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  if (args.word_count() == 0)
    return refuse({FaultCode::bad_command, args.where("CODE"), "", "an outlet's code, or --example", {}});
  auto terms = located(db::outlet_terms(**workshop, args.word(0), context.on), args.where("CODE"));
  if (!terms) return tl::unexpected(std::move(terms.error()));
  OutletCard view;
  view.text = db::text_in_force(**workshop, db::TextOf::outlet, args.word(0), context.on).value().text;
  view.own_text = args.has("--text");
  view.shop = (*workshop)->currency();
  view.row = {std::move(terms->outlet), terms->since};
  if (auto const exchange = db::exchange_in_force(**workshop, view.row.outlet.currency, context.on))
    view.exchange = exchange->exchange;
  return Answer(std::move(view));
}

constexpr Word code_word{"CODE", FlagType::outlet, "the outlet's code, such as ink-fair"};
constexpr Word new_code{"CODE", FlagType::code, code_word.help};

}  // namespace

Command outlet_add() {
  return {.noun = "outlet",
          .verb = "add",
          .summary = "Add a place where books are sold, with what it takes",
          .about =
              "Its terms stand in a text file; endband outlet show --example prints one to start from. All "
              "rates are yours to enter: endband knows none.",
          .words = {new_code, {"FILE", FlagType::file, "its terms, or - for standard input"}},
          .flags = {{"--from", FlagType::date, "in force from this day; else from today"}},
          .examples = {"outlet add ink-fair fair.toml",
                       "outlet add sea-fair fair.toml --from 2027-01-01 --dry-run"},
          .refused_when = "the code is taken",
          .writes = true,
          .lists = false,
          .run = run_add};
}

Command outlet_change() {
  return {
      .noun = "outlet",
      .verb = "change",
      .summary = "Say the terms of an outlet anew, from a day on",
      .about = "Quotes that are made keep the terms they were made under.",
      .words = {code_word, {"FILE", FlagType::file, "its terms, or - for standard input", false}},
      .flags = {{"--gone", FlagType::on, "nothing is sold there any more"},
                {"--from", FlagType::date, "in force from this day; else from today"}},
      .examples = {"outlet change post fair.toml --dry-run", "outlet change post --gone --from 2027-01-01"},
      .refused_when = "",
      .writes = true,
      .lists = false,
      .run = run_change};
}

Command outlet_list() {
  return {.noun = "outlet",
          .verb = "list",
          .summary = "List the places where books are sold",
          .about = "",
          .words = {},
          .flags = {},
          .examples = {"outlet list", "outlet list --jsonl"},
          .refused_when = "",
          .writes = false,
          .lists = true,
          .run = run_list};
}

Command outlet_show() {
  return {.noun = "outlet",
          .verb = "show",
          .summary = "Show the terms of an outlet",
          .about = "",
          .words = {{"CODE", FlagType::outlet, "the outlet's code", false}},
          .flags = {{"--text", FlagType::on, "as its owner wrote it, to change and hand back"},
                    {"--example", FlagType::on, "a text to start from"}},
          .examples = {"outlet show post", "outlet show --example"},
          .refused_when = "",
          .writes = false,
          .lists = false,
          .run = run_show};
}

}  // namespace endband::cli
