#include "tests/faults/walk.h"

#include "tests/faults/failing_disk.h"
#include "tests/faults/looked.h"

#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <stdexcept>
#include <string_view>

namespace endband::faults {
namespace {

namespace fs = std::filesystem;

// The exit status of a process that did the operation on a failing disk.
enum Status : int { done = 0, done_in_spite = 1, told = 3, cut_off = ended_by_power_cut, wrong = 99 };

int in_child(std::function<int()> const& action) {
  pid_t const child = ::fork();
  if (child == 0) {
    int status = wrong;
    try {
      status = action();
    } catch (std::exception const& e) {
      std::fprintf(stderr, "%s\n", e.what());
    }
    ::_exit(status);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : static_cast<int>(wrong);
}

struct Kind {
  Failure failure;
  std::string_view name;
};
constexpr std::array kinds{Kind{Failure::full, "full"}, Kind{Failure::io_error, "input/output error"},
                           Kind{Failure::dead_disk, "dead disk"}, Kind{Failure::power_cut, "power cut"},
                           Kind{Failure::torn_writes, "torn writes"}};

constexpr int all_of_first = 30, all_of_last = 15;

class Walk {
 public:
  Walk(std::string const& base, std::function<Ending(std::string const&)> const& operation, int stride)
      : base_(base), operation_(operation), stride_(stride) {}

  Walked walked() {
    before_ = looked_.at(fresh_copy());
    if (int const status = run(0, Failure::full); status != done) return failed_without_failure(status);
    after_ = looked_.at(copy_);
    if (before_ == after_) result_.wrong.emplace_back("it writes nothing");
    for (Kind const& kind : kinds) over(kind);
    return std::move(result_);
  }

 private:
  Walked failed_without_failure(int status) {
    result_.wrong.push_back("on a good disk it ends with " + std::to_string(status));
    return std::move(result_);
  }

  std::string const& fresh_copy() const {
    for (char const* suffix : {"", "-wal", "-shm", "-journal"}) fs::remove(copy_ + suffix);
    if (fs::exists(base_)) fs::copy_file(base_, copy_);
    return copy_;
  }

  // Step 0: a good disk, and SQLite's own way to it.
  int run(int step, Failure failure) const {
    fresh_copy();
    return in_child([&] {
      if (step > 0) {
        install();
        fail_at(step, failure);
      }
      if (operation_(copy_) == Ending::told) return static_cast<int>(told);
      return static_cast<int>(has_failed() ? done_in_spite : done);
    });
  }

  void over(Kind const& kind) {
    saw_before_ = saw_after_ = false;
    int step = 1;
    while (fails_at(step, kind)) step += step < all_of_first ? 1 : stride_;
    if (stride_ > 1) steps_from(std::max(all_of_first + 1, step - stride_ - all_of_last), kind);
    if (!saw_before_) result_.wrong.push_back(std::string(kind.name) + ": never as before");
    if (!saw_after_ && kind.failure != Failure::full)
      result_.wrong.push_back(std::string(kind.name) + ": never as after");
  }

  void steps_from(int step, Kind const& kind) {
    while (fails_at(step, kind)) ++step;
  }

  // False: the operation has fewer steps, or nothing more can be learnt of it.
  bool fails_at(int step, Kind const& kind) {
    int const status = run(step, kind.failure);
    if (status == done) return false;
    ++result_.runs;
    result_.steps = std::max(result_.steps, step);
    std::string const where = std::string(kind.name) + " at step " + std::to_string(step) + ": ";
    if (status == wrong || step >= 5000) {
      result_.wrong.push_back(where + (status == wrong ? "it crashed or threw" : "no end"));
      return false;
    }
    look(status, where);
    return true;
  }

  void look(int status, std::string const& where) {
    try {
      std::string const& now = looked_.at(copy_);
      saw_before_ = saw_before_ || now == before_;
      saw_after_ = saw_after_ || now == after_;
      if (now != before_ && now != after_) result_.wrong.push_back(where + "neither as before nor as after");
      if (status == done_in_spite && now != after_)
        result_.wrong.push_back(where + "told as done, and is not");
    } catch (std::runtime_error const& unsound) {
      result_.wrong.push_back(where + unsound.what());
    }
  }

  std::string const& base_;
  std::function<Ending(std::string const&)> const& operation_;
  int const stride_;
  std::string const copy_ = base_ + ".copy";
  Looked looked_;
  std::string before_, after_;
  bool saw_before_ = false, saw_after_ = false;
  Walked result_;
};

}  // namespace

Walked walk(std::string const& base, std::function<Ending(std::string const& path)> const& operation,
            int stride) {
  return Walk(base, operation, stride).walked();
}

}  // namespace endband::faults
