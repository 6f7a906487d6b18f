// What a description says of the text block and of other things that cannot both hold. Private to
// engine/book.
#pragma once

#include "engine/book/resolve_layers.h"
#include "engine/book/way.h"

#include <vector>

namespace endband {

// Drops the keys that mean nothing in a book of these ways: they are the habit of other books, or a mistake
// where the description says them. Then brings keys that say the same thing in different ways down to one:
// the stronger layer's stands and the others are dropped. Within one layer they must agree. Faults:
// contradiction.
void settle_block(Layers& layers, Ways ways, std::vector<Fault>& faults);
void settle_alternatives(Layers& layers, std::vector<Fault>& faults);

}  // namespace endband
