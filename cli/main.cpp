// The process around a command line: signals, the terminal, the clock, the two outputs, the exit code.
#include "cli/command/run.h"
#include "cli/process/pager.h"
#include "cli/process/unfinished.h"

#include <fmt/chrono.h>
#include <fmt/format.h>
#include <sys/ioctl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <charconv>
#include <cstdlib>
#include <cstring>
#include <ctime>
#include <string_view>

namespace {

using endband::cli::Outcome;
using endband::cli::Surroundings;

std::optional<std::string> environment(char const* name) {
  char const* const value = std::getenv(name);
  return value == nullptr ? std::nullopt : std::optional<std::string>(value);
}

winsize terminal_size() {
  winsize size{};
  if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0) size = {};
  return size;
}

std::size_t terminal_width() {
  if (winsize const size = terminal_size(); size.ws_col > 0) return size.ws_col;
  std::string const columns = environment("COLUMNS").value_or("");
  std::size_t width = 0;
  std::from_chars(columns.data(), columns.data() + columns.size(), width);
  return width >= 20 ? width : 80;
}

// The day by the wall: a business date is civil, in the place where the binder is.
endband::Date civil_today(std::time_t now) {
  std::tm local{};
  localtime_r(&now, &local);
  using namespace std::chrono;
  return sys_days{year{local.tm_year + 1900} / month{static_cast<unsigned>(local.tm_mon + 1)} /
                  day{static_cast<unsigned>(local.tm_mday)}};
}

Surroundings surroundings() {
  Surroundings around;
  around.workshop = environment("ENDBAND_WORKSHOP");
  around.data_home = environment("XDG_DATA_HOME");
  around.state_home = environment("XDG_STATE_HOME");
  around.home = environment("HOME");
  std::time_t const now = std::time(nullptr);
  around.today = civil_today(now);
  around.now_utc = fmt::format("{:%Y-%m-%dT%H:%M:%S}Z", fmt::gmtime(now));
  around.out_is_terminal = isatty(STDOUT_FILENO) != 0;
  around.err_is_terminal = isatty(STDERR_FILENO) != 0;
  around.colour =
      environment("NO_COLOR").value_or("").empty() && environment("TERM").value_or("dumb") != "dumb";
  around.width = terminal_width();
  return around;
}

// 0, or the errno that stopped it.
int write_all(int descriptor, std::string_view text) {
  while (!text.empty()) {
    ssize_t const written = write(descriptor, text.data(), text.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return errno;
    text.remove_prefix(static_cast<std::size_t>(written));
  }
  return 0;
}

// What is longer than the terminal is paged, where there is a terminal that can and nobody said not to.
bool paged(Outcome const& outcome, Surroundings const& around) {
  if (!outcome.may_page || !around.out_is_terminal || isatty(STDIN_FILENO) == 0) return false;
  std::size_t const rows = terminal_size().ws_row;
  bool const dumb = environment("TERM").value_or("dumb") == "dumb";
  if (rows == 0 || dumb || endband::cli::lines_on_screen(outcome.out, around.width) < rows) return false;
  auto const pager = environment("PAGER");
  if (pager && (pager->empty() || *pager == "cat")) return false;
  return endband::cli::shown_in_pager(outcome.out, pager.value_or(""));
}

int finish(Outcome const& outcome, Surroundings const& around) {
  constexpr int exit_output = 3;
  int const failed = paged(outcome, around) ? 0 : write_all(STDOUT_FILENO, outcome.out);
  if (failed != 0 && failed != EPIPE) {  // a reader that has left has seen what it wanted
    std::string_view const saved = outcome.saved ? "; what the command does is done and saved" : "";
    write_all(STDERR_FILENO, fmt::format("endband: standard output: {}{}\n", std::strerror(failed), saved));
    return exit_output;
  }
  write_all(STDERR_FILENO, outcome.err);
  return outcome.exit;
}

}  // namespace

int main(int argc, char** argv) {
  umask(S_IRWXG | S_IRWXO);  // names, addresses and costs: what is written is for its owner
  endband::cli::die_cleanly_of_signals();
  std::vector<std::string> const words(argv + std::min(argc, 1), argv + argc);
  Surroundings const around = surroundings();
  return finish(endband::cli::run_line(words, around), around);
}
