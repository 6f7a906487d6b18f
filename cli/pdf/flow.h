// A document taken apart into pieces that are laid down the pages one below the other.
#pragma once

#include "cli/document/document.h"
#include "cli/pdf/type.h"

#include <functional>
#include <memory>
#include <vector>

namespace endband::cli::pdf {

struct Piece {
  double before = 0;  // room above it, but not at the head of a page
  double height = 0;
  bool with_next = false;                                    // not the last of a page
  bool new_page = false;                                     // the first of one
  std::function<void(cairo_t*, double x, double y)> draw{};  // its upper left corner
  std::shared_ptr<Piece const> head{};  // comes again above it where it begins a page: a table's head
};

struct Room {
  double width = 0, height = 0;  // of a page, within its margins
};

std::vector<Piece> pieces_of(Type& type, Document const& document, std::string const& mark, Room room);

struct Placed {
  Piece const* piece = nullptr;
  double y = 0;
};
// The pieces of each page, from its top. A piece that is higher than a page has one to itself and runs over.
std::vector<std::vector<Placed>> pages_of(std::vector<Piece> const& pieces, double height);

}  // namespace endband::cli::pdf
