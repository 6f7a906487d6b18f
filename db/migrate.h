// Brings a workshop file up to date: each migration in a transaction of its own, after a backup beside the
// file.
#pragma once

#include "db/connection.h"
#include "schema/schema.h"

#include <span>
#include <string>

namespace endband::db {

// Runs those that the file does not have yet, in order. Each commits whole, with its user_version, or leaves
// the file as it was. A file that already had some is first copied to `backup_path(...)`; another program may
// have been faster.
void migrate(Connection& connection, std::span<schema::Migration const> migrations);

// The same without a backup, for a file that nobody has yet.
void apply(Connection& connection, std::span<schema::Migration const> migrations);

// "workshop.db.version-1.backup", or with a number before the last word when that exists.
std::string backup_path(std::string const& path, int version);

// A whole copy as of now, mode 0600; `to` must not exist.
void copy_database(Connection& from, std::string const& to);

int pragma_number(Connection& connection, std::string const& pragma);  // "user_version", "application_id"

}  // namespace endband::db
