// A step's times as they are typed.
#pragma once

#include "engine/labour/labour.h"

#include <string>
#include <vector>

namespace endband::cli {

std::string times_words(Spread3 const& times);        // "5/10/20 min", "1 min 30 s"
std::string wait_words(Duration low, Duration high);  // "8/12 h"; empty: none
std::string step_name(OperationKind kind);            // "sew-sections"
std::vector<std::string> step_names(std::vector<OperationKind> const& kinds);

}  // namespace endband::cli
