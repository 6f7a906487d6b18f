// What is kept of a failure of the program itself, so that it can be mended.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace endband::cli {

struct Failure {
  std::string at_utc;  // "2026-11-25T09:10:05Z"
  std::string noun, verb;
  std::vector<std::string> flags;  // by name; their values are the user's own
  std::string kind;                // of exception
  std::string what;                // its text
};

// Without names, amounts or paths of the user's.
std::string report_text(Failure const& failure);

// Writes it into the folder, which is made where there is none; its path, or nullopt where that cannot be.
std::optional<std::string> keep_report(std::string const& folder, Failure const& failure);

}  // namespace endband::cli
