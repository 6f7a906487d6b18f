// The scripts of the shells, built into the program from the files beside this one.
#pragma once

#include <string_view>

namespace endband::cli {

std::string_view completion_script(std::string_view shell);  // one of shells()

}  // namespace endband::cli
