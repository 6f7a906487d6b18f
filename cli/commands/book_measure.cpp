// Measures the book of a description: how it is made, every value with where it comes from, every piece to
// cut; and draws it.
#include "cli/commands/commands.h"
#include "cli/commands/described.h"
#include "cli/commands/drawn.h"
#include "cli/commands/measured.h"
#include "cli/document/svg.h"
#include "cli/drawings/drawings.h"
#include "engine/book/copies.h"

namespace endband::cli {
namespace {

Measured measure(Described described) {
  Measured view;
  view.binding = described.book.binding;
  view.model = std::move(described.model_name);
  view.volumes = volumes_of(described.book, described.catalogue);
  view.whole = times(together(view.volumes, described.book.set_shares), described.book.copies);
  view.materials = std::move(described.catalogue.materials);
  view.book = std::move(described.book);
  view.drawings = drawings_of(view.book, view.volumes, view.whole, view.materials);
  return view;
}

Read<void> write_drawings(Context const& context, Args const& args, Measured const& view) {
  if (!view.folder) return {};
  std::vector<NewFile> files;
  for (Drawing const& drawing : view.drawings) files.push_back({drawing_file(drawing), to_svg(drawing)});
  return draw(context, args, view.folder, files);
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  std::optional<Measured> view;
  {
    db::Reading const reading(**workshop);
    auto described = describe(context, **workshop, args.word(0));
    if (!described) return tl::unexpected(described.error());
    view = measure(*std::move(described));
  }
  view->folder = args.text("--svg");
  view->dry_run = context.dry_run;
  if (auto const written = write_drawings(context, args, *view); !written)
    return tl::unexpected(written.error());
  return Answer(*std::move(view));
}

}  // namespace

Command book_measure() {
  return {
      .noun = "book",
      .verb = "measure",
      .summary = "Measure and draw the book that a description describes",
      .about =
          "How it is made; every value with where it comes from: said, model, workshop, practice, "
          "catalogue, or the rule that computes it; every piece to cut. Nothing is priced, and nothing is "
          "written but drawings, with --svg: the section from its fold, the spine, the covering laid flat, "
          "the pieces of the box and of the book, each to a scale that goes on a page.",
      .words = {{"FILE", FlagType::file, "a description, or - for standard input"}},
      .flags = {{"--svg", FlagType::folder,
                 "the folder to write the drawings to; made when it is not there"}},
      .examples = {"book measure book.toml", "book measure book.toml --svg drawings"},
      .refused_when = "a material lacks a figure the book needs, or a drawing is there and --yes is not said",
      .writes = true,
      .writes_with = {"--svg"},
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
