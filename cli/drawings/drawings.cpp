#include "cli/drawings/drawings.h"

#include <utility>

namespace endband::cli {

std::vector<Drawing> drawings_of(BookSpec const& book, Structure const& structure,
                                 std::span<Material const> materials) {
  std::vector<Drawing> drawings;
  auto const keep = [&](std::optional<Drawing> drawing) {
    if (drawing) drawings.push_back(*std::move(drawing));
  };
  keep(draw_section(book, structure));
  keep(draw_spine(book, structure));
  keep(draw_cover(book, structure));
  keep(draw_box(structure, materials));
  keep(draw_pieces(structure, materials));
  return drawings;
}

}  // namespace endband::cli
