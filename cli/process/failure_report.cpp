#include "cli/process/failure_report.h"

#include "cli/version.h"
#include "db/workshop.h"
#include "engine/commission/commission.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>

namespace endband::cli {
namespace {

// Our own messages name behind a ": " what they are about; SQLite's name tables and columns, never a value.
std::string without_names(std::string const& what) {
  return what.starts_with("SQLite ") ? what : what.substr(0, what.find(": "));
}

}  // namespace

std::string report_text(Failure const& failure) {
  std::string flags;
  for (std::string const& flag : failure.flags) flags += " " + flag;
  return fmt::format(
      "endband {}, workshop schema {}, engine rules {}\n"
      "when     {}\n"
      "command  {} {}{}\n"
      "kind     {}\n"
      "what     {}\n",
      program_version, db::schema_version, engine_rules, failure.at_utc, failure.noun, failure.verb, flags,
      failure.kind, without_names(failure.what));
}

std::optional<std::string> keep_report(std::string const& folder, Failure const& failure) {
  std::error_code error;
  std::filesystem::create_directories(folder, error);
  std::string day = failure.at_utc;
  std::erase(day, ':');  // "failure-2026-11-25T091005Z.txt"
  std::string const path = folder + "/failure-" + day + ".txt";
  std::ofstream out(path, std::ios::binary | std::ios::trunc);
  out << report_text(failure);
  out.close();
  if (!out) return std::nullopt;
  return path;
}

}  // namespace endband::cli
