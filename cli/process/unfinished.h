// A file that is not yet what it is to be: it goes when its maker fails, and also when a signal ends the
// process.
#pragma once

#include <string>

namespace endband::cli {

class Unfinished {
 public:
  explicit Unfinished(std::string path);  // one at a time
  ~Unfinished();                          // removes it and what SQLite keeps beside it, unless it is done
  Unfinished(Unfinished const&) = delete;
  Unfinished& operator=(Unfinished const&) = delete;
  std::string const& path() const { return path_; }
  void done();

 private:
  std::string path_;
};

// While it lives, the signals that would end the process wait: for a moment in which another makes a file
// whose name we do not know.
class SignalsWait {
 public:
  SignalsWait();
  ~SignalsWait();
  SignalsWait(SignalsWait const&) = delete;
  SignalsWait& operator=(SignalsWait const&) = delete;
};

// For a signal handler: calls only what may be called there.
void remove_unfinished() noexcept;

// SIGINT, SIGTERM and SIGHUP: remove what is unfinished, then die of the signal. An open transaction is
// rolled back by whoever opens the workshop next, as after any other end of a process. SIGPIPE and SIGXFSZ
// are ignored: writing says EPIPE and EFBIG.
void die_cleanly_of_signals();

}  // namespace endband::cli
