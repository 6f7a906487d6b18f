// A stream that is read on one thread and worked on by others, without ever being held as a whole.
#pragma once

#include <functional>
#include <optional>

namespace endband::cli {

struct Streamed {
  std::function<void()> work;    // on any thread, beside others
  std::function<void()> finish;  // here, in the order of the stream
};

// Calls `next` here until it gives nothing; the works are done by two threads more, and here where there is
// nothing to read into. A few are ahead of the first unfinished one, never more. What was thrown first, in
// the order of the stream, is thrown here once the threads have ended; nothing after it is finished.
void stream_together(std::function<std::optional<Streamed>()> const& next);

}  // namespace endband::cli
