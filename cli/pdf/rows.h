// The rows of a table as pieces.
#pragma once

#include "cli/pdf/flow.h"

#include <vector>

namespace endband::cli::pdf {

std::vector<Piece> table_pieces(Type& type, Table const& table, double width, double size);

}  // namespace endband::cli::pdf
