#include "db/files.h"

#include "db/workshop.h"

#include <fcntl.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <system_error>

namespace endband::db {
namespace {

[[noreturn]] void unusable(std::string const& path, int error) {
  throw StoreError(FaultCode::file_unusable, path + ": " + std::generic_category().message(error));
}

void sync(std::string const& path, int flags) {
  int const descriptor = ::open(path.c_str(), flags | O_CLOEXEC);
  if (descriptor < 0) unusable(path, errno);
  int const result = ::fsync(descriptor);
  int const error = errno;
  ::close(descriptor);
  if (result != 0 && error != EINVAL)
    unusable(path, error);  // EINVAL: a file system that has nothing to sync
}

}  // namespace

std::optional<Fault> left_beside(std::string const& path) {
  std::string names;
  for (std::string_view const suffix : kept_beside)
    if (std::string const name = path + std::string(suffix);
        std::filesystem::exists(std::filesystem::symlink_status(name)))
      names += (names.empty() ? "" : " and ") + std::filesystem::path(name).filename().string();
  if (names.empty()) return std::nullopt;
  return Fault{
      FaultCode::file_unusable,
      {path, 0, 0, ""},
      "a file of this name is gone and has left " + names + ", which would be read as a part of the new one",
      "another name, or what is left moved out of the way",
      {}};
}

TemporaryFile::TemporaryFile(std::string const& target) : path_(target + ".new-XXXXXX") {
  int const descriptor = ::mkostemp(path_.data(), O_CLOEXEC);  // O_EXCL, 0600
  if (descriptor < 0) unusable(target, errno);
  ::close(descriptor);
}

TemporaryFile::~TemporaryFile() {
  if (path_.empty()) return;
  std::error_code ignored;
  std::filesystem::remove(path_, ignored);
  for (std::string_view const suffix : kept_beside)
    std::filesystem::remove(path_ + std::string(suffix), ignored);
}

void TemporaryFile::move_to(std::string const& target) {
  move_into_place(path_, target);
  path_.clear();
}

void make_private_file(std::string const& path) {
  int const descriptor = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
  if (descriptor < 0 && errno == EEXIST) throw StoreError(FaultCode::already_exists, path);
  if (descriptor < 0) unusable(path, errno);
  ::close(descriptor);
}

void move_into_place(std::string const& from, std::string const& target) {
  if (auto const left = left_beside(target))
    throw StoreError(left->code, target + ": " + left->found + "; needed is " + left->expected);
  sync(from, O_RDONLY);
  if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, target.c_str(), RENAME_NOREPLACE) != 0) {
    if (errno == EEXIST) throw StoreError(FaultCode::already_exists, target);
    if (errno != EINVAL && errno != ENOSYS) unusable(target, errno);
    // A file system that cannot refuse to replace: the check before it leaves a moment's gap.
    if (std::filesystem::exists(target)) throw StoreError(FaultCode::already_exists, target);
    if (std::rename(from.c_str(), target.c_str()) != 0) unusable(target, errno);
  }
  std::string const folder = std::filesystem::path(target).parent_path().string();
  sync(folder.empty() ? "." : folder, O_RDONLY | O_DIRECTORY);
}

}  // namespace endband::db
