// A customer as a record of the command line: which flags make one, and the fields in words.
#pragma once

#include "cli/command/args.h"
#include "cli/command/command.h"
#include "cli/commands/changed.h"
#include "db/customers.h"

#include <string>
#include <vector>

namespace endband::cli {

std::vector<Flag> customer_flags();
Fields fields_of(db::Customer const& customer);

// A new one as the flags say it. Faults: without a name.
Read<db::Customer> customer_said(Args const& args, std::string const& code, Date since);
// One that is kept with what the flags change.
db::Customer customer_changed(Args const& args, db::Customer customer);

}  // namespace endband::cli
