#include "cli/drawings/drawings.h"

#include "engine/book/copies.h"

#include <string>
#include <utility>

namespace endband::cli {
namespace {

void keep(std::vector<Drawing>& drawings, std::optional<Drawing> drawing) {
  if (drawing) drawings.push_back(*std::move(drawing));
}

}  // namespace

std::vector<Drawing> drawings_of(BookSpec const& set, std::span<Structure const> volumes,
                                 Structure const& whole, std::span<Material const> materials) {
  std::vector<Drawing> drawings;
  for (std::size_t i = 0; i < volumes.size(); ++i) {
    BookSpec const book = volume_of(set, i);
    std::vector<Drawing> own;
    keep(own, draw_section(book, volumes[i]));
    keep(own, draw_spine(book, volumes[i]));
    keep(own, draw_cover(book, volumes[i]));
    for (Drawing& drawing : own) {
      if (volumes.size() > 1) drawing.name += "-" + std::to_string(i + 1);
      drawings.push_back(std::move(drawing));
    }
  }
  keep(drawings, draw_box(set, whole, materials));
  keep(drawings, draw_pieces(set, whole, materials));
  return drawings;
}

}  // namespace endband::cli
