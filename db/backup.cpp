#include "db/backup.h"

#include "db/migrate.h"

namespace endband::db {

void back_up(Workshop& workshop, std::string const& to) { copy_database(workshop.connection(), to); }

}  // namespace endband::db
