// The rows of a table as pieces.
#pragma once

#include "cli/pdf/flow.h"

#include <vector>

namespace endband::cli::pdf {

// A level line, `light` from 0, black, to 1.
void rule(cairo_t* on, double x, double y, double width, double thick, double light);

std::vector<Piece> table_pieces(Type& type, Table const& table, double width, double size);

}  // namespace endband::cli::pdf
