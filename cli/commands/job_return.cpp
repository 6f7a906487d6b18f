// What comes back from a job: goods not needed, offcuts worth keeping, the customer's own.
#include "cli/commands/commands.h"
#include "cli/commands/job_seen.h"
#include "cli/commands/stock_parts.h"
#include "cli/words/values.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

struct Returned {
  db::JobHeader job;
  std::string code;
  SoldBy sold_by = SoldBy::piece;
  Amount quantity;
  std::vector<Posting> postings;     // of what was given back
  std::optional<db::LotRow> offcut;  // the new lot
  bool to_customer = false;
  std::vector<db::LotRow> lots;     // of the material
  std::vector<db::ShelfRow> shelf;  // after it
  ActualCost cost;                  // after it
  bool dry_run = false;
};

Json to_json(Returned const& view) {
  Currency const currency = view.job.price.currency;
  auto const posting = [&](Posting const& each) { return posting_json(each, view.lots, currency); };
  return Json::Object{{"dry_run", view.dry_run},
                      {"job", job_json(view.job)},
                      {"code", view.to_customer ? Json() : Json(view.code)},
                      {"quantity", view.to_customer ? Json() : amount_json(view.quantity)},
                      {"postings", json_array(view.postings, posting)},
                      {"offcut", view.offcut ? lot_json(*view.offcut) : Json()},
                      {"to_customer", view.to_customer},
                      {"cost", cost_now_json(view.cost)},
                      {"on_shelf", json_array(view.shelf, on_shelf_json)}};
}

std::string returned_words(Returned const& view) {
  if (view.to_customer) return "All of the customer's own that was here went home.";
  if (view.offcut)
    return fmt::format("{} of {} is kept as {}, worth {}: so much comes off the job.",
                       left_words(*view.offcut), view.code, lot_text(*view.offcut),
                       money_words(view.offcut->value));
  Money worth{0, view.job.price.currency};
  std::vector<std::string> marks;
  for (Posting const& posting : view.postings) {
    worth += Money{posting.value, worth.currency};
    if (db::LotRow const* const lot = lot_of(posting.lot, view.lots)) marks.push_back(lot_text(*lot));
  }
  return fmt::format("Given back: {} of {}, into {}, at the {} it was taken at.",
                     sold_words(view.quantity, view.sold_by), view.code, listed(marks), money_words(worth));
}

Document to_document(Returned const& view) {
  Document document;
  document.heading(job_title(view.job));
  document.paragraph(returned_words(view));
  add_on_shelf(document, view.shelf, view.job.price.currency);
  document.paragraph(fmt::format("Cost so far {}.{}", money_words(view.cost.total),
                                 view.dry_run ? " Nothing is saved." : ""));
  if (!view.dry_run) document.next("endband job show " + view.job.number);
  return document;
}

Read<void> one_thing(Args const& args) {
  std::vector<Fault> faults;
  auto const both = [&](std::string_view flag, std::string found) {
    faults.push_back({FaultCode::contradiction, args.where(flag), std::move(found), "one of the two", {}});
  };
  bool const home = args.has("--to-customer");
  if (home && (args.word_count() > 1 || args.has("--offcut") || args.has("--lot")))
    both("--to-customer", "--to-customer with goods beside it");
  if (args.has("--offcut") && args.word_count() > 2) both("--offcut", "--offcut with a quantity");
  if (!home && args.word_count() < 2)
    faults.push_back({FaultCode::bad_command,
                      args.where("CODE"),
                      "",
                      "the material that comes back, or --to-customer",
                      {}});
  if (!home && !args.has("--offcut") && args.word_count() == 2)
    faults.push_back({FaultCode::bad_command,
                      args.where("QUANTITY"),
                      "",
                      "how much comes back, or --offcut with its size",
                      {}});
  if (args.has("--place") && !args.has("--offcut"))
    faults.push_back({FaultCode::contradiction,
                      args.where("--place"),
                      "--place without --offcut",
                      "an offcut: what is given back lies where it lay",
                      {}});
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return {};
}

Read<void> give_back(db::Writing& writing, db::JobHeader const& job, Args const& args, Date on,
                     Material const& material, Returned& view) {
  auto const said =
      located(read_quantity_of(material, words_from(args, 2), Least::something), args.where("QUANTITY"));
  if (!said) return tl::unexpected(said.error());
  view.quantity = said->amount;
  auto postings = db::give_back_from_job(writing, job.id, material.code, args.text("--lot").value_or(""),
                                         view.quantity, on);
  if (!postings) return tl::unexpected(std::move(postings.error()));
  view.postings = std::move(*postings);
  return {};
}

Read<void> keep(db::Writing& writing, db::JobHeader const& job, Args const& args, Date on,
                Material const& material, Returned& view) {
  SheetSize const size = *args.get<SheetSize>("--offcut");
  auto offcut = db::keep_offcut(writing, job.id, material.code, args.text("--lot").value_or(""), size.first,
                                size.second, on, args.text("--place").value_or(""));
  if (!offcut) return tl::unexpected(std::move(offcut.error()));
  view.quantity = offcut->quantity;
  view.offcut = std::move(*offcut);
  return {};
}

Read<void> go_home(db::Writing& writing, db::JobHeader const& job, Args const& args, Date on,
                   Returned& view) {
  view.to_customer = true;
  auto const done = db::give_back_custody(writing, job, on, args.text("--words").value_or(""));
  if (!done) return tl::unexpected(done.error());
  return {};
}

Read<void> come_back(db::Writing& writing, db::JobHeader const& job, Args const& args, Date on,
                     Returned& view) {
  auto const material = material_meant(writing.workshop(), args.word(1), on, args.where("CODE"));
  if (!material) return tl::unexpected(material.error());
  view.code = material->code;
  view.sold_by = material->sold_by;
  auto const done = args.has("--offcut") ? keep(writing, job, args, on, *material, view)
                                         : give_back(writing, job, args, on, *material, view);
  if (!done) return done;
  view.shelf.push_back(shelf_of(writing.workshop(), *material));
  view.lots = db::lots(writing.workshop(), material->code, true);
  return {};
}

Read<Answer> run(Context& context, Args const& args) {
  if (auto const one = one_thing(args); !one) return tl::unexpected(one.error());
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto view = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<Returned> {
    auto const job = job_meant(writing.workshop(), args);
    if (!job) return tl::unexpected(job.error());
    Returned returned;
    returned.dry_run = context.dry_run;
    auto const done = args.has("--to-customer") ? go_home(writing, *job, args, context.on, returned)
                                                : come_back(writing, *job, args, context.on, returned);
    if (!done) return tl::unexpected(done.error());
    auto after = see_job(writing.workshop(), args, context.on);
    if (!after) return tl::unexpected(std::move(after.error()));
    returned.job = std::move(after->job);
    returned.cost = after->cost;
    return returned;
  });
  if (!view) return tl::unexpected(std::move(view.error()));
  return Answer(std::move(*view));
}

}  // namespace

Command job_return() {
  return {
      .noun = "job",
      .verb = "return",
      .summary = "Put back what a job did not need, an offcut worth keeping, or the customer's own",
      .about =
          "Goods come back at the value they were taken at, the last taken first. An offcut has one value, "
          "its "
          "share of what was taken times what the material's offcuts are worth, and that comes off the job.",
      .words = {job_word,
                {"CODE", FlagType::material, "the material", false},
                {"QUANTITY", FlagType::words, "how much: 2 sheets, 0.05 m2", false, true}},
      .flags = {{"--lot", FlagType::lot, "of this lot or skin; else of those taken last"},
                {"--offcut", FlagType::rectangle, "a piece worth keeping, of this size"},
                {"--place", FlagType::lot_place, "where the offcut lies"},
                {"--to-customer", FlagType::on, "all that the customer left here goes home"},
                {"--words", FlagType::words, "what else is to be kept of it"}},
      .examples = {"job return 26-001 goat-moss-08 0.03 m2",
                   "job return 26-001 goat-moss-08 --offcut \"200 x 150 mm\" --place \"offcut drawer\""},
      .refused_when = "the job holds less, or has ended",
      .writes = true,
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
