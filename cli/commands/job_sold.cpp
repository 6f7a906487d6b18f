// What the sale of a job's book really took, once the bills of it are there.
#include "cli/commands/commands.h"
#include "cli/commands/job_seen.h"
#include "cli/commands/money_said.h"
#include "cli/words/values.h"
#include "db/past.h"

#include <fmt/format.h>

#include <array>
#include <string_view>

namespace endband::cli {
namespace {

struct KindRow {
  db::SaleKind kind;
  std::string_view flag, words, help;
};
constexpr std::array kinds{
    KindRow{db::SaleKind::fees, "--fees", "Fees", "what the outlet took of it"},
    KindRow{db::SaleKind::carriage, "--carriage", "Carriage", "what sending it cost, without tax"},
    KindRow{db::SaleKind::exchange, "--exchange", "Exchange", "what changing the money took"},
    KindRow{db::SaleKind::returned, "--returned", "Coming back", "what its coming back cost"},
    KindRow{db::SaleKind::tax, "--tax-paid", "Tax", "the tax that was paid over"},
};

struct Told {
  db::SaleKind kind;
  Money amount;
};
struct Sold {
  db::JobHeader job;
  SaleTaken sale;  // after it
  std::vector<Told> told;
  bool dry_run = false;
};

std::optional<Money> told_of(SaleTaken const& sale, db::SaleKind kind) {
  switch (kind) {
    case db::SaleKind::fees: return sale.fees;
    case db::SaleKind::carriage: return sale.carriage;
    case db::SaleKind::exchange: return sale.exchange;
    case db::SaleKind::returned: return sale.returned;
    case db::SaleKind::tax: return sale.tax;
  }
  return std::nullopt;
}

Json to_json(Sold const& view) {
  Json::Object sale;
  for (KindRow const& row : kinds)
    sale.emplace_back(std::string(db::sale_kind_name(row.kind)), money_json(told_of(view.sale, row.kind)));
  return Json::Object{{"dry_run", view.dry_run}, {"job", job_json(view.job)}, {"sale", std::move(sale)}};
}

Document to_document(Sold const& view) {
  Document document;
  document.heading(job_title(view.job));
  Table table{{{"What the sale took"}, {std::string(view.job.price.currency.code()), Align::decimal}}, {}};
  for (KindRow const& row : kinds)
    if (auto const told = told_of(view.sale, row.kind))
      table.add({std::string(row.words), money_text(*told)});
  document.add(std::move(table));
  document.paragraph(std::string("What is not told counts as it was quoted.") +
                     (view.dry_run ? " Nothing is saved." : ""));
  if (!view.dry_run) document.next("endband margins show " + view.job.number);
  return document;
}

Read<std::vector<Told>> told_by(Args const& args, Currency currency) {
  std::vector<Told> told;
  std::vector<Fault> faults;
  for (KindRow const& row : kinds) {
    auto const text = args.text(row.flag);
    if (!text) continue;
    auto const money = read_workshop_money(*text, currency, args.where(std::string(row.flag)));
    if (!money)
      faults.insert(faults.end(), money.error().begin(), money.error().end());
    else
      told.push_back(Told{row.kind, args.has("--less") ? -*money : *money});
  }
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  if (told.empty())
    return refuse({FaultCode::bad_command,
                   args.where("--fees"),
                   "",
                   "what the sale took: --fees, --carriage, --exchange, --returned or --tax-paid",
                   {}});
  return told;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto told = told_by(args, (*workshop)->currency());
  if (!told) return tl::unexpected(std::move(told.error()));
  auto view = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<Sold> {
    auto const job = job_meant(writing.workshop(), args);
    if (!job) return tl::unexpected(job.error());
    for (Told const& each : *told)
      if (auto const done = db::add_sale(writing, *job, each.kind, each.amount, context.on,
                                         args.text("--words").value_or(""));
          !done)
        return tl::unexpected(done.error());
    return Sold{*job, db::load_sale(writing.workshop(), *job), std::move(*told), context.dry_run};
  });
  if (!view) return tl::unexpected(std::move(view.error()));
  return Answer(std::move(*view));
}

}  // namespace

Command job_sold() {
  std::vector<Flag> flags;
  for (KindRow const& row : kinds) flags.push_back({row.flag, FlagType::money, row.help});
  flags.push_back({"--less", FlagType::on, "so much was told too much: take it off again"});
  flags.push_back({"--words", FlagType::words, "what else is to be kept of it"});
  return {
      .noun = "job",
      .verb = "sold",
      .summary = "Tell what the sale of a job's book really took",
      .about =
          "The fees, the parcel and the tax as their bills say; several of one kind add up. What is not told "
          "counts as it was quoted. A job that is finished takes it too.",
      .words = {job_word},
      .flags = std::move(flags),
      .examples = {"job sold 26-001 --fees 41.20 --carriage 9.80",
                   "job sold 26-001 --fees 1.50 --less --dry-run"},
      .refused_when = "the job was called off, or more is taken off than was told",
      .writes = true,
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
