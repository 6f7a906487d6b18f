// What stands before a notice, wherever it is written.
#pragma once

#include "cli/document/document.h"

#include <string_view>

namespace endband::cli {

std::string_view notice_label(NoticeKind kind);  // "Look: "

}  // namespace endband::cli
