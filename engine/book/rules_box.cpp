// The box and the parcel.
#include "engine/book/rules_table.h"

namespace endband {

std::span<Rule const> rules_of_box() { return {}; }

}  // namespace endband
