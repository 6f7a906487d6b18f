// What a quote's description says of the cover, for its drawing.
#pragma once

#include "cli/drawings/closed_book.h"
#include "db/workshop.h"
#include "engine/commission/commission.h"

#include <string_view>

namespace endband::cli {

// Lengths only: nothing that a buyer may not read. The quote's own figures of straps; the lines out of its
// description, read with the habits of its day. Faults: those of a description that can no longer be read.
Read<OnCover> on_cover(db::Workshop& workshop, FrozenQuote const& quote);

inline constexpr std::string_view cover_not_known =
    "The lines and straps of the cover are not drawn: the description of the quote can no longer be read, "
    "for what it "
    "names is gone or another rule holds.";

}  // namespace endband::cli
