// Lists the offcuts that were worth keeping.
#include "cli/commands/commands.h"
#include "cli/commands/stock_parts.h"
#include "cli/words/values.h"
#include "db/materials.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

struct Offcuts {
  std::vector<db::LotRow> lots;  // largest of a material first
  Currency currency;
};

Json to_json(Offcuts const& view) { return Json::Object{{"offcuts", json_array(view.lots, lot_json)}}; }

Document to_document(Offcuts const& view) {
  Document document;
  if (view.lots.empty()) {
    document.paragraph("No offcuts are kept.").next("endband job return N CODE --offcut \"300 x 200 mm\"");
    return document;
  }
  Table table{{{"Lot"},
               {"Material"},
               {"Size", Align::right},
               {"Of it", Align::right, 2},
               {fmt::format("Worth {}", view.currency.code()), Align::decimal},
               {"Cut from"},
               {"By", Align::left, 1},
               {"Since", Align::left, 3},
               {"Place", Align::left, 1}},
              {}};
  Money sum{0, view.currency};
  for (db::LotRow const& lot : view.lots) {
    table.add({lot_text(lot), lot.code, left_words(lot), sold_words(lot.quantity, lot.sold_by),
               money_text(lot.value), lot.parent, lot.job, date_text(lot.since), lot.place});
    sum += lot.value;
  }
  table.add_total({"", "Together", "", "", money_text(sum), "", "", "", ""});
  document.add(std::move(table));
  document.next(
      fmt::format("endband job use N {} --from {}", view.lots.front().code, lot_text(view.lots.front())));
  return document;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  db::Reading const reading(**workshop);
  std::optional<std::string> code;
  if (args.word_count() > 0) {
    auto const known = located(db::find_material(**workshop, args.word(0), context.on), args.where("CODE"));
    if (!known) return tl::unexpected(known.error());
    code = known->code;
  }
  Offcuts view{db::lots(**workshop, code, false), (*workshop)->currency()};
  std::erase_if(view.lots, [](db::LotRow const& lot) { return lot.source != LotSource::kept; });
  std::ranges::stable_sort(view.lots, [](db::LotRow const& a, db::LotRow const& b) {
    return a.code != b.code ? a.code < b.code : a.quantity.n > b.quantity.n;
  });
  return Answer(std::move(view));
}

}  // namespace

Command stock_offcuts() {
  return {
      .noun = "stock",
      .verb = "offcuts",
      .summary = "List the offcuts that were worth keeping, largest first",
      .about =
          "An offcut has one value, stated when it was cut: it came off the job, and is never written up.",
      .words = {{"CODE", FlagType::material, "of one material", false}},
      .flags = {},
      .examples = {"stock offcuts", "stock offcuts goat-moss-08"},
      .refused_when = "",
      .writes = false,
      .lists = true,
      .run = run};
}

}  // namespace endband::cli
