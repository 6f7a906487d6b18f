#include "cli/process/taken.h"

#include "db/files.h"

#include <array>
#include <filesystem>
#include <fstream>
#include <string_view>

namespace endband::cli {
namespace {

namespace fs = std::filesystem;
using namespace std::string_view_literals;

// Source: SQLite's "Database File Format", 1.3.1: the first 16 bytes.
constexpr auto database_mark = "SQLite format 3\0"sv;

bool is_database(fs::path const& path) {
  std::array<char, database_mark.size()> first{};
  std::ifstream file(path, std::ios::binary);
  file.read(first.data(), first.size());
  return file && std::string_view(first.data(), first.size()) == database_mark;
}

bool is_kept_beside_one(std::string const& path) {
  for (std::string_view const end : db::kept_beside)
    if (path.ends_with(end) && is_database(path.substr(0, path.size() - end.size()))) return true;
  return false;
}

Fault never(std::string const& path, std::string why) {
  return {FaultCode::file_unusable, {path, 0, 0, ""}, std::move(why), "the name of a new file", {}};
}

}  // namespace

std::optional<Fault> taken(std::string const& path, Where const& where, bool yes) {
  if (is_kept_beside_one(path)) return never(path, "belongs to a workshop");
  std::error_code error;
  if (!fs::exists(fs::symlink_status(path, error))) return {};
  fs::file_status const what = fs::status(path, error);  // of what a link leads to
  if (fs::is_directory(what)) return never(path, "is a folder");
  if (fs::exists(what) && !fs::is_regular_file(what)) return never(path, "is a device or a pipe, not a file");
  if (is_database(path)) return never(path, "is a workshop, which is never written over");
  if (!yes) return Fault{FaultCode::already_exists, where, path, "--yes, to write over it", {}};
  return {};
}

}  // namespace endband::cli
