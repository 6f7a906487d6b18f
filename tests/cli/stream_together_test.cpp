#include "cli/process/stream_together.h"

#include <doctest/doctest.h>

#include <atomic>
#include <stdexcept>
#include <string>
#include <thread>
#include <vector>

using namespace endband::cli;

namespace {

// So many works, each of which may throw; what was finished, in order.
struct Works {
  int count = 0, throws_at = -9, fails_to_finish_at = -1, fails_to_read_at = -1;
  std::atomic<int> begun{0}, most_ahead{0};
  std::vector<int> finished;
  bool all_here = true;  // read and finished on one thread

  void run() {
    std::thread::id const here = std::this_thread::get_id();
    int read = 0;
    stream_together([&]() -> std::optional<Streamed> {
      all_here = all_here && std::this_thread::get_id() == here;
      if (read == fails_to_read_at) throw std::runtime_error("read");
      if (read == count) return std::nullopt;
      int const which = read++;
      most_ahead = std::max(most_ahead.load(), read - static_cast<int>(finished.size()));
      return Streamed{[this, which] {
                        ++begun;
                        if (which % 5 == 0) std::this_thread::yield();
                        if (which == throws_at || which == throws_at + 1)
                          throw std::runtime_error(std::to_string(which));
                      },
                      [this, which, here] {
                        all_here = all_here && std::this_thread::get_id() == here;
                        if (which == fails_to_finish_at) throw std::runtime_error("finish");
                        finished.push_back(which);
                      }};
    });
  }
};

}  // namespace

TEST_CASE("a stream is worked on by others and finished here, in its own order, a few ahead") {
  for (int const count : {0, 1, 7, 8, 9, 2000}) {
    Works works;
    works.count = count;
    works.run();
    CHECK(works.begun == count);
    CHECK(works.all_here);
    CHECK(works.most_ahead <= 9);
    std::vector<int> in_order;
    for (int i = 0; i < count; ++i) in_order.push_back(i);
    CHECK(works.finished == in_order);
  }
}

TEST_CASE("the first that throws ends the stream, and nothing after it is finished") {
  Works works;
  works.count = 100;
  works.throws_at = 40;
  CHECK_THROWS_WITH(works.run(), "40");
  CHECK(works.finished.size() == 40);
  Works reading;
  reading.count = 100;
  reading.fails_to_read_at = 60;
  CHECK_THROWS_WITH(reading.run(), "read");
  CHECK(reading.finished.size() >= 51);
  Works finishing;
  finishing.count = 100;
  finishing.fails_to_finish_at = 12;
  CHECK_THROWS_WITH(finishing.run(), "finish");
  CHECK(finishing.finished.size() == 12);
}
