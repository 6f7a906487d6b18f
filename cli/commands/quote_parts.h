// Tables that several quote commands show to the binder.
#pragma once

#include "cli/document/document.h"
#include "engine/commission/commission.h"

namespace endband::cli {

Table ladder_table(FrozenQuote const& quote);   // from the cash floor to what is asked, all without tax
Table largest_table(FrozenQuote const& quote);  // the three dearest lines of the cost sheet

}  // namespace endband::cli
