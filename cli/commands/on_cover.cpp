#include "cli/commands/on_cover.h"

#include "cli/commands/described.h"

#include <algorithm>

namespace endband::cli {
namespace {

double figure(FrozenQuote const& quote, FigureId id) {
  auto const found = std::ranges::find(quote.figures, id, &FrozenFigure::id);
  return found == quote.figures.end() ? 0 : static_cast<double>(found->value_e6) / 1e6;
}

// Each frame within the one before, two widths further in (engine/book/parts_finishing.cpp).
void add(OnCover& cover, Lines const& lines) {
  if (lines.layout == LineLayout::bands) cover.lined_bands = true;
  if (lines.layout != LineLayout::frame) return;
  for (int frame = 0; frame < lines.count; ++frame)
    cover.frames.push_back({lines.inset_mm + frame * 2 * lines.width_mm, lines.width_mm});
}

}  // namespace

Read<OnCover> on_cover(db::Workshop& workshop, FrozenQuote const& quote) {
  OnCover cover{.frames = {},
                .lined_bands = false,
                .straps = static_cast<std::int64_t>(figure(quote, FigureId::straps)),
                .strap_width = figure(quote, FigureId::strap_width),
                .strap_reach = figure(quote, FigureId::strap_reach)};
  auto const described = describe_text(workshop, {"the quote", quote.description}, {quote.on, quote.on});
  if (!described) return tl::unexpected(described.error());
  for (Lines const& lines : described->book.lines) add(cover, lines);
  return cover;
}

}  // namespace endband::cli
