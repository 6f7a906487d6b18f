// The columns of each kind of table, by the command that reads or writes it.
#pragma once

#include "cli/command/command.h"
#include "cli/forms/spreadsheet.h"

#include <vector>

namespace endband::cli {

std::vector<SpreadsheetColumn> material_columns();
std::vector<SpreadsheetColumn> customer_columns();
std::vector<SpreadsheetColumn> stock_columns(bool by_lot);
std::vector<SpreadsheetColumn> job_columns();

// None of a command that has to do with no table.
std::vector<SpreadsheetColumn> sheet_columns(Command const& command);

}  // namespace endband::cli
