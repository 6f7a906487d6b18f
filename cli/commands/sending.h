// The parcel that a book is sent in: the smallest carton in stock, and what a service takes for it.
#pragma once

#include "cli/commands/described.h"

#include <optional>

namespace endband::cli {

// The book in the smallest carton on the shelf that holds it; unchanged where it is sent by no service, has
// no packing, or no carton on the shelf holds it.
Read<Described> in_smallest_carton(db::Workshop& workshop, Described described, Asked const& asked, Date on);

// Sets the delivery of a commission that is sent by a service: each book in a parcel of its own, insured for
// what the buyer pays for it, which is found by pricing first without carriage. Faults of carriage_of,
// of `command`.
Read<std::optional<SentBy>> send(Commission& commission, Sending const& sending, Priced const& priced,
                                 std::string const& command);

}  // namespace endband::cli
