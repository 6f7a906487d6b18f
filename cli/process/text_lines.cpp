#include "cli/process/text_lines.h"

#include "cli/command/context.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <utility>

namespace endband::cli {
namespace {

constexpr std::size_t piece = 1U << 18U;

Fault unreadable(std::string const& name, std::string const& wanted) {
  bool const missing = errno == ENOENT || errno == ENOTDIR;
  return {missing ? FaultCode::file_missing : FaultCode::file_unusable,
          {name, 0, 0, ""},
          missing ? "no such file" : std::strerror(errno),
          wanted,
          {}};
}

}  // namespace

TextLines::TextLines(int descriptor, std::string source, std::string wanted)
    : descriptor_(descriptor), source_(std::move(source)), wanted_(std::move(wanted)) {}

TextLines::TextLines(TextLines&& other) noexcept
    : descriptor_(std::exchange(other.descriptor_, -1)),
      source_(std::move(other.source_)),
      wanted_(std::move(other.wanted_)),
      room_(std::move(other.room_)),
      at_(other.at_),
      number_(other.number_) {}

TextLines::~TextLines() {
  if (descriptor_ > STDIN_FILENO) close(descriptor_);
}

Read<TextLines> TextLines::open(std::string const& path, std::string wanted) {
  if (path != "-") {
    int const descriptor = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
    if (descriptor < 0) return refuse(unreadable(path, wanted));
    return TextLines(descriptor, path, std::move(wanted));
  }
  std::string const name(standard_input);
  if (isatty(STDIN_FILENO) != 0)
    return refuse({FaultCode::file_missing,
                   {name, 0, 0, ""},
                   "it is the keyboard",
                   wanted + " from a file or a pipe",
                   {}});
  return TextLines(STDIN_FILENO, name, std::move(wanted));
}

// More of the text behind what is left of it; false at its end. errno is set where it cannot be read.
bool TextLines::fill() {
  room_.erase(0, at_);
  at_ = 0;
  std::size_t const had = room_.size();
  room_.resize(had + piece);
  ssize_t got = -1;
  do got = read(descriptor_, room_.data() + had, piece);
  while (got < 0 && errno == EINTR);
  if (got >= 0) errno = 0;
  room_.resize(had + static_cast<std::size_t>(got < 0 ? 0 : got));
  return got > 0;
}

Read<bool> TextLines::next(std::string_view& line) {
  std::size_t end = room_.find('\n', at_);
  while (end == std::string::npos) {
    std::size_t const looked = room_.size() - at_;
    if (!fill()) {
      if (errno != 0) return refuse(unreadable(source_, wanted_));
      if (room_.empty()) return false;
      end = room_.size();
      break;
    }
    end = room_.find('\n', looked);
  }
  line = std::string_view(room_).substr(at_, end - at_);
  at_ = std::min(end + 1, room_.size());
  ++number_;
  return true;
}

}  // namespace endband::cli
