#include "cli/command/context.h"

#include "cli/version.h"

#include <fcntl.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>

namespace endband::cli {

Read<db::Workshop*> Context::workshop() {
  if (!workshop_) {
    auto opened = db::Workshop::open(workshop_path);
    if (!opened) return tl::unexpected(std::move(opened.error()));
    workshop_.emplace(std::move(*opened));
  }
  return &*workshop_;
}

namespace {

// More than any description that a person writes; its reader says so in words.
constexpr std::size_t most_bytes = 16U << 20U;

class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  ~Descriptor() {
    if (number_ > STDIN_FILENO) close(number_);
  }
  Descriptor(Descriptor const&) = delete;
  Descriptor& operator=(Descriptor const&) = delete;
  int number() const { return number_; }

 private:
  int number_;
};

// All there is; errno is set when it fails.
std::optional<std::string> read_all(int descriptor) {
  std::string text;
  std::array<char, 65536> piece{};
  while (text.size() <= most_bytes) {
    ssize_t const got = read(descriptor, piece.data(), piece.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return std::nullopt;
    if (got == 0) break;
    text.append(piece.data(), static_cast<std::size_t>(got));
  }
  return text;
}

Fault unreadable(std::string const& name) {
  bool const missing = errno == ENOENT || errno == ENOTDIR;
  return {missing ? FaultCode::file_missing : FaultCode::file_unusable,
          {name, 0, 0, ""},
          missing ? "no such file" : std::strerror(errno),
          "a file that can be read",
          {}};
}

}  // namespace

Read<std::string> Context::read_file(std::string const& path) {
  bool const standard = path == "-";
  std::string const name = standard ? std::string(standard_input) : path;
  // A person who sees nothing happen does not know that the program waits for the keyboard.
  if (standard && isatty(STDIN_FILENO) != 0)
    return refuse({FaultCode::file_missing,
                   {name, 0, 0, ""},
                   "it is the keyboard",
                   "a text from a file or a pipe",
                   {}});
  Descriptor const file(standard ? STDIN_FILENO : open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (file.number() < 0) return refuse(unreadable(name));
  auto text = read_all(file.number());
  if (!text) return refuse(unreadable(name));
  // Places are counted after a byte order mark.
  sources_[name] = text->starts_with("\xEF\xBB\xBF") ? text->substr(3) : *text;
  return std::move(*text);
}

std::string const* Context::source_text(std::string_view source) const {
  auto const found = sources_.find(source);
  return found == sources_.end() ? nullptr : &found->second;
}

db::EntryInfo Context::entry() const {
  return {.seq = 0,
          .at_utc = at_utc,
          .on = on,
          .command = typed,
          .program = "endband " + std::string(program_version)};
}

}  // namespace endband::cli
