// A first plan at once: shelves, each filled with what is worth most for its area.
#pragma once

#include "engine/cutting/sheets/one_sheet.h"

namespace endband::cutting::one_sheet {

// The better of shelves across and shelves upright.
Tree shelves(Task const& task);

}  // namespace endband::cutting::one_sheet
