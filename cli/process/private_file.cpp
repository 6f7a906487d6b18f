#include "cli/process/private_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <utility>

namespace endband::cli {

PrivateFile::PrivateFile(std::string path)
    : path_(std::move(path)), beside_(path_ + ".unfinished-" + std::to_string(getpid())) {}

PrivateFile::~PrivateFile() {
  if (descriptor_ >= 0) close(descriptor_);
}

tl::unexpected<std::vector<Fault>> PrivateFile::unusable() const {
  return refuse(
      {FaultCode::file_unusable, {path_, 0, 0, ""}, std::strerror(errno), "a file that can be written", {}});
}

Read<bool> PrivateFile::begin() {
  struct stat what {};
  if (stat(path_.c_str(), &what) == 0 && S_ISDIR(what.st_mode)) {
    errno = EISDIR;
    return unusable();
  }
  descriptor_ = open(beside_.path().c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
  if (descriptor_ < 0) return unusable();
  return true;
}

Read<bool> PrivateFile::write(std::string_view text) {
  while (!text.empty()) {
    ssize_t const written = ::write(descriptor_, text.data(), text.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return unusable();
    text.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

Read<bool> PrivateFile::put_in_place() {
  if (fsync(descriptor_) != 0 && errno != EINVAL) return unusable();
  int const closed = close(std::exchange(descriptor_, -1));
  if (closed != 0) return unusable();
  if (std::rename(beside_.path().c_str(), path_.c_str()) != 0) return unusable();
  beside_.done();
  return true;
}

}  // namespace endband::cli
