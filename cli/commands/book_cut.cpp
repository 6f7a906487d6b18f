// Plans how the pieces of a described book are cut, of all its volumes and copies together.
#include "cli/commands/commands.h"
#include "cli/commands/cut_shown.h"
#include "cli/commands/described.h"
#include "engine/book/copies.h"

#include <algorithm>

namespace endband::cli {
namespace {

struct BookCut {
  std::string title;
  CutShown shown;
};

Json to_json(BookCut const& view) {
  Json::Object all{{"title", view.title}};
  for (auto& member : cuts_json(view.shown)) all.push_back(std::move(member));
  return all;
}

Document to_document(BookCut const& view) {
  Document document;
  std::string const title = view.title.empty() ? "A book without a title" : view.title;
  document.heading(title + (view.shown.buy_new ? ", cut from new goods" : ", cut from the shelf first"));
  add_cuts(document, view.shown);
  add_cut_drawings(document, view.shown);
  return document;
}

void gather(Described const& described, CutBasis const& basis, CutShown& shown) {
  Structure const whole =
      times(together(volumes_of(described.book, described.catalogue), described.book.set_shares),
            described.book.copies);
  Needs const needs = quantities(whole, described.book, described.catalogue);
  for (auto first = needs.needs.begin(); first != needs.needs.end();) {
    auto const last = std::find_if(first, needs.needs.end(),
                                   [&](Need const& need) { return need.material != first->material; });
    Material const& material = described.catalogue.at(first->material);
    auto cuts = cut_of({first, last}, {}, material, basis);
    if (!cuts.empty() && first->customer_supplied)
      shown.left_out.push_back({material.code, material.name, "the customer brings it"});
    else
      std::ranges::move(cuts, std::back_inserter(shown.materials));
    first = last;
  }
}

Read<BookCut> read(Context& context, db::Workshop& workshop, Args const& args) {
  db::Reading const reading(workshop);
  auto described = describe(context, workshop, args.word(0));
  if (!described) return tl::unexpected(described.error());
  BookCut view;
  view.title = described->book.title;
  view.shown.buy_new = args.has("--new");
  view.shown.work = cut_work(args);
  view.shown.currency = workshop.currency();
  view.shown.folder = args.text("--svg");
  view.shown.dry_run = context.dry_run;
  CutBasis basis;
  basis.buy_new = view.shown.buy_new;
  basis.rules = described->shop.cutting;
  basis.rules.work = view.shown.work;
  basis.buying = described->shop.buying;
  if (!basis.buy_new) basis.shelf = db::cuttable(workshop, context.on, "");
  gather(*described, basis, view.shown);
  if (view.shown.materials.empty() && view.shown.left_out.empty())
    return refuse({FaultCode::rule_refused,
                   args.where("FILE"),
                   args.word(0),
                   "nothing in it is cut from sheets, skins or lengths",
                   {}});
  return view;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto view = read(context, **workshop, args);
  if (!view) return tl::unexpected(std::move(view.error()));
  CutShown& shown = view->shown;
  plan_all(shown.materials, shown.work);
  shown.drawings = cut_drawings(shown, view->title);
  if (auto const may = may_write_cut_drawings(context, args, shown); !may) return tl::unexpected(may.error());
  if (auto const done = write_cut_drawings(context, shown); !done) return tl::unexpected(done.error());
  int const exit = shown.all_planned() ? 0 : 1;
  return Answer(*std::move(view)).ending_with(exit);
}

}  // namespace

Command book_cut() {
  return {.noun = "book",
          .verb = "cut",
          .summary = "Plan how the pieces of a book are cut, and draw it",
          .about =
              "Of each sheet, skin and length: which pieces come from it, the cuts in their order, what is "
              "left over. The "
              "shelf first, at what lies there is worth, and beside it what can be bought; with --new whole "
              "goods as they "
              "are sold. The plan costs the least that was found, what is worth keeping taken off; how near "
              "that is to the "
              "least possible is said. The same work gives the same plan.",
          .words = {{"FILE", FlagType::file, "a description, or - for standard input"}},
          .flags = {{"--new", FlagType::on, "from new goods as they are sold, whatever lies on the shelf"},
                    {"--work", FlagType::work, "how long to look for a better plan; else 300000"},
                    {"--svg", FlagType::folder,
                     "the folder to write the drawings to; made when it is not there"}},
          .examples = {"book cut book.toml", "book cut book.toml --new --svg cuts"},
          .refused_when = "something cannot be cut, or a drawing is there and --yes is not said",
          .writes = true,
          .writes_with = {"--svg"},
          .lists = false,
          .run = run};
}

}  // namespace endband::cli
