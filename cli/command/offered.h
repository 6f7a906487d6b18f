// What may stand as the value of a word or a flag, while it is typed.
#pragma once

#include "cli/command/flag.h"

#include <string>
#include <string_view>
#include <vector>

namespace endband::db {
class Workshop;
}

namespace endband::cli {

struct Offer {
  std::string word;
  std::string about;  // what it is, in few words; may be empty
};

// Those of the type that begin with `typed`. Without a workshop only what the program itself knows.
std::vector<Offer> offered(FlagType type, std::string_view typed, db::Workshop* workshop);

}  // namespace endband::cli
