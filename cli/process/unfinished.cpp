#include "cli/process/unfinished.h"

#include <signal.h>
#include <unistd.h>

#include <array>
#include <cstring>
#include <stdexcept>
#include <string_view>

namespace endband::cli {
namespace {

// A handler may touch no std::string: the names stand ready as plain characters.
constexpr std::size_t name_room = 4200;
constexpr std::array<std::string_view, 4> endings{"", "-wal", "-shm", "-journal"};
std::array<std::array<char, name_room>, endings.size()> names{};
volatile sig_atomic_t has_unfinished = 0;

constexpr std::array ending{SIGINT, SIGTERM, SIGHUP};

void mask(int how) {
  sigset_t set;
  sigemptyset(&set);
  for (int number : ending) sigaddset(&set, number);
  sigprocmask(how, &set, nullptr);
}

extern "C" void on_signal(int number) {
  remove_unfinished();
  signal(number, SIG_DFL);
  raise(number);
}

}  // namespace

void remove_unfinished() noexcept {
  if (has_unfinished == 0) return;
  for (auto const& name : names) unlink(name.data());
}

Unfinished::Unfinished(std::string path) : path_(std::move(path)) {
  if (has_unfinished != 0) throw std::logic_error("two unfinished files at once");
  if (path_.size() + 10 >= name_room) return;  // longer than any file system takes: creating it will say so
  for (std::size_t i = 0; i < endings.size(); ++i) {
    std::string const name = path_ + std::string(endings[i]);
    std::memcpy(names[i].data(), name.c_str(), name.size() + 1);
  }
  has_unfinished = 1;
}

Unfinished::~Unfinished() {
  remove_unfinished();
  has_unfinished = 0;
}

void Unfinished::done() { has_unfinished = 0; }

SignalsWait::SignalsWait() { mask(SIG_BLOCK); }

SignalsWait::~SignalsWait() { mask(SIG_UNBLOCK); }

void die_cleanly_of_signals() {
  struct sigaction action {};
  action.sa_handler = on_signal;
  sigemptyset(&action.sa_mask);
  for (int number : ending) {
    struct sigaction before {};
    sigaction(number, nullptr, &before);
    if (before.sa_handler != SIG_IGN) sigaction(number, &action, nullptr);  // nohup stays nohup
  }
  signal(SIGPIPE, SIG_IGN);
  signal(SIGXFSZ, SIG_IGN);
}

}  // namespace endband::cli
