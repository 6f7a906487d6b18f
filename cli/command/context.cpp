#include "cli/command/context.h"

#include "cli/version.h"

#include <unistd.h>

#include <cerrno>
#include <fstream>
#include <iostream>
#include <iterator>

namespace endband::cli {

Read<db::Workshop*> Context::workshop() {
  if (!workshop_) {
    auto opened = db::Workshop::open(workshop_path);
    if (!opened) return tl::unexpected(std::move(opened.error()));
    workshop_.emplace(std::move(*opened));
  }
  return &*workshop_;
}

Read<std::string> Context::read_file(std::string const& path) {
  bool const standard = path == "-";
  std::string const name = standard ? std::string(standard_input) : path;
  // A person who sees nothing happen does not know that the program waits for the keyboard.
  if (standard && isatty(STDIN_FILENO) != 0)
    return refuse({FaultCode::file_missing,
                   {name, 0, 0, ""},
                   "it is the keyboard",
                   "a description from a file or a pipe",
                   {}});
  std::ifstream file;
  errno = 0;
  if (!standard) file.open(path, std::ios::binary);
  if (!standard && !file) {
    bool const missing = errno == ENOENT || errno == ENOTDIR;
    return refuse({missing ? FaultCode::file_missing : FaultCode::file_unusable,
                   {name, 0, 0, ""},
                   "",
                   "a description that can be read",
                   {}});
  }
  std::istream& in = standard ? std::cin : file;
  std::string text{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  // Opening a folder succeeds; reading it does not.
  if (in.bad() || (text.empty() && errno == EISDIR))
    return refuse({FaultCode::file_unusable, {name, 0, 0, ""}, "", "a description that can be read", {}});
  sources_[name] = text;
  return text;
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
