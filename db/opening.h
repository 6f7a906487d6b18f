// Opening a workshop's file where it lies: also where it may only be read, and where the disk is full.
#pragma once

#include "db/connection.h"

#include <memory>
#include <string>

namespace endband::db {

// Where nothing may be made beside the file, what is opened is the file as it stood at one moment, and can
// only be read. Throws StoreError (file_unusable, workshop_busy), std::filesystem::filesystem_error.
std::unique_ptr<Connection> open_where_it_lies(std::string const& path);

}  // namespace endband::db
