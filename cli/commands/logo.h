// The workshop's picture at the head of its papers.
#pragma once

#include "cli/command/context.h"
#include "db/workshop.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace endband::cli {

// The bytes of the PNG picture that maker.logo names, whose path goes from the workshop's folder; empty where
// it names none. Faults: file_missing, file_unusable; bad_value, where it is no whole PNG picture of a
// megabyte at most.
Read<std::string> logo_of(Context& context, db::Workshop& workshop, Date on);

// Width x height in dots; none: it is no whole PNG (ISO/IEC 15948: signature, IHDR first, IEND last).
struct Dots {
  std::uint32_t width = 0, height = 0;
};
std::optional<Dots> png_size(std::string_view bytes);

}  // namespace endband::cli
