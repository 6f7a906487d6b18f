// Gives goods in custody back to the customer whose they are.
#include "cli/commands/commands.h"
#include "cli/commands/stock_parts.h"
#include "cli/words/values.h"
#include "db/materials.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

struct HandedBack {
  db::LotRow lot;  // as it is now
  Amount quantity;
  std::string reason;
  bool dry_run = false;
};

Json to_json(HandedBack const& view) {
  return Json::Object{{"dry_run", view.dry_run},
                      {"quantity", amount_json(view.quantity)},
                      {"reason", view.reason},
                      {"lot", lot_json(view.lot)}};
}

Document to_document(HandedBack const& view) {
  Document document;
  std::string const left = view.lot.quantity.n == 0
                               ? "Nothing of it is left here."
                               : sold_words(view.lot.quantity, view.lot.sold_by) + " of it is still here.";
  document.paragraph(
      fmt::format("{} {} of {}, {}, to {}. {}{}", view.dry_run ? "Would hand back" : "Handed back",
                  sold_words(view.quantity, view.lot.sold_by), lot_text(view.lot), view.lot.code,
                  view.lot.owner, left, view.dry_run ? " Nothing is saved." : ""));
  if (!view.dry_run) document.next("endband stock list --custody");
  return document;
}

Read<std::optional<Amount>> quantity_said(db::Workshop& workshop, Args const& args, db::LotRow const& lot,
                                          Date on) {
  if (args.word_count() < 2) return std::nullopt;
  auto const material = db::find_material(workshop, lot.code, on);
  if (!material) return tl::unexpected(material.error());
  auto const said =
      located(read_quantity_of(*material, words_from(args, 1), Least::something), args.where("QUANTITY"));
  if (!said) return tl::unexpected(said.error());
  return said->amount;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto const before = located(db::find_lot(**workshop, args.word(0)), args.where("LOT"));
  if (!before) return tl::unexpected(before.error());
  auto const quantity = quantity_said(**workshop, args, *before, context.on);
  if (!quantity) return tl::unexpected(quantity.error());
  std::string const reason = args.text("--reason").value_or("");
  auto view = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<HandedBack> {
    auto const postings = db::hand_back(writing, args.word(0), *quantity, context.on, reason);
    if (!postings) return tl::unexpected(postings.error());
    auto after = db::find_lot(writing.workshop(), args.word(0));
    if (!after) return tl::unexpected(after.error());
    Amount const back = before->quantity - after->quantity;
    return HandedBack{std::move(*after), back, reason, context.dry_run};
  });
  if (!view) return tl::unexpected(view.error());
  return Answer(std::move(*view));
}

}  // namespace

Command stock_hand_back() {
  return {.noun = "stock",
          .verb = "hand-back",
          .summary = "Hand back to a customer what was in custody",
          .about = "Without a quantity: all that is left of the lot.",
          .words = {{"LOT", FlagType::lot, "a lot in custody, such as L12"},
                    {"QUANTITY", FlagType::quantity, "how much of it: \"4 pieces\"", false, true}},
          .flags = {{"--reason", FlagType::words, "why: left over, or as it came"}},
          .examples = {"stock hand-back L1 1 piece --reason \"left over\"", "stock hand-back L1 --dry-run"},
          .refused_when = "the lot is the workshop's own, or holds less",
          .writes = true,
          .lists = false,
          .run = run};
}

}  // namespace endband::cli
