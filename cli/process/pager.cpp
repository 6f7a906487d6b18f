#include "cli/process/pager.h"

#include "cli/document/text.h"

#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <iterator>
#include <sstream>
#include <string>
#include <vector>

namespace endband::cli {
namespace {

constexpr int no_such_program = 127;

// Words between blanks, without a shell that would make anything else of them.
std::vector<std::string> words_of(std::string const& command) {
  std::istringstream text(command.empty() ? "less -FIRX" : command);
  return {std::istream_iterator<std::string>(text), {}};
}

[[noreturn]] void become_pager(int input, std::vector<std::string> words) {
  dup2(input, STDIN_FILENO);
  signal(SIGPIPE, SIG_DFL);
  signal(SIGXFSZ, SIG_DFL);
  std::vector<char*> pointers;
  for (std::string& word : words) pointers.push_back(word.data());
  pointers.push_back(nullptr);
  if (!words.empty()) execvp(pointers.front(), pointers.data());
  _exit(no_such_program);
}

void write_to(int descriptor, std::string_view text) {
  while (!text.empty()) {
    ssize_t const written = write(descriptor, text.data(), text.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return;
    text.remove_prefix(static_cast<std::size_t>(written));
  }
}

// What is typed to stop the pager is not meant for us.
class InterruptWaits {
 public:
  InterruptWaits() : before_(signal(SIGINT, SIG_IGN)) {}
  ~InterruptWaits() { signal(SIGINT, before_); }
  InterruptWaits(InterruptWaits const&) = delete;
  InterruptWaits& operator=(InterruptWaits const&) = delete;

 private:
  void (*before_)(int);
};

}  // namespace

bool shown_in_pager(std::string_view text, std::string const& command) {
  std::array<int, 2> ends{};
  if (pipe(ends.data()) != 0) return false;
  pid_t const child = fork();
  if (child == 0) {
    close(ends[1]);
    become_pager(ends[0], words_of(command));
  }
  close(ends[0]);
  if (child < 0) {
    close(ends[1]);
    return false;
  }
  InterruptWaits const wait;
  write_to(ends[1], text);
  close(ends[1]);
  int status = 0;
  while (waitpid(child, &status, 0) < 0 && errno == EINTR) {
  }
  bool const missing =
      WIFEXITED(status) && (WEXITSTATUS(status) == no_such_program || WEXITSTATUS(status) == 126);
  return !missing;
}

std::size_t lines_on_screen(std::string_view text, std::size_t width) {
  std::size_t lines = 0;
  while (!text.empty()) {
    std::size_t const end = std::min(text.find('\n'), text.size());
    std::size_t const wide = display_width(text.substr(0, end));
    lines += width == 0 || wide <= width ? 1 : (wide + width - 1) / width;
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return lines;
}

}  // namespace endband::cli
