#include "cli/pdf/flow.h"

namespace endband::cli::pdf {
namespace {

// From `first`, all that must stand together: each with the next.
std::size_t end_of_group(std::vector<Piece> const& pieces, std::size_t first) {
  std::size_t end = first + 1;
  while (end < pieces.size() && pieces[end - 1].with_next && !pieces[end].new_page) ++end;
  return end;
}

double height_of(std::vector<Piece> const& pieces, std::size_t first, std::size_t end) {
  double height = pieces[first].height;
  for (std::size_t i = first + 1; i < end; ++i) height += pieces[i].before + pieces[i].height;
  return height;
}

}  // namespace

std::vector<std::vector<Placed>> pages_of(std::vector<Piece> const& pieces, double height) {
  std::vector<std::vector<Placed>> pages(1);
  double y = 0;
  auto const turn = [&] {
    if (!pages.back().empty()) pages.emplace_back();
    y = 0;
  };
  auto const put = [&](Piece const& piece) {
    if (!pages.back().empty()) y += piece.before;
    pages.back().push_back({&piece, y});
    y += piece.height;
  };
  for (std::size_t first = 0; first < pieces.size();) {
    std::size_t const end = end_of_group(pieces, first);
    bool const fits = y + pieces[first].before + height_of(pieces, first, end) <= height;
    if (pieces[first].new_page || !fits) turn();
    for (; first < end; ++first) {
      Piece const& piece = pieces[first];
      // A group higher than a page is broken where it must.
      if (y > 0 && y + piece.before + piece.height > height) turn();
      if (pages.back().empty() && piece.head && piece.head.get() != &piece) put(*piece.head);
      put(piece);
    }
  }
  return pages;
}

}  // namespace endband::cli::pdf
