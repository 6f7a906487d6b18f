// What stands where a file for the user is to be put.
#pragma once

#include "engine/fault/fault.h"

#include <optional>
#include <string>

namespace endband::cli {

// Why nothing may be put there; nothing when it may. A file is written over only when the user said so
// (`yes`); a folder, a device, a database (a workshop or its backup) and what SQLite keeps beside one never
// are, also through a link. Faults: already_exists at `where`; file_unusable.
std::optional<Fault> taken(std::string const& path, Where const& where, bool yes);

}  // namespace endband::cli
