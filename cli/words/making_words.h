// How a book and its pieces are made, in the words of the bench.
#pragma once

#include "engine/book/structure.h"

#include <string>
#include <utility>
#include <vector>

namespace endband::cli {

// The ways that say something of this book, in the order of their axes: nothing of how corners are cut where
// the covering has none, nor of what an absent part would be like.
std::vector<Way> ways_of(BookSpec const& book);
// The same in words, a line a part: "Sewing", "all along, on raised cords".
std::vector<std::pair<std::string, std::string>> ways_in_words(BookSpec const& book);
// What height and width do not say of a piece: its outline, how it lies on a skin, which others come from the
// same skin, and what is trimmed off again.
std::string cutting_words(Piece const& piece);

}  // namespace endband::cli
