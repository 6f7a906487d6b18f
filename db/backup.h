// A copy of a workshop, made while others may read and write it.
#pragma once

#include "db/workshop.h"

#include <string>

namespace endband::db {

// The whole workshop as it stands now, in a new file of mode 0600 that is there whole or not at all. `to`
// must be free. Throws StoreError (already_exists, file_unusable, not_a_workshop).
void back_up(Workshop& workshop, std::string const& to);

}  // namespace endband::db
