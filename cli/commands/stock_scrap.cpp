// What goes off the shelf to nobody: goods scrapped, and worth written down.
#include "cli/commands/commands.h"
#include "cli/commands/stock_parts.h"
#include "cli/words/values.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

Read<std::string> reason_said(Args const& args) {
  auto const reason = args.text("--reason");
  if (!reason || reason->empty())
    return refuse(
        {FaultCode::bad_command, args.where("--reason"), "", "why: it is asked for at the year's end", {}});
  return *reason;
}

struct Scrapped {
  std::string what, reason;
  std::vector<Posting> postings;
  db::ShelfRow shelf;
  std::vector<db::LotRow> lots;
  Currency currency;
  bool dry_run = false;
};

Json to_json(Scrapped const& view) {
  auto const posting = [&](Posting const& each) { return posting_json(each, view.lots, view.currency); };
  return Json::Object{{"dry_run", view.dry_run},
                      {"what", view.what},
                      {"reason", view.reason},
                      {"postings", json_array(view.postings, posting)},
                      {"on_shelf", on_shelf_json(view.shelf)}};
}

Document to_document(Scrapped const& view) {
  Document document;
  Amount sum{view.shelf.quantity.dimension, 0};
  for (Posting const& posting : view.postings) sum.n += posting.quantity;
  document.paragraph(fmt::format("{} {} of {}: {}.{}", view.dry_run ? "Would scrap" : "Scrapped",
                                 sold_words(sum, view.shelf.sold_by), view.what, view.reason,
                                 view.dry_run ? " Nothing is saved." : ""));
  Table table{
      {{"Lot"}, {"Quantity", Align::right}, {fmt::format("Worth {}", view.currency.code()), Align::decimal}},
      {}};
  for (Posting const& posting : view.postings) {
    db::LotRow const* const lot = lot_of(posting.lot, view.lots);
    table.add({lot == nullptr ? "" : lot_text(*lot),
               sold_words({view.shelf.quantity.dimension, posting.quantity}, view.shelf.sold_by),
               money_text({posting.value, view.currency})});
  }
  document.add(std::move(table));
  add_on_shelf(document, {view.shelf}, view.currency);
  if (!view.dry_run) document.next("endband stock to-buy");
  return document;
}

Read<Answer> run_scrap(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto const reason = reason_said(args);
  if (!reason) return tl::unexpected(reason.error());
  auto const material = material_meant(**workshop, args.word(0), context.on, args.where("CODE|LOT"));
  if (!material) return tl::unexpected(material.error());
  auto const quantity =
      located(read_quantity_of(*material, words_from(args, 1), Least::something), args.where("QUANTITY"));
  if (!quantity) return tl::unexpected(quantity.error());
  auto view = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<Scrapped> {
    auto postings = db::scrap(writing, args.word(0), quantity->amount, context.on, *reason);
    if (!postings) return tl::unexpected(postings.error());
    return Scrapped{args.word(0),
                    *reason,
                    std::move(*postings),
                    shelf_of(writing.workshop(), *material),
                    db::lots(writing.workshop(), material->code, true),
                    (*workshop)->currency(),
                    context.dry_run};
  });
  if (!view) return tl::unexpected(view.error());
  return Answer(std::move(*view));
}

struct WrittenDown {
  db::LotRow lot;  // as it is now
  Money before;
  std::string reason;
  Currency currency;
  bool dry_run = false;
};

Json to_json(WrittenDown const& view) {
  return Json::Object{{"dry_run", view.dry_run},
                      {"lot", lot_text(view.lot)},
                      {"material", view.lot.code},
                      {"left", amount_json(view.lot.quantity)},
                      {"before", money_json(view.before)},
                      {"worth", money_json(view.lot.value)},
                      {"written_down", money_json(view.before - view.lot.value)},
                      {"reason", view.reason}};
}

Document to_document(WrittenDown const& view) {
  Document document;
  document.paragraph(
      fmt::format("{} {}, {} {}, from {} to {}: {}.{}", view.dry_run ? "Would write down" : "Wrote down",
                  lot_text(view.lot), view.lot.code, left_words(view.lot), money_text(view.before),
                  money_words(view.lot.value), view.reason, view.dry_run ? " Nothing is saved." : ""));
  if (!view.dry_run) document.next("endband stock list " + view.lot.code + " --lots");
  return document;
}

Read<Answer> run_write_down(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto const reason = reason_said(args);
  if (!reason) return tl::unexpected(reason.error());
  auto const before = located(db::find_lot(**workshop, args.word(0)), args.where("LOT"));
  if (!before) return tl::unexpected(before.error());
  auto const worth = read_workshop_money(args.word(1), (*workshop)->currency(), args.where("WORTH"));
  if (!worth) return tl::unexpected(worth.error());
  auto view = in_one_writing(context, **workshop, [&](db::Writing& writing) -> Read<WrittenDown> {
    auto const posting = db::write_down(writing, args.word(0), *worth, context.on, *reason);
    if (!posting) return tl::unexpected(posting.error());
    auto after = db::find_lot(writing.workshop(), args.word(0));
    if (!after) return tl::unexpected(after.error());
    return WrittenDown{std::move(*after), before->value, *reason, (*workshop)->currency(), context.dry_run};
  });
  if (!view) return tl::unexpected(view.error());
  return Answer(std::move(*view));
}

}  // namespace

Command stock_scrap() {
  return {.noun = "stock",
          .verb = "scrap",
          .summary = "Take off the shelf what is of no more use",
          .about = "What a job spoils is its own cost: job use N CODE QUANTITY --spoiled.",
          .words = {{"CODE|LOT", FlagType::goods, "a material, or a lot such as L12 or K3"},
                    {"QUANTITY", FlagType::quantity, "how much: \"3 sheets\"", true, true}},
          .flags = {{"--reason", FlagType::words, "why: mould, damp, past its day"}},
          .examples = {"stock scrap text-laid-110 \"3 sheets\" --reason foxed",
                       "stock scrap K2 0.05 m2 --reason \"a stain on the flank\" --dry-run"},
          .refused_when = "there is less, or of skins which one was not said",
          .writes = true,
          .lists = false,
          .run = run_scrap};
}

Command stock_write_down() {
  return {.noun = "stock",
          .verb = "write-down",
          .summary = "Lower the worth of a lot to what it would fetch",
          .about = "Never raised again; what a job takes of the lot then costs less.",
          .words = {{"LOT", FlagType::lot, "a lot such as L12 or K3"},
                    {"WORTH", FlagType::money, "what is left of it is worth, all of it"}},
          .flags = {{"--reason", FlagType::words, "why: a stain on the flank"}},
          .examples = {"stock write-down K1 40.00 --reason \"a stain on the flank\"",
                       "stock write-down K1 0 --reason \"mildew\" --dry-run"},
          .refused_when = "it is worth less already, or its worth is the average of its material",
          .writes = true,
          .lists = false,
          .run = run_write_down};
}

}  // namespace endband::cli
