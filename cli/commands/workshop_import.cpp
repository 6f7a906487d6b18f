// Past commissions out of a notebook, so that a workshop need not begin without a past.
#include "cli/commands/commands.h"
#include "cli/commands/job_seen.h"
#include "cli/commands/past_made.h"
#include "cli/commands/quote_json.h"
#include "cli/words/values.h"
#include "db/past.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

struct Imported {
  std::vector<PastKept> kept;
  std::vector<PastCustomer> customers;
  bool dry_run = false;
};

struct PastExample {
  std::string text;
};
Json to_json(PastExample const& view) {
  return Json::Object{
      {"dry_run", true}, {"customers", Json::Array{}}, {"commissions", Json::Array{}}, {"text", view.text}};
}
Document to_document(PastExample const& view) { return Document().add(Verbatim{view.text}); }

Json kept_json(PastKept const& kept) {
  return Json::Object{{"quote", header_json(kept.quote)}, {"job", kept.job ? job_json(*kept.job) : Json()}};
}

Json to_json(Imported const& view) {
  auto const customer = [](PastCustomer const& each) {
    return Json(Json::Object{{"code", each.code}, {"name", each.name}, {"email", each.email}});
  };
  return Json::Object{{"dry_run", view.dry_run},
                      {"customers", json_array(view.customers, customer)},
                      {"commissions", json_array(view.kept, kept_json)},
                      {"text", Json()}};
}

std::string_view became(PastKept const& kept) {
  return kept.job ? db::job_state_name(kept.job->state) : std::string_view("came to nothing");
}

Document to_document(Imported const& view) {
  Document document;
  auto const jobs =
      std::ranges::count_if(view.kept, [](PastKept const& kept) { return kept.job.has_value(); });
  document.heading(fmt::format("{}: {} past commissions, {} of them jobs",
                               view.dry_run ? "Would be kept" : "Kept", view.kept.size(), jobs));
  Table table{{{"Number"}, {"Quoted"}, {"Title"}, {"To pay", Align::decimal}, {"Became", Align::left}}, {}};
  for (PastKept const& kept : view.kept)
    table.add({kept.job ? kept.job->number : db::number_text(kept.quote.number), date_text(kept.quote.on),
               kept.quote.title, money_text(kept.quote.total), std::string(became(kept))});
  document.add(std::move(table));
  document.paragraph(
      std::string(
          "Each was priced as of its day. What it took was received for it alone, at what that cost on the "
          "day it was accepted, and taken as quoted; the shelf is as it was.") +
      (view.dry_run ? " Nothing is saved." : ""));
  if (!view.dry_run) document.next("endband margins list --by binding");
  return document;
}

std::string folder_of(std::string const& file) {
  std::size_t const slash = file.rfind('/');
  return slash == std::string::npos ? std::string() : file.substr(0, slash + 1);
}

Read<Answer> run(Context& context, Args const& args) {
  if (args.has("--example")) return Answer(PastExample{std::string(past_example())});
  if (args.word_count() < 1)
    return refuse(
        {FaultCode::bad_command, args.where("FILE"), "", "a text of past commissions, or --example", {}});
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  std::string const file = args.word(0);
  auto text = context.read_file(file);
  if (!text) return tl::unexpected(std::move(text.error()));
  auto past = read_past(*text, file == "-" ? std::string(standard_input) : file, (*workshop)->currency());
  if (!past) return tl::unexpected(std::move(past.error()));
  std::ranges::stable_sort(past->commissions, {}, &PastCommission::on);
  auto const computed = compute_past(context, **workshop, *past, folder_of(file));
  if (!computed) return tl::unexpected(computed.error());
  auto kept = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<std::vector<PastKept>> {
    for (PastComputed const& each : *computed)
      if (auto changes = changed_since(each.computed, writing.workshop(), args, each.said.on);
          !changes.empty())
        return tl::unexpected(std::move(changes));
    return keep_past(writing, *past, *computed);
  });
  if (!kept) return tl::unexpected(std::move(kept.error()));
  return Answer(Imported{std::move(*kept), std::move(past->customers), context.dry_run});
}

}  // namespace

Command workshop_import() {
  return {.noun = "workshop",
          .verb = "import",
          .summary = "Keep past commissions out of a notebook",
          .about =
              "Each is priced as of its day, and kept with what became of it: accepted, made in so many "
              "hours, sold "
              "for what was said. All of the text is kept, or nothing.",
          .words = {{"FILE", FlagType::file, "a text of past commissions, or - for standard input", false}},
          .flags = {{"--example", FlagType::on, "print a text to start from, and stop"}},
          .examples = {"workshop import past.toml --dry-run", "workshop import past.toml"},
          .refused_when = "anything in it is wrong, or a price, a step or a setting of its day is missing",
          .writes = true,
          .shows_with = "--example",
          .lists = false,
          .run = run};
}

}  // namespace endband::cli
