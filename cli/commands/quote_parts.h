// Tables that several quote commands show to the binder.
#pragma once

#include "cli/document/document.h"
#include "engine/commission/commission.h"

namespace endband::cli {

// Copies, the volumes of a set, the range of repairs, what is in custody: nothing of a single new book but
// what the next one would add.
void add_order(Document& document, FrozenQuote const& quote);
Table volumes_table(std::vector<VolumeMade> const& volumes);
Table ladder_table(FrozenQuote const& quote);   // from the cash floor to what is asked, all without tax
Table largest_table(FrozenQuote const& quote);  // the three dearest lines of the cost sheet

}  // namespace endband::cli
