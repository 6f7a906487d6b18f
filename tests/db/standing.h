// What stands in a workshop, as text: the shelf, what is set aside, quotes and jobs, versions in force on
// many days. Asked of the store's readers where there are some, else of the rows, never of what takes back.
#pragma once

#include "db/workshop.h"

#include <string>

namespace endband::db::test {

std::string standing_state(Workshop& workshop);

}  // namespace endband::db::test
