// The manual page, in the macros of man(7): made from the table of commands, as the help is.
#pragma once

#include <string>

namespace endband::cli {

std::string man_page();

}  // namespace endband::cli
