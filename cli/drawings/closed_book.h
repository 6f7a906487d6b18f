// The closed book as its buyer will see it: spine and front, to scale, with its main dimensions.
#pragma once

#include "cli/document/drawing.h"
#include "engine/commission/commission.h"

#include <optional>

namespace endband::cli {

// Of what a buyer's page may know. None of a box alone or of a set, whose volumes differ.
std::optional<Drawing> draw_closed_book(BuyerQuote const& quote);

}  // namespace endband::cli
