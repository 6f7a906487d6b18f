// Which binding a book is, and the ways it is made. Private to engine/book.
#pragma once

#include "engine/book/resolve_layers.h"

#include <vector>

namespace endband {

// The layers with the practice of their binding, and then that of every binding, below them.
std::vector<Layer> with_practice(std::span<Layer const> layers);

// What is said, else what follows from it, else what is usual in the binding. A habit of the workshop that
// the binding refuses is not meant for it and is passed over. Faults: refused_part, contradiction.
Ways resolve_ways(Layers const& layers, Style const& style, std::vector<Fault>& faults);

}  // namespace endband
