// Why a text is not TOML, told in plain words.
#pragma once

#include "engine/description/raw.h"

#include <optional>
#include <string_view>

namespace endband {

// What no parser is asked to read: too long, not UTF-8, or keys of more parts than any description has (a
// parser of tables within tables needs stack for each).
std::optional<Fault> refused_before_parsing(std::string_view text);

// `place` and `said`: what the TOML library says. The line tells more to one who knows what people write.
Fault explain_syntax(std::string_view text, TextPlace place, std::string_view said);

}  // namespace endband
