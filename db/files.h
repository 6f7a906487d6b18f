// Files that appear whole or not at all.
#pragma once

#include "engine/fault/fault.h"

#include <array>
#include <optional>
#include <string>
#include <string_view>

namespace endband::db {

// A new empty file, mode 0600, beside where it is to stand; removed again, with SQLite's own files beside it,
// unless it was moved there. All throw StoreError(file_unusable).
class TemporaryFile {
 public:
  explicit TemporaryFile(std::string const& target);
  ~TemporaryFile();
  TemporaryFile(TemporaryFile const&) = delete;
  TemporaryFile& operator=(TemporaryFile const&) = delete;

  std::string const& path() const { return path_; }
  // Durable on return. StoreError(already_exists) when another made `target` meanwhile: nothing is ever
  // replaced.
  void move_to(std::string const& target);

 private:
  std::string path_;
};

// How the names end of what SQLite keeps beside a file.
inline constexpr std::array<std::string_view, 3> kept_beside{"-wal", "-shm", "-journal"};

// What SQLite would read as a part of a new file of this name: it was left by one that is gone. Fault:
// file_unusable.
std::optional<Fault> left_beside(std::string const& path);

// A new empty file, mode 0600. Throws StoreError(already_exists, file_unusable).
void make_private_file(std::string const& path);

// Renames and never replaces, nor to where something is left; the folder is synced. As
// TemporaryFile::move_to.
void move_into_place(std::string const& from, std::string const& target);

}  // namespace endband::db
