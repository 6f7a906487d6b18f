// Lists what went into lots and out of them.
#include "cli/commands/commands.h"
#include "cli/commands/stock_parts.h"
#include "cli/words/values.h"
#include "db/jobs.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <map>
#include <set>

namespace endband::cli {
namespace {

struct Moves {
  std::vector<db::MovementRow> rows;  // newest first
  std::map<std::string, SoldBy> sold_by;
  std::set<std::int64_t> taken_back;  // ids of rows that a counter-movement answers
  Currency currency;
};

Json row_json(db::MovementRow const& row, Currency currency) {
  return Json::Object{{"movement", row.id},
                      {"entry", row.entry},
                      {"undoes", row.undoes == 0 ? Json() : Json(row.undoes)},
                      {"on", date_text(row.on)},
                      {"lot", mark_text(row.mark)},
                      {"material", row.code},
                      {"kind", movement_name(row.kind)},
                      {"quantity", amount_json({row.dimension, row.quantity})},
                      {"worth", money_json({row.value, currency})},
                      {"job", row.job},
                      {"reason", row.reason}};
}

Json to_json(Moves const& view) {
  auto const row = [&](db::MovementRow const& each) { return row_json(each, view.currency); };
  return Json::Object{{"movements", json_array(view.rows, row)}};
}

// Out of a lot to a job is a use; back into it, a giving back.
std::string kind_words(db::MovementRow const& row) {
  std::string name(movement_name(row.kind));
  std::ranges::replace(name, '-', ' ');
  if (row.undoes != 0) return name + ", taken back";
  bool const to_job = row.kind == MovementKind::used || row.kind == MovementKind::cut_away ||
                      row.kind == MovementKind::spoiled;
  return to_job && row.quantity > 0 ? "given back (" + name + ")" : name;
}

Document to_document(Moves const& view) {
  Document document;
  if (view.rows.empty()) {
    document.paragraph("Nothing moved yet.").next("endband stock receive \"CODE QUANTITY PRICE\"");
    return document;
  }
  Table table{{{"Day"},
               {"Lot"},
               {"Material", Align::left, 1},
               {"What"},
               {"Quantity", Align::right},
               {fmt::format("Worth {}", view.currency.code()), Align::decimal},
               {"Job"},
               {"Reason", Align::left, 2},
               {"Entry", Align::right, 3}},
              {}};
  for (db::MovementRow const& row : view.rows) {
    auto const sold_by = view.sold_by.find(row.code);
    Amount const amount{row.dimension, row.quantity};
    std::string quantity;
    if (row.quantity != 0)
      quantity = sold_by == view.sold_by.end() ? amount_text(amount) : sold_words(amount, sold_by->second);
    std::string kind = kind_words(row);
    if (view.taken_back.contains(row.id)) kind += " (undone)";
    table.add({date_text(row.on), mark_text(row.mark), row.code, std::move(kind), std::move(quantity),
               money_text({row.value, view.currency}), row.job, row.reason, std::to_string(row.entry)});
  }
  document.add(std::move(table));
  return document;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  db::Reading const reading(**workshop);
  std::optional<std::string> of;
  if (args.word_count() > 0) {
    auto const known = material_meant(**workshop, args.word(0), context.on, args.where("CODE|LOT"));
    if (!known) return tl::unexpected(known.error());
    of = args.word(0);
  }
  auto const last = static_cast<std::size_t>(args.get<std::int64_t>("--last").value_or(50));
  bool const one_job = args.has("--job");
  Moves view{.rows = db::movements(**workshop, of,
                                   one_job ? std::numeric_limits<int>::max() : static_cast<int>(last)),
             .sold_by = {},
             .taken_back = {},
             .currency = (*workshop)->currency()};
  for (db::MovementRow const& row : view.rows)
    if (row.undoes != 0) view.taken_back.insert(row.undoes);
  if (one_job) {
    auto const job = located(db::find_job(**workshop, *args.text("--job")), args.where("--job"));
    if (!job) return tl::unexpected(job.error());
    std::erase_if(view.rows, [&](db::MovementRow const& row) { return row.job != job->number; });
    if (view.rows.size() > last) view.rows.resize(last);
  }
  for (db::ShelfRow const& row : db::shelf(**workshop, std::nullopt))
    view.sold_by.emplace(row.code, row.sold_by);
  return Answer(std::move(view));
}

}  // namespace

Command stock_moves() {
  return {
      .noun = "stock",
      .verb = "moves",
      .summary = "List what went into lots and out of them, newest first",
      .about =
          "Into a lot is positive, out of it negative. A movement is never altered: what takes one back is a "
          "movement of its own.",
      .words = {{"CODE|LOT", FlagType::goods, "of one material, or of one lot such as L12 or K3", false}},
      .flags = {{"--job", FlagType::job, "only of this job, such as 26-014"},
                {"--last", FlagType::whole, "so many; else 50"}},
      .examples = {"stock moves", "stock moves goat-moss-08 --last 20"},
      .refused_when = "",
      .writes = false,
      .lists = true,
      .run = run};
}

}  // namespace endband::cli
