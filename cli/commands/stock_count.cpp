// Counts what lies on the shelf, and puts right what should.
#include "cli/commands/commands.h"
#include "cli/commands/stock_parts.h"
#include "cli/words/values.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

struct CountView {
  std::string what;  // "board-20", "K3"
  db::Counted counted;
  db::ShelfRow shelf;
  std::vector<db::LotRow> lots;  // of the material, also used up
  std::string reason;
  Currency currency;
  bool dry_run = false;
  bool agreed() const { return counted.postings.empty(); }
};

Amount amount_in(CountView const& view, std::int64_t n) { return {view.shelf.quantity.dimension, n}; }
std::string words(CountView const& view, std::int64_t n) {
  return sold_words(amount_in(view, n), view.shelf.sold_by);
}

Json to_json(CountView const& view) {
  auto const posting = [&](Posting const& each) { return posting_json(each, view.lots, view.currency); };
  return Json::Object{{"dry_run", view.dry_run},
                      {"what", view.what},
                      {"known", amount_json(amount_in(view, view.counted.known))},
                      {"counted", amount_json(amount_in(view, view.counted.counted))},
                      {"kind", view.agreed() ? Json() : Json(movement_name(view.counted.kind))},
                      {"reason", view.reason},
                      {"postings", json_array(view.counted.postings, posting)},
                      {"on_shelf", on_shelf_json(view.shelf)}};
}

std::string verdict(CountView const& view) {
  std::int64_t const apart = view.counted.counted - view.counted.known;
  std::string const known = words(view, view.counted.known);
  switch (view.counted.kind) {
    case MovementKind::opening: return " counted: its opening stock";
    case MovementKind::missing:
      return fmt::format(" counted where {} should be: {} missing", known, words(view, -apart));
    default: return fmt::format(" counted where {} should be: {} found", known, words(view, apart));
  }
}

Document to_document(CountView const& view) {
  Document document;
  std::string const counted = words(view, view.counted.counted);
  if (view.agreed()) {
    document.paragraph(fmt::format("{}: {} counted, as many as there should be.", view.what, counted));
    return document;
  }
  document.paragraph(fmt::format("{}: {}{}.{}", view.what, counted, verdict(view),
                                 view.dry_run ? " Nothing is saved." : ""));
  Table table{
      {{"Lot"}, {"Quantity", Align::right}, {fmt::format("Worth {}", view.currency.code()), Align::decimal}},
      {}};
  for (Posting const& posting : view.counted.postings) {
    db::LotRow const* const lot = lot_of(posting.lot, view.lots);
    table.add({lot == nullptr ? "" : lot_text(*lot), words(view, posting.quantity),
               money_text({posting.value, view.currency})});
  }
  document.add(std::move(table));
  add_on_shelf(document, {view.shelf}, view.currency);
  if (!view.dry_run) document.next("endband stock moves " + view.shelf.code);
  return document;
}

Read<CountView> count(db::Writing& writing, Context const& context, Args const& args,
                      Material const& material, Amount counted, std::optional<Money> worth) {
  CountView view{.what = args.word(0),
                 .counted = {},
                 .shelf = {},
                 .lots = {},
                 .reason = args.text("--reason").value_or(""),
                 .currency = writing.workshop().currency(),
                 .dry_run = context.dry_run};
  auto done = db::count(writing, view.what, counted, context.on, view.reason, worth,
                        args.text("--place").value_or(""));
  if (!done) return tl::unexpected(done.error());
  view.counted = std::move(*done);
  view.lots = db::lots(writing.workshop(), material.code, true);
  view.shelf = shelf_of(writing.workshop(), material);
  return view;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto const material = material_meant(**workshop, args.word(0), context.on, args.where("CODE|LOT"));
  if (!material) return tl::unexpected(material.error());
  auto const quantity =
      located(read_quantity_of(*material, words_from(args, 1), Least::nothing), args.where("QUANTITY"));
  if (!quantity) return tl::unexpected(quantity.error());
  std::optional<Money> worth;
  if (auto const said = args.text("--worth")) {
    auto const money = read_workshop_money(*said, (*workshop)->currency(), args.where("--worth"));
    if (!money) return tl::unexpected(money.error());
    worth = *money;
  }
  auto view = in_one_writing(context, **workshop, [&](db::Writing& writing) {
    return count(writing, context, args, *material, quantity->amount, worth);
  });
  if (!view) return tl::unexpected(view.error());
  return Answer(std::move(*view));
}

}  // namespace

Command stock_count() {
  return {
      .noun = "stock",
      .verb = "count",
      .summary = "Count a material or a lot, and keep what is there as what there is",
      .about =
          "The first count of a material that never moved is its opening stock. More than is known is found: "
          "worth what --worth says, else what the rest is worth, else the price in force. Less is missing.",
      .words = {{"CODE|LOT", FlagType::goods, "a material, or a lot such as L12 or K3"},
                {"QUANTITY", FlagType::quantity, "what lies there: \"12 sheets\"; 0 for nothing", true,
                 true}},
      .flags = {{"--reason", FlagType::words, "why it differs, when one knows"},
                {"--worth", FlagType::money, "what is found is worth, all of it"},
                {"--place", FlagType::lot_place, "where what is found lies"}},
      .examples = {"stock count text-laid-110 \"84 sheets\" --worth 48.72 --place \"plan chest 2\"",
                   "stock count linen-25-3 40 m --reason \"a spool behind the press\" --dry-run"},
      .refused_when = "goods moved after the day, or there is no worth for what was found",
      .writes = true,
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
