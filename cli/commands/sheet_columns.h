// The columns of each kind of table, by the command that reads or writes it.
#pragma once

#include "cli/command/command.h"
#include "cli/forms/sheet.h"

#include <vector>

namespace endband::cli {

std::vector<SheetColumn> material_columns();
std::vector<SheetColumn> customer_columns();
std::vector<SheetColumn> stock_columns(bool by_lot);
std::vector<SheetColumn> job_columns();

// None of a command that has to do with no table.
std::vector<SheetColumn> sheet_columns(Command const& command);

}  // namespace endband::cli
